//! A motif that never comes to an end.

use crate::wording::both;
use crate::{Finding, Rule, Severity};
use smol_str::SmolStr;

pub(crate) static RULE: Rule = Rule {
    name: "motif-works-itself",
    severity: Severity::Error,
    tags: &[],
    summary: "A motif works itself, directly or through others.",
    why: "A motif that contains itself would be tied forever. Use `repeat` or `for` for what comes over and \
          over, and a series, such as `forward 4 down to 1`, for what shrinks each time.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sway() {
  take left 1: forward 3
  work sway()
}

set { work sway() }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sway() {
  take left 1: forward 3
}

set {
  repeat 2 { work sway() }
}
"#,
};

pub(super) fn words(motif: &str, by_way_of: &[SmolStr]) -> Finding {
    let others: Vec<_> =
        by_way_of.iter().filter(|name| *name != motif).map(|name| format!("`{name}`")).collect();
    let others: Vec<_> = others.iter().map(String::as_str).collect();
    let way = if others.is_empty() { String::new() } else { format!(" through {}", both(&others)) };
    Finding::new(&RULE, format!("The motif `{motif}` works itself{way}: it would never end."))
        .help("Use `repeat`, `for` or a series such as `4 down to 1` for what comes again.")
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn the_way_round_is_named() {
        assert_eq!(words("fan", &[]).message, "The motif `fan` works itself: it would never end.");
        let way = ["rib".into(), "tip".into()];
        assert_eq!(
            words("fan", &way).message,
            "The motif `fan` works itself through `rib` and `tip`: it would never end."
        );
    }
}
