//! Strands, but nothing to tie.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "nothing-tied",
    severity: Severity::Error,
    tags: &[],
    summary: "Strands hang ready, but nothing is tied with them.",
    why: "A pattern with `strands` needs at least one of `opening { }`, `set { }` and `closing { }`; what is \
          tied over and over goes in `set`. A file that only provides motifs to others is a library, and has \
          no `strands`.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "The strands hang ready, but no `opening`, `set` or `closing` ties them.").help(
        "Write `set { ... }` with the steps of one set, or leave out `strands` if the file only \
               provides motifs.",
    )
}
