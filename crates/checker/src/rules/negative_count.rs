//! Fewer than no knots.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "negative-count",
    severity: Severity::Error,
    tags: &[],
    summary: "A number of knots or passes is below zero.",
    why: "A count of 0 ties nothing and is allowed, so that a series can run out. Below zero there is nothing \
          to tie: the number was computed from others, as in `size - 4`, and one of them is too small.",
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
  take left 1: forward size - 4
  take left 1: forward to edge
}

set { work sweep(5) }
"#,
};

pub(super) fn words(value: i64) -> Finding {
    Finding::new(&RULE, format!("This comes to {value}, but you cannot tie fewer than 0."))
        .help("Check the numbers that it is computed from.")
}
