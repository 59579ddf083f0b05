//! A word of the notation as a name.

use crate::wording::{cleaned, quoted};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "reserved-name",
    severity: Severity::Error,
    tags: &[],
    summary: "A reserved word of the notation is used as a name.",
    why: "Sixteen words say where and how, and could be misread if a thread had that name: `left`, `right`, \
          `center`, `edge`, `start`, `from`, `mirror`, `over`, `until`, `to`, `by`, `inside` and the four \
          kinds of knot. The list never grows. Every other word is free, including `take` and `thread`.",
    example: r#"pattern "Kelp forest"

thread edge #1f5d50

strands 4 edge

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread border #1f5d50

strands 4 border

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(found: &str) -> Finding {
    Finding::new(&RULE, format!("{} is a word of the notation and cannot be a name.", quoted(found)))
        .help(format!("Choose another name, or a longer one such as `{}-1`.", cleaned(found)))
}
