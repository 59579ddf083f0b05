//! Loops that tie nothing, without end.

use crate::{Finding, Rule, Severity, Tag};

pub(crate) static RULE: Rule = Rule {
    name: "too-many-passes",
    severity: Severity::Error,
    tags: &[Tag::Limit],
    summary: "Loops or motifs run more than 3 million times without tying anything.",
    why: "A loop that ties no knot does nothing, however often it runs. Such a number of passes comes from a slip of the finger \
          in a `repeat` or a series, or from motifs that work other motifs twice each. For every knot that is tied, \
          three more statements are allowed. A loop is not gone on with if its first thousand passes show that all of \
          them would exceed this limit, or the one of knots or of memory, four times over.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4000 {
    repeat 4000 { expect start }
  }
  take left 1: forward to edge
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  expect start
  take left 1: forward to edge
}
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(
        &RULE,
        "Up to here, loops and motifs would run more than 3 million times without tying anything.",
    )
    .help("Check the numbers of the `repeat`, `for` and series around it, and which motifs work one another.")
}
