//! A quotation mark without its partner.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unclosed-string",
    severity: Severity::Error,
    tags: &[],
    summary: "A text in quotation marks does not end on its line.",
    why: "A text begins and ends with `\"` on one line. For several paragraphs, write several `about` lines. \
          Write a quotation mark inside a text as `\\\"`.",
    example: r#"pattern "Kelp forest

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "This text does not end: its second quotation mark is missing on this line.")
        .help("Write `\"` where the text ends.")
}
