//! A leader in the middle.

use crate::wording::{count, ordinal};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "leader-not-at-edge",
    severity: Severity::Error,
    tags: &[],
    summary: "The leader of a chart does not hang at an edge.",
    why: "A leader goes across all the other strands, row by row, back and forth. It can only start at an \
          edge: from the middle it would leave the strands on its other side untied.",
    example: r#"pattern "Night ferry"

thread night #1b2440
thread lamp #f2c14e

strands lamp night lamp

set {
  leader left 2 (night) {
    . #
    # .
  }
}
"#,
    instead: r#"pattern "Night ferry"

thread night #1b2440
thread lamp #f2c14e

strands night 2 lamp

set {
  leader left 1 (night) {
    . #
    # .
  }
}
"#,
};

pub(super) fn words(position: usize, width: usize) -> Finding {
    let message = format!(
        "The leader hangs {} from the left of {}, but must hang at an edge.",
        ordinal(position),
        count(width.to_u64(), "strand")
    );
    Finding::new(&RULE, message).help("Write `leader left 1` or `leader right 1`, and let that strand lead.")
}
