//! The two sides of a `|` are not alike in number.

use crate::wording::{count, number};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unequal-halves",
    severity: Severity::Error,
    summary: "The two halves beside a `|` are not of the same number.",
    why: "A `|` marks the center of the band, so that as many strands must hang left of it as right of it. If they \
          do not, either a strand is missing or the mark stands in the wrong place. With `| mirror` the right half \
          is made from the left one and always fits.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp foam | foam kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | foam kelp

set {
  repeat 2 {
    both { take left 1: forward to center left }
    meet center
  }
}
"#,
};

pub(super) fn words(left: usize, right: usize) -> Finding {
    let (strands, others) = (count(left as u64, "strand"), number(right as u64));
    Finding::new(&RULE, format!("Left of the center mark hang {strands}, right of it {others}."))
        .help("Let the halves be equal in number, or move the `|` to the center.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn both_halves_are_counted() {
        assert_eq!(
            super::words(3, 2).message,
            "Left of the center mark hang three strands, right of it two."
        );
    }
}
