//! Fewer than no knots.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "negative-count",
    severity: Severity::Error,
    summary: "A number of knots or passes comes out below zero.",
    why: "A count of 0 ties nothing and is allowed, so that a series may run out. Below zero there is nothing to \
          tie: the number was reckoned from others, such as `size - 4`, and one of them is too small.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sweep(size) {
  take left 1: forward size - 4
  take left 1: forward to edge
}

set { work sweep(3) }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sweep(size) {
  take left 1: forward size - 3
  take left 1: forward to edge
}

set { work sweep(3) }
"#,
};

pub(super) fn words(value: i64) -> Finding {
    Finding::new(&RULE, format!("This comes out as {value}, but the least one can tie is 0."))
        .help("See which numbers it is reckoned from.")
}
