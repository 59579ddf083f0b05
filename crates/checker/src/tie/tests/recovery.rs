//! One mistake never hides the next and never breeds a flood.

use crate::testing::{fails, set, tied};

#[test]
fn after_a_broken_promise_the_tie_goes_on_with_what_was_found() {
    fails(
        "a b c d",
        "take left 1 (b): forward 1\nexpect b a c d\ntake left 1 (a): forward 1",
        &["BrokenPromise", "BrokenPromise"],
    );
}

#[test]
fn after_a_knot_past_the_edge_only_that_run_is_cut_short() {
    fails("a b c d", "take left 1: forward 9, backward 1\nexpect b c a d", &["PastEdge"]);
}

#[test]
fn after_a_statement_that_does_not_parse_nothing_is_said_until_an_expect_that_fits() {
    let body = "take left 1 forward 3\ntake left 1 (c): forward 2\nexpect a a b b\n\
                expect d c b a\ntake left 1 (d): forward 1\ntake left 1 (a): forward 1";
    let band = tied(&set("a b c d", body));
    assert_eq!(band.kinds(), ["BrokenPromise"]);
    assert!(band.said().contains("line 21 `a`"), "{}", band.said());
}

#[test]
fn after_a_statement_that_names_nothing_too() {
    fails(
        "a b c d",
        "take left 9: forward 1\ntake left 1 (c): forward 2\nexpect a b d c\ntake left 1 (b): forward 1",
        &["PlaceNotThere", "BrokenPromise"],
    );
    fails("a b c d", "work nowhere()\ntake left 1 (c): forward 2", &["UnknownMotif"]);
}

#[test]
fn strands_that_the_statement_could_not_touch_are_still_known() {
    fails(
        "a b c d",
        "on left 2 { take left 3: forward 1 }\non right 2 { take left 1 (d): forward 1 }",
        &["PlaceNotThere", "BrokenPromise"],
    );
}

#[test]
fn an_expect_of_a_narrower_range_tells_too_little() {
    fails(
        "a b c d",
        "take left 9: forward 1\non left 2 { expect a b }\ntake left 1 (c): forward 1",
        &["PlaceNotThere"],
    );
}

#[test]
fn a_set_whose_end_is_unknown_is_not_said_to_stay_open() {
    assert_eq!(tied(&set("a b c d", "take left 9: forward 1")).tied.closes, None);
    assert_eq!(tied(&set("a b", "take left 9: forward 1\nexpect b a")).tied.closes, Some(false));
}

#[test]
fn what_is_said_in_every_pass_is_said_once() {
    fails("a b c d", "repeat 100 { take left 1 (e): forward 1 }", &["BrokenPromise"]);
    fails("a b c d", "for n 1 up to 3 { both { take left n (e): forward 0 } }", &["BrokenPromise"]);
}

#[test]
fn a_broken_line_still_gives_its_name() {
    let threads = "pattern \"Trial\"\nthread a teal\nthread b #12\n";
    let rest = "strands a b\nset {\ntake left 1 (a) as lead forward 1\ntake lead: forward 1\n}\n";
    let band = tied(&format!("{threads}{rest}"));
    assert_eq!(band.kinds(), ["UnknownColor"], "{}", band.said());
    let band = tied(&format!("pattern \"Trial\"\nthread a teal\nthread b \"teal\n{rest}"));
    assert_eq!(band.kinds(), [""; 0], "{}", band.said());
}

#[test]
fn a_motif_line_that_does_not_parse_hides_no_other() {
    let text = "pattern \"Trial\"\nthread a teal\nstrands 4 a\nmotif m(n on 3 { take left 1: forward n }\n\
                set {\nwork m(3)\ntake left 1 (b): forward 1\n}\n";
    let band = tied(text);
    assert_eq!(band.kinds(), ["UnknownThread"], "{}", band.said());
}

#[test]
fn after_an_expect_that_fails_the_strands_hang_as_it_promised() {
    let body = "take left 1: forward 2\nexpect b c d a\ntake left 1 (b): forward 3\nexpect c d a b";
    fails("a b c d", body, &["ExpectFails"]);
    // Where the colors do not fit, what was found stays.
    fails("a b c d", "expect a b c c\nexpect start", &["ExpectFails"]);
}

#[test]
fn expect_lists_the_strands_of_its_range() {
    fails("a b c d", "expect a b c", &["ExpectLength"]);
    fails("a b c d", "on left 2 { expect a b c d }", &["ExpectLength"]);
    fails("a b c d", "expect a | b c d", &["UnequalHalves"]);
    fails("a b c d", "expect 0 a b c d", &["CountOfZero"]);
    fails("a b a b", "expect a b | mirror", &["ExpectFails"]);
    fails("a b b a", "expect a b | mirror", &[]);
    fails("a b c b a", "expect a b | c | mirror", &[]);
    fails("a b c d", "expect a b | c d", &[]);
}
