//! A hole in the band.

use crate::wording::{count, ordinal};
use crate::woven::{Sound, Woven};
use crate::{Finding, Place, Rule, Severity, Tag};
use knotwright_band::Hole;
use knotwright_numbers::ToNumber;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

pub(crate) static RULE: Rule = Rule {
    name: "missing-brick",
    severity: Severity::Warning,
    tags: &[Tag::Hole],
    summary: "The band has a hole: a knot is missing where knots lie all around.",
    why: "The knots of a band lie like bricks. Where one is missing while knots lie all around it, you can see through \
          the band. Mostly a run stopped too early, or a `meet center` was forgotten. Bricks missing side by side \
          make one hole, whatever its size and shape, and it is reported once, also where one set joins the next. \
          Where strands go slantwise through a band that is knotted loosely, bricks are missing by design: a hole \
          that reaches over several gaps is reported only if at most four bricks in a hundred are missing so. Holes are closed all round: a slit that is open above or below and loops at the edge are none, and beside \
          the straight rows of a leader, where bricks do not lie in their pattern, none is looked for.",
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
    let mut closed: HashMap<Place, Option<u32>> = HashMap::default();
    let (mut findings, mut found) = (Vec::new(), HashSet::default());
    for hole in holes(woven) {
        let step = woven.step(hole.closed_by.to_usize());
        let place = step.map_or_else(|| woven.head(), |step| step.place);
        // The same hole comes again in every set and in every pass; one step may close several at once.
        let pass = step.map(|step| step.knots.start);
        let shape = (hole.first_gap, hole.last_gap, hole.knots);
        // One that is like another at its place is that of the set before.
        if *closed.entry(place).or_insert(pass) == pass && found.insert((place, shape)) {
            findings.push((place, hole));
        }
    }
    let is_between = |hole: &Hole| woven.is_of_second_set(hole.closed_by.to_usize());
    let said = |(place, hole): (Place, Hole)| {
        woven.note_work(words(hole, is_between(&hole)).at(place), hole.closed_by)
    };
    findings.into_iter().map(said).collect()
}

/// The holes that the step at `place` closes.
pub(crate) fn holes_closed_at(sound: &Sound, place: Place) -> Vec<Hole> {
    let woven = Woven::of(sound);
    let is_there = |hole: &Hole| woven.place(hole.closed_by.to_usize()) == Some(place);
    holes(&woven).into_iter().filter(is_there).collect()
}

/// A band in which more bricks in a hundred are missing in holes that reach over several gaps is loose on purpose: strands
/// go their way untied there. The densest of such bands among the patterns written for the tests misses five.
const LOOSE_IN_HUNDRED: usize = 4;

/// All of them, also those that come again.
pub(super) fn holes(woven: &Woven) -> Vec<Hole> {
    let holes = woven.laid.holes();
    if is_loose(woven, &holes) { woven.laid.closed_bricks() } else { holes }
}

/// How many there are.
pub(super) fn count_all(woven: &Woven) -> usize {
    let shapes = woven.laid.hole_shapes();
    if is_loose(woven, &shapes) { woven.laid.closed_brick_shapes().len() } else { shapes.len() }
}

/// Whether the band, which has these holes, is loose on purpose.
fn is_loose(woven: &Woven, holes: &[Hole]) -> bool {
    let is_wide = |hole: &&Hole| hole.first_gap < hole.last_gap;
    let missing: usize = holes.iter().filter(is_wide).map(|hole| hole.knots.to_usize()).sum();
    missing * 100 > woven.laid.rows().len() * LOOSE_IN_HUNDRED
}

