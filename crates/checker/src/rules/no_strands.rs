//! Knots, but no strands.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "no-strands",
    severity: Severity::Error,
    tags: &[],
    summary: "There is something to tie, but no `strands` to tie it with.",
    why: "Before the first knot, the strands must hang: `strands` lists the threads from left to right. \
          Without it, no position and no color can be found. A file that only provides motifs needs no \
          strands, but then it has no `opening`, `set` or `closing` either.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "There are knots to tie here, but no line says which strands hang side by side.")
        .help("Write `strands` and the threads from left to right, above the first block with knots.")
}
