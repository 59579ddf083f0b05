//! More knots than can be handled.

use crate::{Finding, Rule, Severity, Tag};

pub(crate) static RULE: Rule = Rule {
    name: "too-many-knots",
    severity: Severity::Error,
    tags: &[Tag::Limit],
    summary: "An opening, set or closing has more than 10 million knots.",
    why: "A wristband has a few hundred knots, a long belt a few tens of thousands. Ten million would take a \
          lifetime to tie. Such a number comes from a slip of the finger, or from a `repeat` inside a \
          `repeat`.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4 { take left 1: forward to edge }
  take left 1: forward-backward 40000000
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
    Finding::new(&RULE, "Up to here, there would be more than 10 million knots.")
        .help("Check the numbers of the `repeat`, `for` and series around it.")
}
