//! Strands that go on with a new piece of thread, and promises that know it.

use crate::testing::{fails, head, set, tied};

/// Nothing is wrong, and the strands hang like this afterwards.
#[track_caller]
fn holds(strands: &str, body: &str) {
    assert_eq!(tied(&set(strands, body)).said(), "", "{body}");
}

#[test]
fn a_join_alone_moves_nothing_and_keeps_the_color() {
    let plain = tied(&set("a b c", "take left 1 (a): forward 1\ntake left 1 (b): forward 2"));
    let joined = tied(&set(
        "a b c",
        "take left 1 (a): forward 1\njoin left 1\ntake left 1 (b): forward 2\nexpect a c b",
    ));
    assert_eq!(joined.said(), "");
    let (plain, joined) = (plain.tied.set.unwrap().piece, joined.tied.set.unwrap().piece);
    assert_eq!(plain, joined.unjoined());
    assert_eq!(joined.joins().len(), 1);
}

#[test]
fn promises_know_the_new_color() {
    let body = "join left 1 with d\ntake left 1 (d): forward 1";
    holds("a b c", body);
    fails("a b c", "join left 1 with d\ntake left 1 (a): forward 1", &["BrokenPromise"]);
    holds("a b c", "join left 1 with d\nexpect d b c");
    fails("a b c", "join left 1 with d\nexpect a b c", &["ExpectFails"]);
    holds("a b a", "join left 1 with b\ntake left 1: forward over b\ntake right 1: backward over b");
    fails("a b c", "join right 1 with d\ntake left 2: forward 1 over c", &["BaseIsOther"]);
    fails("a a", "join left 1 with b\nmeet center", &["TwoColors"]);
    holds("a b", "join left 1 with b\nmeet center");
}

#[test]
fn a_strand_is_named_as_in_a_take() {
    holds("a b c d", "join d 1 from left with e\nexpect a b c e");
    holds("a b c d", "join center left with e\nexpect a e c d");
    holds("a b c d", "on right 2 { join left 1 with e }\nexpect a b e d");
    holds("a b c d", "take left 1 as guide: forward 2\njoin guide with e\nexpect b c e d");
    holds("a b c d", "both { join left 1 with e }\nexpect e b c e");
    holds("a b c d", "mirrored { join left 1 with e }\nexpect a b c e");
    fails(
        "a b c d",
        "join left 5\ntake left 1 (a): forward 1\ntake left 1 (c): forward 1",
        &["PlaceNotThere", "BrokenPromise"],
    );
    fails("a b c d", "join e 1 from left", &["ColorNotThere"]);
}

#[test]
fn a_strand_is_found_by_its_new_color() {
    holds("a b c", "join left 3 with a\ntake a 2 from left: backward 1\nexpect a a b");
    let text = set("a b c", "join left 3 with a\ntake a 2 from left: backward 1");
    assert!(tied(&text).tied.picks_by_color);
}

#[test]
fn the_parts_after_it_know_the_new_color() {
    let parts = |closing: &str| {
        format!(
            "{}strands a b c\nopening {{\njoin left 1 with d\ntake left 1 (d): forward 2\n}}\nset {{\n\
             take right 1 (d): backward 2\nexpect d b c\n}}\nclosing {{\n{closing}\n}}\n",
            head()
        )
    };
    assert_eq!(tied(&parts("take left 1 (d): forward 1")).said(), "");
    assert_eq!(tied(&parts("take left 1 (a): forward 1")).kinds(), ["BrokenPromise"]);
}

#[test]
fn start_is_how_a_part_began() {
    fails("a b c", "join left 1 with d\nexpect start", &["ExpectFails"]);
    holds(
        "a b c",
        "join left 1 with d\ntake left 1: forward 1\njoin left 2 with a\ntake left 2: backward 1\nexpect start",
    );
    let closes = |body: &str| tied(&set("a b", body)).tied.closes;
    assert_eq!(closes("take left 1: forward-backward 1\njoin left 1 with b"), Some(false));
    assert_eq!(closes("take left 1: forward 1\njoin left 1 with a\njoin left 2 with b"), Some(true));
}

#[test]
fn an_unknown_thread_is_named_with_the_nearest() {
    let text = "pattern \"A\"\nthread kelp green\nthread sand tan\nstrands 2 kelp sand\n\
                set {\njoin left 1 with snad\ntake left 1: forward 2\n}\n";
    let said = tied(text).said();
    assert!(said.contains("due: Thread, name: \"snad\", nearest: Some(\"sand\")"), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
}

#[test]
fn each_pass_joins_again() {
    let band = tied(&set("a b c", "repeat 3 {\njoin left 1\ntake left 1: forward 1\n}"));
    assert_eq!(band.said(), "");
    let part = band.tied.set.unwrap();
    assert_eq!(part.piece.joins().iter().map(|join| join.knot).collect::<Vec<_>>(), [0, 1, 2]);
    assert_eq!(part.joins.len(), 3);
}
