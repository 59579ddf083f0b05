//! A band that begins unevenly.

use crate::wording::ordinal;
use crate::woven::Woven;
use crate::{Finding, Rule, Severity, Tag};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "ragged-start",
    severity: Severity::Warning,
    tags: &[Tag::Hole],
    summary: "At the start, two strands wait for several rows while their neighbors are already tied.",
    why: "A diagonal begins one row later from strand to strand, and a band with a slanted or pointed start \
          is well made. But if two strands are first tied five or more rows after their neighbors, and these \
          have been tied twice before, a notch stays at the top of the band that nothing fills. Usually the \
          set begins in the middle of its motif: start it at another step, or put a few knots in `opening`.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  on left 4 { repeat 4 { take left 1: forward to edge } }
  take right 1: backward to edge
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  take right 1: backward to edge
}
"#,
};

/// The fewest rows that make a start ragged: 1 is a diagonal, 3 one knot more.
const RAGGED: u32 = 5;

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let first = first_knots(woven);
    let row = |gap: usize| first.get(gap).copied().flatten().map(|knot| woven.laid.rows()[knot.to_usize()]);
    let late = |gap: usize| {
        let own = row(gap)?;
        let beside = [gap.checked_sub(1).and_then(row), row(gap + 1)];
        let least = beside.into_iter().flatten().min()?;
        (own >= least + RAGGED).then(|| (own - least, gap, own, least))
    };
    let Some((_, gap, own, least)) = (0..first.len()).filter_map(late).max() else { return Vec::new() };
    let Some(knot) = first[gap] else { return Vec::new() };
    let place = woven.place(knot.to_usize()).unwrap_or_else(|| woven.head());
    let message = format!(
        "The band begins unevenly: between the {} and the {} position from the left, the first knot comes in \
         row {}, at this step, but next to it in row {}.",
        ordinal(gap + 1),
        ordinal(gap + 2),
        own + 1,
        least + 1
    );
    let finding = Finding::new(&RULE, message)
        .at(place)
        .help("Start the set at another step, or fill the notch with a few knots in `opening`.");
    vec![woven.note_work(finding, knot)]
}

/// By gap, its first knot; none at all if a leader begins, whose rows lie straight.
fn first_knots(woven: &Woven) -> Vec<Option<u32>> {
    let first: Vec<Option<u32>> = woven.laid.first_knots().collect();
    let straight = |knot: &u32| woven.laid.is_straight(*knot);
    if first.iter().flatten().any(straight) { Vec::new() } else { first }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    fn set(steps: &str) -> String {
        format!("pattern \"A\"\nthread kelp green\nstrands 6 kelp\nset {{\n{steps}\n}}\n")
    }

    #[test]
    fn the_late_knot_is_named_with_its_row_and_that_beside_it() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "The band begins unevenly: between the fourth and the fifth position from the left, the first knot comes \
              in row 10, at this step, but next to it in row 1."
            ]
        );
    }

    #[test]
    fn slanted_and_pointed_starts_are_well_made() {
        assert_silent(RULE.name, &set("take left 1: forward to edge"));
        assert_silent(RULE.name, &set("both { take left 1: forward to center left }\nmeet center"));
        assert_silent(RULE.name, &set("meet center\nboth { take center left: backward to edge }"));
        assert_silent(
            RULE.name,
            &set("both { on left 3 { take left 1: forward 2 down to 1 } }\nmeet center"),
        );
    }

    #[test]
    fn one_knot_more_is_not_ragged() {
        assert_silent(RULE.name, &set("take left 1: forward-backward 1, forward to edge"));
    }

    #[test]
    fn the_straight_rows_of_a_leader_are_not_ragged() {
        assert_silent(RULE.name, &set("leader left 1 {\n. . . . .\n. . . . .\n}"));
    }
}
