//! `both`, `mirrored`: left and right, forward and backward change places, and so does all the rest.

use crate::testing::{fails, set, tied, ties};
use crate::{Event, Named};
use knotwright_band::Kind;

#[test]
fn both_ties_the_body_and_then_its_mirror_image() {
    ties("a b c d e f", "both { on left 3 { take left 1: forward to edge } }", "b c a f d e");
    ties("a b c d e", "both { take left 1: forward to center }", "b c e a d");
    ties("a b c d", "mirrored { take left 1: forward 2 }", "a d b c");
    ties("a b c d", "mirrored { mirrored { take left 1: forward 2 } }", "b c a d");
}

#[test]
fn every_kind_and_every_place_has_its_image() {
    for (body, image) in [
        ("take left 2: forward 1", "take right 2: backward 1"),
        ("take left 2: forward-backward 2", "take right 2: backward-forward 2"),
        ("take center left: backward to left 1", "take center right: forward to right 1"),
        ("take a 1 from left: forward 1", "take a 1 from right: backward 1"),
        ("take c 1 left of center: backward 1", "take c 1 right of center: forward 1"),
        ("take left 1: forward until b", "take right 1: backward until b"),
        ("on left 3 { take left 1: forward over c }", "on right 3 { take right 1: backward over c }"),
        ("on 2 to 4 { take left 1: forward to edge }", "on 3 to 5 { take right 1: backward to edge }"),
        ("rows {\n\\ / >\n< \\\n}", "rows {\n< \\ /\n/ >\n}"),
        ("leader left 1 {\n. # # . .\n}", "leader right 1 {\n. . # # .\n}"),
    ] {
        let strands = "a c b b c a";
        let plain = tied(&set(strands, &format!("mirrored {{\n{body}\n}}"))).tied.set.unwrap();
        let seen = tied(&set(strands, image)).tied.set.unwrap();
        let sorted = |part: &crate::Part| {
            let mut knots: Vec<_> =
                part.piece.knots().iter().map(|knot| (knot.gap, knot.working, knot.kind)).collect();
            knots.sort_unstable();
            knots
        };
        assert!(!seen.piece.knots().is_empty(), "{image}");
        assert_eq!(sorted(&plain), sorted(&seen), "{body}");
        assert_eq!(plain.piece.order(), seen.piece.order(), "{body}");
    }
}

#[test]
fn a_place_is_named_as_it_came_out() {
    let part = tied(&set("a b c d", "mirrored { take left 1: forward 2 then 1 }")).tied.set.unwrap();
    let named: Vec<_> =
        part.steps.iter().map(|step| (step.named, step.from, part.runs_of(step).to_vec())).collect();
    assert_eq!(
        named,
        [(Named::FromRight, 3, vec![(Kind::Backward, 2)]), (Named::Then, 3, vec![(Kind::Backward, 1)])]
    );
}

#[test]
fn expect_has_its_image_too() {
    ties("a b c d", "mirrored { expect d c b a }", "a b c d");
    fails("a b c d", "mirrored { expect a b c d }", &["ExpectFails"]);
    ties("a b c d", "mirrored { on left 2 { expect d c } }", "a b c d");
    ties("a b b a", "mirrored { expect start mirrored }", "a b b a");
}

#[test]
fn meet_and_x_are_forward_in_a_mirror_too() {
    for body in ["meet center", "rows {\n. .\nx\n}"] {
        let part = tied(&set("a b b a", &format!("mirrored {{\n{body}\n}}"))).tied.set.unwrap();
        let knots: Vec<_> = part.piece.knots().iter().map(|knot| (knot.gap, knot.kind)).collect();
        assert_eq!(knots, [(1, Kind::Forward)], "{body}");
    }
}

#[test]
fn orders_that_were_kept_are_written_down_from_the_left_of_the_band() {
    let part = tied(&set("a b c d", "mirrored { take left 1: forward 3\nexpect c b a d }")).tied.set.unwrap();
    assert!(part.events.contains(&Event::Order(vec![3, 0, 1, 2])), "{:?}", part.events);
}
