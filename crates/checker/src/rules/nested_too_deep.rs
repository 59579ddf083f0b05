//! Blocks in blocks in blocks.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "nested-too-deep",
    severity: Severity::Error,
    summary: "More than 64 blocks or parentheses stand in one another.",
    why: "Nobody can follow a pattern through 64 braces, and no program should have to. Give a part of it a name \
          with `motif` and work that.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward (((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((3)))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward 3
}
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "More than 64 blocks or parentheses stand in one another here.")
        .help("Make a part of it a `motif` and work that.")
}
