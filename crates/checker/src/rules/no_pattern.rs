//! The file does not begin with `pattern`.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "no-pattern",
    severity: Severity::Error,
    tags: &[],
    summary: "A file does not begin with `pattern` and its title.",
    why: "The first line of a file gives the band its name: `pattern \"Kelp forest\"`. It is the heading of \
          the instructions, the picture and the cut list, and it shows that this file is a pattern. Only \
          comments may come before it.",
    example: r#"thread kelp #1f5d50

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
    Finding::new(&RULE, "The file does not begin with `pattern` and a title.")
        .help("Write `pattern \"...\"` with the name of the band as the first line.")
}
