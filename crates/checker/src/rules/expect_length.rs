//! An `expect` with too few or too many strands.

use crate::wording::{count, number};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "expect-length",
    severity: Severity::Error,
    tags: &[],
    summary: "An `expect` lists more or fewer strands than hang there.",
    why: "`expect` says, from left to right, how *all* strands of the range hang at this point. Inside `on`, \
          these are the strands of its range. A list of another length cannot be compared.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1: forward to edge
  take right 2: backward to edge
  expect kelp foam kelp
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1: forward to edge
  take right 2: backward to edge
  expect kelp 2 foam kelp
}
"#,
};

pub(super) fn words(listed: usize, width: usize) -> Finding {
    let listed = count(listed.to_u64(), "strand");
    let hang = number(width.to_u64());
    Finding::new(&RULE, format!("This list names {listed}, but {hang} hang here."))
        .help("List every strand of the range; `3 foam` counts as three.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn both_numbers_are_reported() {
        assert_eq!(super::words(3, 4).message, "This list names three strands, but four hang here.");
    }
}
