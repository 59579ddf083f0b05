//! A hole in the band.

use crate::wording::{count, ordinal};
use crate::woven::Woven;
use crate::{Finding, Place, Rule, Severity};
use knotwright_band::{Hole, holes};
use rustc_hash::FxHashSet as HashSet;

pub(crate) static RULE: Rule = Rule {
    name: "missing-brick",
    severity: Severity::Warning,
    summary: "The band has a hole: a knot is missing where knots lie all around.",
    why: "The knots of a band lie like bricks. Where two strands hang side by side untied while the strands to their \
          left and right are tied above and below, a hole stays, through which one can see. Mostly a run stopped \
          one knot too early, or a `meet center` was forgotten. Only holes that are closed all round are told; a slit \
          that is open above or below, and loops at the edge, are not.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  rows {
    \ \ /
     \ /
    \ . /
     \ /
  }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  rows {
    \ \ /
     \ /
    \ \ /
     \ /
  }
}
"#,
};

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let holes = holes(&woven.whole, &woven.layout);
    if holes.is_empty() {
        return Vec::new();
    }
    let by_row = knots_by_row(woven);
    let mut seen = HashSet::default();
    let mut findings = Vec::new();
    for hole in holes {
        let place = below(woven, hole, &by_row).unwrap_or_else(|| woven.head());
        // The same hole comes again in every set.
        if seen.insert(place) {
            findings.push(words(hole).at(place));
        }
    }
    findings
}

/// By gap, the rows of its knots, in order, and their numbers.
fn knots_by_row(woven: &Woven) -> Vec<Vec<(u32, usize)>> {
    let mut by_gap = vec![Vec::new(); woven.whole.gaps()];
    for (at, knot) in woven.whole.knots().iter().enumerate() {
        by_gap[usize::from(knot.gap)].push((woven.layout.rows[at], at));
    }
    by_gap
}

/// The step that closes the hole from below: the later one of the knots to its left and right.
fn below(woven: &Woven, hole: Hole, by_row: &[Vec<(u32, usize)>]) -> Option<Place> {
    let row = hole.row + 2 * hole.knots - 1;
    let knot_in = |gap: usize| {
        let knots = by_row.get(gap)?;
        let at = knots.binary_search_by_key(&row, |(row, _)| *row).ok()?;
        Some(knots[at].1)
    };
    let gap = usize::from(hole.gap);
    woven.place(knot_in(gap.checked_sub(1)?).max(knot_in(gap + 1))?)
}

fn words(hole: Hole) -> Finding {
    let (left, right) = (usize::from(hole.gap) + 1, usize::from(hole.gap) + 2);
    let missing = count(u64::from(hole.knots), "knot");
    let verb = if hole.knots == 1 { "is" } else { "are" };
    let message = format!(
        "Above this step the band has a hole: between the {} and the {} place from the left {missing} {verb} missing, in \
         row {}.",
        ordinal(left),
        ordinal(right),
        hole.row + 1
    );
    Finding::new(&RULE, message)
        .help("Let a run above it go one knot further, or tie the two that hang there.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{silent, told};

    fn chart(rows: &str) -> String {
        format!(
            "pattern \"Slack tide\"\nthread kelp #1f5d50\nstrands 6 kelp\nset {{\nrows {{\n{rows}\n}}\n}}\n"
        )
    }

    #[test]
    fn the_hole_is_told_once_with_its_place_and_row() {
        assert_eq!(
            told(RULE.name, RULE.example),
            [
                "Above this step the band has a hole: between the third and the fourth place from the left one knot is \
              missing, in row 3."
            ]
        );
    }

    #[test]
    fn a_hole_where_one_set_meets_the_next_is_found() {
        let text = chart("\\ . /\n\\ /\n\\ x /\n\\ /");
        assert_eq!(told(RULE.name, &text).len(), 1);
    }

    #[test]
    fn slits_and_loops_at_the_edge_are_no_holes() {
        silent(RULE.name, &chart("\\ x /\n\\ /\n. x /\n\\ /"));
        let open_above = chart("\\ . /\n\\ /\n\\ x /\n\\ /");
        silent(RULE.name, &open_above.replace("set {", "sets 1\nset {"));
    }
}
