//! A series that never comes to its last number.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "series-runs-away",
    severity: Severity::Error,
    tags: &[],
    summary: "A series counts away from its last number, or does not move.",
    why: "`4 down to 1` is 4, 3, 2, 1; `1 up to 4` is 1, 2, 3, 4. `1 down to 4` would never arrive, and \
          neither would a series with `by 0`. Usually `up` and `down` are swapped.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward 3 up to 1
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward 3 down to 1
}
"#,
};

pub(super) fn away(first: i64, last: i64, down: bool) -> Finding {
    let (said, other) = if down { ("down", "up") } else { ("up", "down") };
    Finding::new(&RULE, format!("Counting {said} from {first} never reaches {last}."))
        .help(format!("Write `{first} {other} to {last}`, or swap the two numbers."))
}

pub(super) fn standing(step: i64) -> Finding {
    Finding::new(&RULE, format!("A series with a step of {step} never reaches its last number."))
        .help("Write a step of 1 or more; `up` or `down` gives the direction.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_other_way_is_offered() {
        let finding = away(1, 3, true);
        assert_eq!(finding.message, "Counting down from 1 never reaches 3.");
        assert!(finding.help.unwrap().starts_with("Write `1 up to 3`"));
        assert!(away(3, 1, false).help.unwrap().starts_with("Write `3 down to 1`"));
    }

    #[test]
    fn a_series_must_move_on() {
        assert_eq!(standing(0).message, "A series with a step of 0 never reaches its last number.");
    }
}
