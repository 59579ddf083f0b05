//! Opening, set and closing, and what can be tied again.

use crate::testing::{head, set, tied};
use crate::{Event, Library, NoLibrary, Pattern, Settings, Source, check};
use std::sync::Arc;

fn pattern(text: &str) -> Pattern {
    let library: &dyn Library = &NoLibrary;
    check(Arc::new(Source::new("band.knot", text)), library, &Settings::default()).pattern.unwrap()
}

#[test]
fn a_part_begins_where_the_one_before_ended() {
    let text = format!(
        "{}strands a b c d\nclosing {{ take left 1 (c): forward 1 }}\nopening {{ take left 1 (a): forward 3 }}\n\
         set {{ take left 1 (b): forward 3 }}\n",
        head()
    );
    let band = tied(&text);
    assert_eq!(band.said(), "");
    // Strands are named by their position as the part began.
    assert_eq!(band.tied.set.unwrap().piece.order(), [1, 2, 3, 0]);
    assert_eq!(band.tied.closes, Some(false));
}

#[test]
fn where_a_strand_was_last_moved_is_known_across_parts() {
    let text = format!(
        "{}strands a b c d\nopening {{ take left 1 (a): forward 1 }}\nset {{\ntake left 1 (c): forward 1\n}}\n",
        head()
    );
    let said = tied(&text).said();
    assert!(said.contains("last_moved: Some(line 15)"), "{said}");
}

#[test]
fn a_set_closes_if_the_colors_hang_as_before() {
    assert_eq!(tied(&set("a b", "take left 1: forward 1")).tied.closes, Some(false));
    assert_eq!(tied(&set("a a", "take left 1: forward 1")).tied.closes, Some(true));
    assert_eq!(tied(&set("a b", "take nothing: forward 1")).tied.closes, None);
}

#[test]
fn expect_start_is_as_this_part_began() {
    let text = format!(
        "{}strands a b c d\nopening {{ take left 1: forward 3 }}\nset {{\nexpect start\nexpect b c d a\n}}\n",
        head()
    );
    assert_eq!(tied(&text).said(), "");
    assert_eq!(tied(&set("a b c", "expect start mirrored")).kinds(), ["ExpectFails"]);
    assert_eq!(tied(&set("a b a", "expect start mirrored")).kinds(), [""; 0]);
    assert_eq!(tied(&set("a b c c", "on right 2 { expect start mirrored }")).kinds(), [""; 0]);
}

#[test]
fn a_set_that_picks_by_color_takes_other_places_from_another_order() {
    let by_color = pattern(&set("a b c", "take a 1 from left: forward to edge"));
    assert!(by_color.picks_by_color);
    assert_eq!(by_color.set_from(&by_color.strands), by_color.set);
    let [a, b, c] = by_color.strands[..] else { panic!("three strands") };
    let second = by_color.set_from(&[b, c, a]).unwrap();
    assert!(second.piece.knots().is_empty());
    assert_eq!(second.piece.order(), [0, 1, 2]);
    let by_place = pattern(&set("a b c", "take left 1: forward to edge"));
    assert!(!by_place.picks_by_color);
    assert_eq!(by_place.set_from(&[b, c, a]).unwrap().piece.order(), [1, 2, 0]);
    for wrong in [&[a, b][..], &[a, b, c, a], &[]] {
        assert_eq!(by_place.set_from(wrong), None, "{wrong:?}");
    }
    assert_eq!(by_place.closing_from(&[a, b, c]), None);
}

#[test]
fn steps_headings_and_remarks_are_in_the_order_they_are_read() {
    let body = "section \"in\" {\nnote \"slowly\"\nrepeat 2 { take left 1: forward 1 }\nexpect start\n}";
    let events = tied(&set("a b", body)).tied.set.unwrap().events;
    let (section, note) = (Event::Section(Box::new("in".into())), Event::Note(Box::new("slowly".into())));
    assert_eq!(
        events,
        [
            section,
            note,
            Event::Repeat(2),
            Event::Pass,
            Event::Step(0),
            Event::Pass,
            Event::Step(1),
            Event::RepeatEnd,
            Event::Order(vec![0, 1]),
            Event::SectionEnd,
        ]
    );
}
