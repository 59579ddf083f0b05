//! `until` that never arrives.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "until-never",
    severity: Severity::Error,
    tags: &[],
    summary: "`until` waits for a color that does not come before the edge.",
    why: "`until foam` ties up to the next foam strand. If there is none between the strand in hand and the \
          edge, the foam does not hang where you meant it to. To go all the way, write `to edge`.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 foam 2 kelp

set {
  take left 3: forward until foam
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 foam 2 kelp

set {
  take right 1: backward until foam
  repeat 4 { take left 1: forward to edge }
}
"#,
};

pub(super) fn words(thread: &str) -> Finding {
    Finding::new(&RULE, format!("No {thread} comes before the edge, so `until {thread}` never arrives."))
        .help(format!("Write `to edge` to go all the way, or check where the {thread} hangs at this step."))
}
