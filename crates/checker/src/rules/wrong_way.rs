//! A goal behind the strand in hand.

use crate::wording::ordinal;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "wrong-way",
    severity: Severity::Error,
    tags: &[],
    summary: "A run should end at a position in the other direction.",
    why: "Forward knots take a strand to the right, backward knots to the left. `forward to left 1` can never \
          arrive if the strand hangs to the right of that position. (If it already hangs there, nothing is \
          tied, and that is fine.)",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 3: forward to left 1 }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 3: backward to left 1
  take left 4: backward to left 1
}
"#,
};

pub(super) fn words(at: usize, goal: usize) -> Finding {
    let (kind, way) = if goal < at { ("backward", "left") } else { ("forward", "right") };
    let message = format!(
        "The strand in hand hangs {} from the left and should go to the {} position, which is to its {way}.",
        ordinal(at),
        ordinal(goal)
    );
    Finding::new(&RULE, message)
        .help(format!("Tie `{kind}` to go there, or name a position on the other side."))
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_kind_that_would_arrive_is_named() {
        let finding = super::words(3, 1);
        assert_eq!(
            finding.message,
            "The strand in hand hangs third from the left and should go to the first position, which is to its left."
        );
        assert!(finding.help.unwrap().starts_with("Tie `backward`"));
        assert!(super::words(1, 3).help.unwrap().starts_with("Tie `forward`"));
    }
}
