//! A brace without its partner.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unmatched-brace",
    severity: Severity::Error,
    summary: "A `{` is never closed, or a `}` closes nothing.",
    why: "Each `{` opens a block and each `}` closes the last one that is open. If one is missing, it is guessed \
          from the indentation where the block should end, so that the rest of the file can still be read.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4 {
    take left 1: forward to edge
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4 {
    take left 1: forward to edge
  }
}
"#,
};

pub(super) fn never_closed() -> Finding {
    Finding::new(&RULE, "This `{` is never closed.")
        .help("Write `}` on a line of its own where the block ends.")
}

pub(super) fn closes_nothing() -> Finding {
    Finding::new(&RULE, "This `}` closes nothing: no block is open here.")
        .help("Delete it, or see whether a `{` is missing above.")
}
