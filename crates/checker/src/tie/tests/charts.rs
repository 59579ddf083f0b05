//! Rows in bricks and the straight rows of a leader.

use crate::testing::{fails, set, tied, ties};
use crate::{Event, Named};
use knotwright_band::Kind;

#[test]
fn rows_pair_the_strands_in_turn() {
    ties("a b c d e f", "rows {\n\\ \\ /\n\\ /\n}", "b d a f c e");
    ties("a b c d e", "rows {\n\\ \\\n\\ \\\n}", "b d a e c");
    ties("a b c d e f", "rows offset {\n\\ \\\n\\ . .\n}", "c a b e d f");
}

#[test]
fn a_mark_shows_the_way_of_the_strand_that_is_seen() {
    let part = tied(&set("a b c d e f g g", "rows {\n\\ / > x\n. < .\n}")).tied.set.unwrap();
    let knots: Vec<_> = part.piece.knots().iter().map(|knot| (knot.gap, knot.kind, knot.working)).collect();
    assert_eq!(
        knots,
        [
            (0, Kind::Forward, 0),
            (2, Kind::Backward, 3),
            (4, Kind::ForwardBackward, 4),
            (6, Kind::Forward, 6),
            (3, Kind::BackwardForward, 4),
        ]
    );
    assert_eq!(part.steps.len(), 2);
    assert!(part.steps.iter().all(|step| step.named == Named::Row));
}

#[test]
fn there_are_exactly_as_many_marks_as_pairs() {
    fails("a b c d", "rows {\n\\ \\ \\\n}", &["RowLength"]);
    fails("a b c d", "rows {\n\\ \\\n\\ \\\n}", &["RowLength"]);
    fails("a b c d", "rows offset {\n\\ \\\n}", &["RowLength"]);
    fails("a b c d", "rows {\n\\\n\\ \\\n\\ .\n}", &["RowLength", "RowLength"]);
    fails("a b c d", "leader left 1 {\n. . . .\n}", &["RowLength"]);
}

#[test]
fn x_is_one_color() {
    fails("a b c c", "rows {\nx x\n}", &["TwoColors"]);
}

#[test]
fn the_leader_goes_to_and_fro() {
    ties("a b c d", "leader left 1 (a) {\n. . .\n}", "b c d a");
    ties("a b c d", "leader left 1 (a) {\n. . .\n# # #\n}", "a b c d");
    ties("a b c d", "leader right 1 {\n. . .\n}", "d a b c");
    fails("a b c d", "leader left 2 {\n. . .\n}", &["LeaderNotAtEdge"]);
    fails("a b c d", "leader left 1 (b) {\n. . .\n}", &["BrokenPromise"]);
}

#[test]
fn letters_are_the_rows_that_draw_them() {
    let strands = "a b b b b b b b";
    let knots = |body: &str| {
        let part = tied(&set(strands, body)).tied.set.unwrap();
        (part.piece.knots().to_vec(), part.piece.straight().to_vec())
    };
    let rows = ". # # # # # .\n. # . . . . .\n. # . . . . .\n. . . . . . .\n";
    assert_eq!(
        knots("leader left 1 {\n. # . . . . .\nletters \"L\"\n# . . . . . .\n}"),
        knots(&format!("leader left 1 {{\n. # . . . . .\n{rows}# . . . . . .\n}}"))
    );
    assert_eq!(
        knots("mirrored {\nleader right 1 {\nletters \"L\"\n}\n}"),
        knots(&format!("mirrored {{\nleader right 1 {{\n{rows}}}\n}}"))
    );
    assert_eq!(
        knots("leader left 1 {\nletters \"L\" across height 5\n}"),
        knots(
            "leader left 1 {\n. . # . . . .\n. . # . . . .\n. . # . . . .\n. . # . . . .\n. . # # # . .\n. . . . . . .\n}"
        )
    );
}

#[test]
fn each_letter_is_a_section() {
    let part = tied(&set("a b b b b b b b", "leader left 1 {\nletters \"sea 1\"\n}")).tied.set.unwrap();
    let titles = part.events.iter().filter_map(|event| match event {
        Event::Section(title) => Some(title.text.as_str()),
        _ => None,
    });
    assert_eq!(titles.collect::<Vec<_>>(), ["s", "e", "a", "1"]);
}

#[test]
fn letters_that_cannot_be_laid_say_why_and_hide_nothing_else() {
    let strands = "a b b b b b";
    for letters in
        ["\" \"", "\"\u{6d77}\"", "\"A\" height 8", "\"A\" height 0", "\"A\" height 9", "\"AHOY\" across"]
    {
        let body = format!("leader left 1 {{\nletters {letters}\n}}\ntake left 1 (b): forward 1");
        fails(strands, &body, &["CannotLetter", "BrokenPromise"]);
    }
    fails(strands, "leader left 2 {\nletters \"A\"\n}", &["LeaderNotAtEdge"]);
    fails(strands, "on left 1 {\nleader left 1 {\nletters \"A\"\n}\n}", &["RangeTooNarrow"]);
}

#[test]
fn columns_are_those_of_the_finished_face_in_every_row() {
    let part = tied(&set("a b c d", "leader left 1 {\n. # #\n. # #\n}")).tied.set.unwrap();
    // Where the strand's color shows, by row and column: working strands 0 is the leader.
    let shows: Vec<_> =
        part.piece.knots().iter().map(|knot| (knot.gap, knot.working == 0, knot.kind)).collect();
    assert_eq!(
        shows,
        [
            (0, true, Kind::Forward),
            (1, false, Kind::Backward),
            (2, false, Kind::Backward),
            (2, false, Kind::Forward),
            (1, false, Kind::Forward),
            (0, true, Kind::Backward),
        ]
    );
    assert_eq!(part.piece.straight(), [0..3, 3..6]);
}

#[test]
fn a_chart_in_a_range_has_the_pairs_of_the_range() {
    ties("a b c d e f", "on inside 1 {\nrows {\n\\ \\\n/\n}\n}", "a c e b d f");
}
