//! A file of an edition still to come.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "newer-edition",
    severity: Severity::Error,
    tags: &[],
    summary: "The file is written in a newer edition of the notation.",
    why: "`edition 2` after the title says that the file uses something that came with a later edition of the \
          notation. Read by the rules of the first edition, it would mean something else, or nothing. \
          Nothing else in such a file is checked.",
    example: r#"pattern "Kelp forest" edition 2

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest" edition 1

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(edition: u32) -> Finding {
    Finding::new(
        &RULE,
        format!("This file needs edition {edition} of the notation; this program knows only edition 1."),
    )
    .help("Get a newer version of this program, or ask for the file in edition 1.")
}
