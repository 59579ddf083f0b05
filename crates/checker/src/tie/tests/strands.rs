//! Which strand is taken, and which strands there are.

use crate::testing::{fails, ties};

#[test]
fn by_its_place_from_either_side() {
    ties("a b c d", "take left 2: forward 1", "a c b d");
    ties("a b c d", "take right 2: backward 1", "a c b d");
    fails("a b c d", "take left 5: forward 1", &["PlaceNotThere"]);
    fails("a b c d", "take right 0: forward 1", &["PlaceNotThere"]);
}

#[test]
fn the_middle_two_of_an_even_range_and_the_middle_one_of_an_odd() {
    ties("a b c d", "take center left: backward 1", "b a c d");
    ties("a b c d", "take center right: forward 1", "a b d c");
    ties("a b c d e", "take center: forward 2", "a b d e c");
    fails("a b c d e", "take center left: forward 1", &["NoMiddleTwo"]);
    fails("a b c d", "take center: forward 1", &["NoMiddleOne"]);
}

#[test]
fn by_color_counted_from_either_side() {
    ties("a b a c b a", "take a 2 from left: forward 1", "a b c a b a");
    ties("a b a c b a", "take a 2 from right: backward 1", "a a b c b a");
    fails("a b a c b a", "take a 4 from left: forward 1", &["ColorNotThere"]);
    fails("a b a c b a", "take a 0 from left: forward 1", &["ColorNotThere"]);
}

#[test]
fn by_color_walking_outward_from_the_middle() {
    ties("a b a c a b a", "take a 1 left of center: backward 1", "a a b c a b a");
    ties("a b a c a b a", "take a 2 right of center: backward 1", "a b a c a a b");
    // The middle strand of an odd range is on neither side.
    fails("a b c b a", "take c 1 left of center: forward 1", &["ColorNotThere"]);
    fails("a b c b a", "take c 1 right of center: forward 1", &["ColorNotThere"]);
    ties("b a a c", "take a 1 left of center: backward 1", "a b a c");
    ties("b a a c", "take a 1 right of center: forward 1", "b a c a");
}

#[test]
fn color_references_count_within_the_range() {
    ties("a a b a", "on right 2 { take a 1 from left: backward 1 }", "a a a b");
    fails("a b c c", "on right 2 { take a 1 from left: backward 1 }", &["ColorNotThere"]);
}

#[test]
fn a_label_is_the_strand_wherever_it_hangs() {
    ties("a b c d", "take left 1 as lead: forward 2\ntake lead: forward 1", "b c d a");
    ties("a b c d", "take left 1 as lead: forward 2\non right 3 { take lead: forward 1 }", "b c d a");
    fails(
        "a b c d",
        "take left 1 as lead: forward 1\non right 2 { take lead: forward 1 }",
        &["LabelOutside"],
    );
}

#[test]
fn a_label_belongs_to_one_pass_of_its_block() {
    ties("a b c d", "repeat 2 {\ntake left 1 as lead: forward 1\ntake lead: forward 1\n}", "c a b d");
    fails(
        "a b c d",
        "section \"one\" { take left 1 as lead: forward 1 }\ntake lead: forward 1",
        &["UnknownLabel"],
    );
    // Its own name must be free.
    fails("a b", "take left 1 as x: forward 1\ntake left 1 as x: forward 1", &["NameTaken"]);
    fails("a b", "take left 1 as a: forward 1", &["NameTaken"]);
    ties("a b", "both { take left 1 as x: forward 1 }\nmirrored { take left 1 as x: forward 0 }", "a b");
}

#[test]
fn within_the_braces_only_these_strands_exist() {
    ties("a b c d e f", "on left 3 { take left 1: forward to edge }", "b c a d e f");
    ties("a b c d e f", "on right 3 { take left 1: forward to edge }", "a b c e f d");
    ties("a b c d e f", "on center 4 { take left 1: forward to edge }", "a c d e b f");
    ties("a b c d e f", "on inside 1 { take left 1: forward to edge }", "a c d e b f");
    ties("a b c d e f", "on 2 to 4 { take left 1: forward to edge }", "a c d b e f");
    ties("a b c d e f", "on right 4 { on inside 1 { take left 1: forward 1 } }", "a b c e d f");
    fails("a b c d e f", "on left 3 { take left 4: forward 1 }", &["PlaceNotThere"]);
    fails("a b c d e f", "on left 3 { take left 1: forward 3 }", &["PastEdge"]);
}

#[test]
fn a_range_lies_within_the_strands_and_has_two_at_least() {
    for (range, kind) in [
        ("left 7", "RangeNotThere"),
        ("right 7", "RangeNotThere"),
        ("center 8", "RangeNotThere"),
        ("3 to 1", "RangeNotThere"),
        ("0 to 3", "RangeNotThere"),
        ("4 to 7", "RangeNotThere"),
        ("left 1", "RangeTooNarrow"),
        ("right 0", "RangeTooNarrow"),
        ("center 0", "RangeTooNarrow"),
        ("inside 3", "RangeTooNarrow"),
        ("4 to 4", "RangeTooNarrow"),
        ("center 3", "RangeOffCenter"),
    ] {
        fails("a b c d e f", &format!("on {range} {{ take left 1: forward 1 }}"), &[kind]);
    }
    ties("a b c d e f", "on inside 0 { take left 6: backward 5 }", "f a b c d e");
}

#[test]
fn meet_is_one_knot_between_the_middle_two_of_one_color() {
    ties("a b b c", "meet center", "a b b c");
    fails("a b c", "meet center", &["NoMiddleTwo"]);
    fails("a b c d", "meet center", &["TwoColors"]);
}
