//! A decimal where one counts.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "not-a-whole-number",
    severity: Severity::Error,
    tags: &[],
    summary: "A number with a decimal point is used to count.",
    why: "Strands, knots, sets and positions are counted in whole numbers. Only lengths, such as `0.9 mm`, \
          may have a decimal point.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
sets 7.5

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
sets 8

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(found: &str) -> Finding {
    Finding::new(&RULE, format!("{} is not a whole number, but this is a count.", quoted(found)))
        .help("Write a number without a decimal point.")
}
