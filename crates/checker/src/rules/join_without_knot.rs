//! A joined strand that is never tied again.

use crate::wording::ordinal;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "join-without-knot",
    severity: Severity::Error,
    tags: &[],
    summary: "A strand is joined, but has no knot after it.",
    why: "The knots after a join hold the new piece of thread, and hide the ends of both. A strand that is not tied again after \
          its `join` would have nothing to hold it.",
    example: r#"pattern "Ferry line"

thread kelp #1f5d50

strands 3 kelp

sets 3

set {
  take left 1: forward to edge
}
closing {
  take left 1: forward 1
  join right 1
}
"#,
    instead: r#"pattern "Ferry line"

thread kelp #1f5d50

strands 3 kelp

sets 3

set {
  take left 1: forward to edge
}
closing {
  join left 1
  take left 1: forward 1
}
"#,
};

pub(super) fn words(position: usize) -> Finding {
    let message = format!(
        "The {} strand from the left is joined here, but it has no knot after this: nothing holds the new piece.",
        ordinal(position)
    );
    Finding::new(&RULE, message)
        .help("Join it before one of its knots, best one in which it is tied over, or leave the line out.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_strand_is_named() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "The third strand from the left is joined here, but it has no knot after this: nothing holds the new piece."
            ]
        );
        assert_silent(RULE.name, RULE.instead);
    }

    #[test]
    fn a_knot_in_the_next_set_holds_it_if_there_is_one() {
        let band = |sets: &str| {
            let body = "set {\ntake left 1: forward 1\njoin left 1\n}\n";
            format!("pattern \"A\"\nthread kelp #1f5d50\nstrands 3 kelp\n{sets}\n{body}")
        };
        assert_silent(RULE.name, &band(""));
        assert_silent(RULE.name, &band("sets 2"));
        assert_eq!(messages_of(RULE.name, &band("sets 1")).len(), 1);
    }
}