/// `is_between`: whether it is there only once a second set follows the first.
fn words(hole: Hole, is_between: bool) -> Finding {
    let (left, right) = (usize::from(hole.first_gap) + 1, usize::from(hole.last_gap) + 2);
    let missing = count(u64::from(hole.knots), "knot");
    let verb = if hole.knots == 1 { "is" } else { "are" };
    let (first, last) = (hole.first_row + 1, hole.last_row + 1);
    let rows = if first == last { format!("row {first}") } else { format!("rows {first} to {last}") };
    let message = format!(
        "The band has a hole above this step: {missing} {verb} missing between the {} and the {} position from the \
         left, in {rows}{}.",
        ordinal(left),
        ordinal(right),
        if is_between { " of the band, where a second set follows the first" } else { "" },
    );
    Finding::new(&RULE, message)
        .help("Let a run above it go further, or knot the strands that hang loose there.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};
    use knotwright_numbers::ToNumber;

    fn chart(rows: &str) -> String {
        format!(
            "pattern \"Slack tide\"\nthread kelp #1f5d50\nstrands 6 kelp\nset {{\nrows {{\n{rows}\n}}\n}}\n"
        )
    }

    #[test]
    fn the_hole_is_reported_once_with_its_place_and_row() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "The band has a hole above this step: one knot is missing between the third and the fourth position from \
              the left, in row 3."
            ]
        );
    }

    #[test]
    fn a_hole_where_one_set_meets_the_next_is_found() {
        let text = chart("\\ . /\n\\ /\n\\ x /\n\\ /");
        let messages = messages_of(RULE.name, &text);
        assert_eq!(messages.len(), 1);
        assert!(
            messages[0].ends_with(" in row 5 of the band, where a second set follows the first."),
            "{messages:?}"
        );
    }

    #[test]
    fn a_hole_of_several_knots_is_reported_once_with_its_size() {
        let rows = "\\ x /\n\\ /\n\\ . /\n\\ /\n\\ . /\n\\ /\n\\ x /\n\\ /";
        assert_eq!(
            messages_of(RULE.name, &chart(rows)),
            [
                "The band has a hole above this step: two knots are missing between the third and the fourth position from \
              the left, in rows 3 to 5."
            ]
        );
        let dense = "rows {\n\\ \\ \\ \\\n\\ \\ \\\n}\n".repeat(30);
        let slanted = |dense: &str| {
            format!(
                "pattern \"A\"\nthread kelp #1f5d50\nstrands 8 kelp\nset {{\nrows {{\n\\ \\ \\ \\\n\\ \\ \\\n\\ . \\ \\\n\
                 \\ . \\\n\\ \\ . \\\n\\ \\ \\\n}}\n{dense}}}\n"
            )
        };
        assert_eq!(
            messages_of(RULE.name, &slanted(&dense)),
            [
                "The band has a hole above this step: three knots are missing between the third and the sixth position \
              from the left, in rows 3 to 5."
            ]
        );
        assert_silent(RULE.name, &slanted(""));
    }

    #[test]
    fn two_holes_that_one_row_closes_are_both_told() {
        let text = "pattern \"A\"\nthread kelp #1f5d50\nstrands 8 kelp\nset {\nrows {\n\\ \\ \\ \\\n\\ \\ \\\n\
                    \\ . . \\\n\\ \\ \\\n}\n}\n";
        let found = find_by(RULE.name, text);
        let other = "the band has a hole above this step: one knot is missing between the fifth and the sixth position from \
                     the left, in row 3";
        assert_eq!((found.len(), found[0].notes[0].text.as_str()), (1, other));
    }

    /// The lines where the only hole says that a motif is worked, from 1.
    fn noted(text: &str) -> Vec<usize> {
        let found = find_by(RULE.name, text);
        assert_eq!(found.len(), 1, "{found:?}");
        let line = |start: usize| text[..start].lines().count() + 1;
        let works = found[0].notes.iter().filter(|note| note.text == "the motif is worked here");
        works.map(|note| line(note.place.span.start.to_usize())).collect()
    }

    #[test]
    fn a_hole_in_a_motif_says_where_that_is_worked() {
        let head = "pattern \"A\"\nthread kelp #1f5d50\nstrands 6 kelp\n";
        let motif = "motif net(n) {\nrows {\n\\ \\ /\n\\ /\n}\nrepeat n {\nrows {\n\\ . /\n\\ /\n}\n}\n}\n\
                     motif nets(n) {\nwork net(0)\nwork net(n)\n}\n";
        assert_eq!(noted(&format!("{head}{motif}set {{\nwork net(1)\n}}\n")), [21]);
        assert_eq!(noted(&format!("{head}{motif}set {{\nwork net(0)\nwork net(1)\nwork net(0)\n}}\n")), [22]);
        assert_eq!(noted(&format!("{head}{motif}set {{\nwork nets(1)\n}}\n")), [21, 18]);
        // Which of two in a motif it was when that is worked again, cannot be said.
        assert_eq!(noted(&format!("{head}{motif}set {{\nwork nets(0)\nwork nets(1)\n}}\n")), [22]);
    }

    #[test]
    fn slits_and_loops_at_the_edge_are_no_holes() {
        assert_silent(RULE.name, &chart("\\ x /\n\\ /\n. x /\n\\ /"));
        let open_above = chart("\\ . /\n\\ /\n\\ x /\n\\ /");
        assert_silent(RULE.name, &open_above.replace("set {", "sets 1\nset {"));
    }
}
