//! Motifs, loops, and what names stand for in them.

use crate::testing::{head, tied};

/// A band of a b c d e f with these motifs and this set.
fn with(motifs: &str, body: &str) -> crate::testing::Band {
    tied(&format!("{}strands a b c d e f\n{motifs}\nset {{\n{body}\n}}\n", head()))
}

#[track_caller]
fn ties(motifs: &str, body: &str, order: &str) {
    let band = with(motifs, body);
    assert_eq!(band.said(), "");
    assert_eq!(band.order(), order);
}

#[track_caller]
fn fails(motifs: &str, body: &str, kinds: &[&str]) {
    let band = with(motifs, body);
    assert_eq!(band.kinds(), kinds, "{}", band.said());
}

#[test]
fn parameters_are_numbers_or_threads() {
    ties("motif m(n, t) { take t 1 from left: forward n }", "work m(2, b)", "a c d b e f");
    ties("motif m(n) { take left n: forward n }", "work m(1 + 1)", "a c d b e f");
    fails("motif m(n) { take left 1: forward n }", "work m(a)", &["NotANumber"]);
    fails("motif m(t) { take left 1 (t): forward 1 }", "work m(3)", &["NotAThread"]);
    fails("motif m(n) { take left 1: forward n }", "work m(1, 2)", &["ArgumentCount"]);
    fails("motif m(n) { take left 1: forward n }", "work m()", &["ArgumentCount"]);
    fails("motif m(a) { take left 1: forward 1 }", "work m(1)", &["NameTaken"]);
}

#[test]
fn an_argument_is_handed_on() {
    let motifs =
        "motif inner(n, t) { take t 1 from left: forward n }\nmotif outer(n, t) { work inner(n + 1, t) }";
    ties(motifs, "work outer(1, b)", "a c d b e f");
}

#[test]
fn a_motif_knows_only_its_own_names() {
    fails(
        "motif m() { take lead: forward 1 }",
        "take left 1 as lead: forward 1\nwork m()",
        &["UnknownLabel"],
    );
    fails("motif m() { take left 1: forward count }", "for count 1 up to 2 { work m() }", &["UnknownNumber"]);
}

#[test]
fn a_motif_can_be_worked_in_the_mirror() {
    ties("motif m(n) { take left 1: forward n }", "work m(2) mirrored", "a b c f d e");
    ties("motif m(n) { take left 1: forward n }", "mirrored { work m(2) mirrored }", "b c a d e f");
}

#[test]
fn a_motif_has_the_width_it_is_meant_for() {
    ties("motif m() on 3 { take left 1: forward 2 }", "on left 3 { work m() }", "b c a d e f");
    fails("motif m() on 3 { take left 1: forward 2 }", "on left 4 { work m() }", &["MotifDoesNotFit"]);
}

#[test]
fn a_motif_cannot_work_itself() {
    fails("motif m() { work m() }", "work m()", &["MotifWorksItself"]);
    let band = with("motif m() { work n() }\nmotif n() { work o() }\nmotif o() { work m() }", "work m()");
    assert_eq!(band.kinds(), ["MotifWorksItself"], "{}", band.said());
    assert!(band.said().contains("by_way_of: [\"n\", \"o\"]"), "{}", band.said());
}

#[test]
fn what_is_wrong_in_a_motif_is_reported_once_with_the_way_there() {
    let band = with("motif m() { take left 1 (c): forward 1 }", "work m()\nwork m()\nboth { work m() }");
    assert_eq!(band.kinds(), ["BrokenPromise"]);
    assert!(band.said().contains("through line 17"), "{}", band.said());
}

#[test]
fn expect_start_has_no_meaning_in_a_motif() {
    fails("motif m() { expect start }", "work m()", &["ExpectStartInMotif"]);
    ties("motif m(t) { expect a t c d e f }", "work m(b)", "a b c d e f");
}

#[test]
fn repeat_does_it_over_again() {
    ties("", "repeat 3 { take left 1: forward to edge }", "d e f a b c");
    ties("", "repeat 0 { take left 1: forward to edge }", "a b c d e f");
    fails("motif m(n) { repeat n - 2 { take left 1: forward 1 } }", "work m(1)", &["NegativeCount"]);
}

#[test]
fn for_counts_down_or_up() {
    ties("", "for count 3 down to 1 { take left 1: forward count }", "d c b a e f");
    ties("", "for count 1 up to 5 by 2 { take left count: forward 1 }", "b a d c f e");
    fails("", "for count 1 down to 3 { take left count: forward 1 }", &["SeriesAway"]);
    fails("", "for count 1 up to 3 { take count 1 from left: forward 1 }", &["NotAThread"]);
    fails("", "for a 1 up to 3 { take left a: forward 1 }", &["NameTaken"]);
    ties(
        "",
        "for count 1 up to 1 { take left count: forward 1 }\nfor count 1 up to 1 { take left count: forward 1 }",
        "a b c d e f",
    );
}

#[test]
fn unknown_names_are_reported_with_the_nearest() {
    for (motifs, body, reported) in [
        ("", "work fan()", "due: Motif, name: \"fan\", nearest: None"),
        ("motif fan() { meet center }", "work fna()", "due: Motif, name: \"fna\", nearest: Some(\"fan\")"),
        ("", "take left 1 (foam): forward 1", "due: Thread, name: \"foam\", nearest: None"),
        ("", "take left 1 as lead: forward 1\ntake laed: forward 1", "nearest: Some(\"lead\")"),
        ("motif m(size) { take left 1: forward siez }", "work m(1)", "nearest: Some(\"size\")"),
        ("", "take left 1: forward a", "NotANumber { name: \"a\", given: None }"),
    ] {
        let band = with(motifs, body);
        assert_eq!(band.facts.len(), 1, "{}", band.said());
        assert!(band.said().contains(reported), "{}", band.said());
    }
}
