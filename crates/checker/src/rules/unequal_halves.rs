//! The two sides of a `|` are not alike in number.

use crate::wording::{count, number};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "unequal-halves",
    severity: Severity::Error,
    tags: &[],
    summary: "The two halves around a `|` have different numbers of strands.",
    why: "A `|` marks the center of the band, so the same number of strands must hang to its left and to its \
          right. If not, either a strand is missing or the mark is in the wrong place. With `| mirror`, the \
          right half is made from the left one and always fits.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp foam | foam kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | foam kelp

set {
  repeat 2 {
    both { take left 1: forward to center left }
    meet center
  }
}
"#,
};

pub(super) fn words(left: usize, right: usize) -> Finding {
    let (strands, others) = (count(left.to_u64(), "strand"), number(right.to_u64()));
    Finding::new(&RULE, format!("To the left of the center mark hang {strands}, to the right {others}."))
        .help("Make the two halves equal in number, or move the `|` to the center.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn both_halves_are_counted() {
        assert_eq!(
            super::words(3, 2).message,
            "To the left of the center mark hang three strands, to the right two."
        );
    }
}
