//! Knots, but no strands.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "no-strands",
    severity: Severity::Error,
    summary: "There is something to tie, but no `strands` to tie it with.",
    why: "Before the first knot the strands must hang: `strands` says which threads, from left to right. Without \
          it no place and no color can be found. A file that only lends motifs to others needs no strands, but \
          then it has no `opening`, `set` or `closing` either.",
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
    Finding::new(&RULE, "Here knots are to be tied, but no line says which strands hang side by side.")
        .help("Write `strands` and the threads from left to right, above the first block that ties.")
}
