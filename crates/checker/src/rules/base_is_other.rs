//! A strand tied over that is not of the promised color.

use crate::wording::ordinal;
use crate::{Finding, Rule, Severity, Sighting};

pub(crate) static RULE: Rule = Rule {
    name: "base-is-other",
    severity: Severity::Error,
    tags: &[],
    summary: "A knot goes over a strand of another color than promised.",
    why: "`forward 4 over foam` promises that all four strands tied over are foam. If one of them is not, \
          either the strands do not hang as you meant, or the count is too large. `over foam` without a \
          count ties as long as the next strand is foam, and stops by itself.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 2 foam kelp

set {
  take left 1: forward 3 over foam
  take right 2: backward to edge
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 2 foam kelp

set {
  take left 1: forward 2 over foam, forward to edge
  take right 2: backward to edge
}
"#,
};

pub(super) fn words(promised: &str, found: &Sighting, nth: u64) -> Finding {
    let nth = ordinal(usize::try_from(nth).unwrap_or(usize::MAX));
    let message =
        format!("The {nth} knot of this run goes over {}, but {promised} was promised.", found.thread);
    Finding::new(&RULE, message)
        .moved(found)
        .help(format!("Tie only as far as the {promised} goes: `over {promised}` stops there by itself."))
}

#[cfg(test)]
mod tests {
    use crate::{Place, Sighting};

    #[test]
    fn the_knot_and_both_colors_are_named() {
        let found = Sighting { position: 4, thread: "kelp".into(), last_moved: Some(Place::default()) };
        let finding = super::words("foam", &found, 3);
        assert_eq!(finding.message, "The third knot of this run goes over kelp, but foam was promised.");
        assert_eq!(finding.notes[0].text, "kelp came here with this step");
    }
}
