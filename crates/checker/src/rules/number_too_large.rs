//! A number that nobody ties.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "number-too-large",
    severity: Severity::Error,
    tags: &[],
    summary: "A number is larger than 1,000,000,000.",
    why: "No band has a billion of anything. A number like that is a slip of the finger, or a product in a \
          motif that got out of hand.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 40000000000 { take left 1: forward to edge }
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4 { take left 1: forward to edge }
}
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "This number is too large.").help("Numbers go up to 1,000,000,000.")
}
