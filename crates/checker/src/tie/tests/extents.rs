//! How far a run goes.

use crate::testing::{fails, set, tied, ties};
use knotwright_band::Kind;

#[test]
fn a_count_ties_so_many() {
    ties("a b c d", "take left 1: forward 3", "b c d a");
    ties("a b c d", "take left 1: forward 0", "a b c d");
    fails("a b c d", "for n 1 up to 3 { take left 1: forward n - 2 }", &["NegativeCount"]);
    fails("a b c d", "take left 1: forward 4", &["PastEdge"]);
    fails("a b c d", "take left 1: backward 1", &["PastEdge"]);
}

#[test]
fn turning_knots_stay_on_the_same_neighbor() {
    let band = tied(&set("a b c", "take left 2: forward-backward 4, backward-forward 2"));
    let knots = &band.tied.set.as_ref().unwrap().piece.knots();
    assert_eq!(band.order(), "a b c");
    let seen: Vec<_> = knots.iter().map(|knot| (knot.gap, knot.kind, knot.working, knot.base)).collect();
    assert_eq!(seen[..4], [(1, Kind::ForwardBackward, 1, 2); 4]);
    assert_eq!(seen[4..], [(0, Kind::BackwardForward, 1, 0); 2]);
    fails("a b", "take left 1: backward-forward 1", &["PastEdge"]);
}

#[test]
fn over_promises_or_counts_the_base_strands() {
    ties("a b b c", "take left 1: forward 2 over b", "b b a c");
    fails("a b c c", "take left 1: forward 2 over b", &["BaseIsOther"]);
    ties("a b b c", "take left 1: forward over b", "b b a c");
    fails("a b b c", "take left 1: forward over c", &["NothingToTie"]);
    fails("b c a", "take right 1: forward over c", &["NothingToTie"]);
    ties("a b b", "take left 1: forward over b", "b b a");
}

#[test]
fn until_stops_before_the_strand() {
    ties("a b c d", "take left 1: forward until d", "b c a d");
    ties("d a b c", "take right 1: backward until d", "d c a b");
    fails("a b c d", "take left 1: forward until b", &["NothingToTie"]);
    fails("a b c d", "take left 1: forward until e", &["UntilNever"]);
}

#[test]
fn to_goes_until_the_strand_hangs_there() {
    ties("a b c d e f", "take left 1: forward to right 2", "b c d e a f");
    ties("a b c d e f", "take left 1: forward to center left", "b c a d e f");
    ties("a b c d e f", "take left 1: forward to center right", "b c d a e f");
    ties("a b c d e", "take right 1: backward to center", "a b e c d");
    ties("a b c d e f", "take left 3: backward to edge", "c a b d e f");
    ties("a b c d e f", "take left 3: backward to left 3", "a b c d e f");
    fails("a b c d", "take left 3: forward to left 2", &["WrongWay"]);
    fails("a b c d", "take left 2: backward to right 1", &["WrongWay"]);
    fails("a b c d", "take left 2: forward to left 9", &["PlaceNotThere"]);
    fails("a b c d e", "take left 2: forward to center left", &["NoMiddleTwo"]);
}

#[test]
fn runs_follow_one_another_in_one_hand() {
    ties("a b c d", "take left 1: forward 3, backward 1", "b c a d");
    let band = tied(&set("a b c d", "take left 1: forward 2, forward-backward 1, backward 2"));
    let part = band.tied.set.unwrap();
    let runs = part.runs_of(&part.steps[0]);
    assert_eq!(runs, [(Kind::Forward, 2), (Kind::ForwardBackward, 1), (Kind::Backward, 2)]);
}

#[test]
fn then_takes_the_strand_that_now_hangs_where_the_take_began() {
    ties("a b c d", "take left 1: forward 3 then 2", "c d b a");
    ties("a b c d", "take left 1: forward 3\n  then forward 2\n  then 1", "d c b a");
    ties("a b c d", "take left 2: forward 2 then backward 1", "c a d b");
    fails("a b c d", "take a 1 from left: forward 3 then 2", &["NotByPlace"]);
    fails("a b c d", "take left 1 as x: forward 3\ntake x: backward 1 then 2", &["NotByPlace"]);
}

#[test]
fn a_series_ties_all_runs_of_its_take_once_for_each_number() {
    ties("a b c d", "take left 1: forward 3 down to 1", "d c b a");
    ties("a b c d", "take left 1: forward 3 down to 1 by 2", "c b d a");
    ties("a b c d", "take left 1: forward 1 up to 3", "c b d a");
    ties("a b c d", "take left 1: forward 2 down to 1, backward 1", "b a c d");
    fails("a b c d", "take left 1: forward 1 down to 3", &["SeriesAway"]);
    fails("a b c d", "take left 1: forward 3 up to 1", &["SeriesAway"]);
    fails("a b c d", "take left 1: forward 3 down to 1 by 0", &["StepNotPositive"]);
    fails("a b c d", "take a 1 from left: forward 3 down to 1", &["NotByPlace"]);
}

#[test]
fn the_promise_is_of_the_strand_that_is_taken_first() {
    ties("a b c d", "take left 1 (a): forward 3 down to 1", "d c b a");
    fails("a b c d", "take left 1 (b): forward 1", &["BrokenPromise"]);
}

#[test]
fn numbers_are_computed() {
    ties("a b c d e f", "for n 1 up to 1 { take left n: forward (n + 1) * 2 }", "b c d e a f");
    ties("a b c d e f", "for n 5 up to 5 { take left 1: forward n - 1 - 1 }", "b c d a e f");
    fails("a b", "take left 1: forward 100000 * 100000", &["NumberTooLarge"]);
}
