//! More knots than can be reckoned with.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "too-many-knots",
    severity: Severity::Error,
    summary: "An opening, set or closing has more than 10 million knots.",
    why: "A wristband has some hundreds of knots, a long belt some ten thousands. Ten million would take a \
          lifetime to tie; such a number comes from a slip of the finger or from a `repeat` within a `repeat`.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4000 {
    repeat 4000 { take left 1: forward to edge }
  }
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4 {
    repeat 4 { take left 1: forward to edge }
  }
}
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "With this step there are more than 10 million knots.")
        .help("Look at the numbers of the `repeat`, `for` and series around it.")
}
