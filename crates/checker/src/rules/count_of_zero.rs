//! `0 kelp` in a list.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "count-of-zero",
    severity: Severity::Error,
    tags: &[],
    summary: "A list of strands has a count of 0.",
    why: "`3 kelp` is three strands of kelp. For none of them, leave the thread out. A `0` is often the start \
          of a number such as `10`.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 4 kelp 0 foam

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 4 kelp 2 foam

set {
  repeat 6 { take left 1: forward to edge }
}
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "This counts no strand at all.")
        .help("Write how many strands there are, or leave the thread out.")
}
