//! A quotation mark without its partner.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unclosed-string",
    severity: Severity::Error,
    summary: "A text in quotation marks is not closed on its line.",
    why: "A text begins and ends with `\"` on one line. Several paragraphs are several `about` lines. A quotation \
          mark within the text is written `\\\"`.",
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
    Finding::new(&RULE, "This text is not closed: its second quotation mark is missing on this line.")
        .help("Write `\"` where the text ends.")
}
