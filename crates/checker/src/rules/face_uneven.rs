//! A face that does not look the same as promised.

use crate::wording::count;
use crate::{Finding, Rule, Severity};
use knotwright_grammar::tree::FaceSymmetry;
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "face-uneven",
    severity: Severity::Error,
    tags: &[],
    summary: "The face does not look the same in a mirror, upside down or from below, as promised.",
    why: "`expect face mirror` promises that the left half of what is seen mirrors the right one, `expect face turn` that it looks the \
          same upside down, `expect face flip` that the upper half mirrors the lower one. A set that closes goes on below its last \
          row with its first one.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 2 foam kelp

sets 1

set {
  rows {
    \ /
     \
    \ \
  }
  expect face mirror
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 2 foam kelp

sets 1

set {
  rows {
    \ /
     x
    / \
  }
  expect face mirror
}
"#,
};

pub(super) fn words(symmetry: FaceSymmetry, off: usize) -> Finding {
    let promised = match symmetry {
        FaceSymmetry::Mirror => "its left half mirrors the right one",
        FaceSymmetry::Turn => "it looks the same upside down",
        FaceSymmetry::Flip => "its upper half mirrors the lower one",
    };
    let (knots, are) = (count(off.to_u64(), "knot"), if off == 1 { "is" } else { "are" });
    Finding::new(
        &RULE,
        format!("The face was to look so that {promised}, but {knots} {are} unlike their counterparts."),
    )
    .help("Look at the picture, and let the knots and their counterparts show the same color.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_knots_that_are_off_are_counted() {
        assert_eq!(messages_of(RULE.name, RULE.example).len(), 1);
        assert_silent(RULE.name, RULE.instead);
    }
}
