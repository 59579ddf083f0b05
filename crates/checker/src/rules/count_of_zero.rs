//! `0 kelp` in a list.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "count-of-zero",
    severity: Severity::Error,
    summary: "A list of strands counts none of a thread.",
    why: "`3 kelp` is three strands of kelp. None of it is written by leaving it out; a `0` is most often a digit \
          that was not finished, such as `10`.",
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
    Finding::new(&RULE, "Here no strand at all is counted.")
        .help("Write how many strands it is, or leave the thread out.")
}
