//! A strand that is joined again before it is tied.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "joined-twice",
    severity: Severity::Error,
    tags: &[],
    summary: "A strand is joined again before its new piece is tied once.",
    why: "A `join` begins a new piece of thread, and the knots after it hold that piece. If the same strand is joined again \
          before its next knot, the piece in between would hold nothing and fall out.",
    example: r#"pattern "Ferry line"

thread kelp #1f5d50
thread sand #d9b779

strands kelp sand kelp

set {
  take left 1: forward to edge
  join left 2 with sand
  join left 2
  take right 1: backward to edge
}
"#,
    instead: r#"pattern "Ferry line"

thread kelp #1f5d50
thread sand #d9b779

strands kelp sand kelp

set {
  take left 1: forward to edge
  join left 2
  take right 1: backward to edge
}
"#,
};

pub(super) fn words(first: Option<Place>) -> Finding {
    let finding = Finding::new(
        &RULE,
        "This strand was just joined, and no knot is tied with its new piece before it is joined again.",
    )
    .help("Leave out one of the two, or move one to where the strand has been tied in between.");
    match first {
        Some(first) => finding.note(first, "it is joined here before"),
        None => finding.help("Each set joins it again, and no set ties it."),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};

    #[test]
    fn both_places_are_named() {
        let found = find_by(RULE.name, RULE.example);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].notes[0].text, "it is joined here before");
        assert_silent(RULE.name, RULE.instead);
    }

    #[test]
    fn joins_with_a_knot_between_or_in_different_sets_are_two() {
        let band = |body: &str| {
            format!(
                "pattern \"A\"\nthread kelp #1f5d50\nstrands 3 kelp\nset {{\n{body}\ntake left 1: forward 2\n}}\n"
            )
        };
        assert_silent(RULE.name, &band("join left 2\ntake left 1: forward 1\njoin left 1"));
        assert_silent(RULE.name, &band("join left 2 in set 3\njoin left 2 in set 4"));
        assert_eq!(messages_of(RULE.name, &band("join left 2 in set 3\njoin left 2 in set 3")).len(), 1);
        assert_eq!(messages_of(RULE.name, &band("join left 2 in set 3\njoin left 2")).len(), 1);
    }
}
