//! More steps and notes than there is room for.

use crate::{Finding, Rule, Severity, Tag};

pub(crate) static RULE: Rule = Rule {
    name: "too-much-memory",
    severity: Severity::Error,
    tags: &[Tag::Limit],
    summary: "The steps and notes of an opening, set or closing take more than 96 MiB of memory.",
    why: "Steps, sections and notes are kept as they are tied, to be drawn and read aloud, and all of them together \
          have room for about a million steps. A long belt has some thousand. Such a number comes from a slip of the finger \
          in a `repeat` or a series, or from a `repeat` inside a `repeat`.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 2000 {
    repeat 2000 { take left 1: forward to edge }
  }
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
    Finding::new(&RULE, "Up to here, the steps and notes of this part would take more than 96 MiB of memory.")
        .help("Check the numbers of the `repeat`, `for` and series around it.")
}
