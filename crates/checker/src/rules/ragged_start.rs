//! A band that begins unevenly.

use crate::wording::ordinal;
use crate::woven::Woven;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "ragged-start",
    severity: Severity::Warning,
    summary: "At the start two strands wait for several rows while their neighbors are tied already.",
    why: "A diagonal begins one row later from strand to strand, and a band with a slanted or pointed start is well \
          made. But where two strands are first tied five rows or more after their neighbors, these have been \
          tied twice before, and a notch stays at the top of the band that nothing fills. Mostly the set \
          begins in the middle of its motif: let it begin at another step, or put a few knots into `opening`.",
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

/// From so many rows on the start is ragged: 1 is a diagonal, 3 one knot more.
const RAGGED: u32 = 5;

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let first = first_knots(woven);
    let row = |gap: usize| first.get(gap).copied().flatten().map(|knot| woven.layout.rows[knot]);
    let late = |gap: usize| {
        let own = row(gap)?;
        let beside = [gap.checked_sub(1).and_then(row), row(gap + 1)];
        let least = beside.into_iter().flatten().min()?;
        (own >= least + RAGGED).then(|| (own - least, gap, own, least))
    };
    let Some((_, gap, own, least)) = (0..first.len()).filter_map(late).max() else { return Vec::new() };
    let place = first[gap].and_then(|knot| woven.place(knot)).unwrap_or_else(|| woven.head());
    let message = format!(
        "The band begins unevenly: between the {} and the {} place from the left the first knot comes in row {}, with \
         this step, but beside it in row {}.",
        ordinal(gap + 1),
        ordinal(gap + 2),
        own + 1,
        least + 1
    );
    vec![
        Finding::new(&RULE, message)
            .at(place)
            .help("Begin the set with another of its steps, or fill the notch with some knots in `opening`."),
    ]
}

/// By gap, its first knot; none at all if a leader begins, whose rows lie straight.
fn first_knots(woven: &Woven) -> Vec<Option<usize>> {
    let mut first = vec![None; woven.whole.gaps()];
    for (at, knot) in woven.whole.knots().iter().enumerate() {
        first[usize::from(knot.gap)].get_or_insert(at);
    }
    let straight = |knot: &usize| woven.whole.straight().iter().any(|row| row.contains(&(*knot as u32)));
    if first.iter().flatten().any(straight) { Vec::new() } else { first }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{silent, told};

    fn set(steps: &str) -> String {
        format!("pattern \"A\"\nthread kelp green\nstrands 6 kelp\nset {{\n{steps}\n}}\n")
    }

    #[test]
    fn the_late_knot_is_named_with_its_row_and_that_beside_it() {
        assert_eq!(
            told(RULE.name, RULE.example),
            [
                "The band begins unevenly: between the fourth and the fifth place from the left the first knot comes in row 10, \
              with this step, but beside it in row 1."
            ]
        );
    }

    #[test]
    fn slanted_and_pointed_starts_are_well_made() {
        silent(RULE.name, &set("take left 1: forward to edge"));
        silent(RULE.name, &set("both { take left 1: forward to center left }\nmeet center"));
        silent(RULE.name, &set("meet center\nboth { take center left: backward to edge }"));
        silent(RULE.name, &set("both { on left 3 { take left 1: forward 2 down to 1 } }\nmeet center"));
    }

    #[test]
    fn one_knot_more_is_not_ragged() {
        silent(RULE.name, &set("take left 1: forward-backward 1, forward to edge"));
    }

    #[test]
    fn the_straight_rows_of_a_leader_are_not_ragged() {
        silent(RULE.name, &set("leader left 1 {\n. . . . .\n. . . . .\n}"));
    }
}
