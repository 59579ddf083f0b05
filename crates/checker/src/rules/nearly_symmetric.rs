//! A picture that is symmetric but for a few knots.

use crate::marks::place_of;
use crate::uneven::{Uneven, find_uneven};
use crate::wording::count;
use crate::woven::Woven;
use crate::{Finding, Part, Place, Rule, Severity, Tag};
use knotwright_band::{FaceSpot, Symmetry, Turning};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "nearly-symmetric",
    severity: Severity::Warning,
    tags: &[Tag::Uneven],
    summary: "The picture is symmetric but for a few knots.",
    why: "Most pictures look the same in a mirror, upside down, or every few rows. Where a picture comes near to \
          that and only a knot or two differ from their counterparts, a mark or a number is surely wrong, even if \
          every strand hangs where it should: in the chart of a leader no promise can notice it. Compared is what \
          is seen, color by color, of the opening, the set and the closing, each by itself; the set goes on below \
          its last row with its first one. A picture comes near to a symmetry with at most two of its knots off, or \
          six in a hundred, and never more than 60. A part of fewer than 20 knots or more than 20,000 is not compared, nor is a set that does \
          not close; and where thousands of rows would have to be compared with thousands of others, only the \
          symmetries seen first are.",
    example: r#"pattern "Anchor light"

thread dusk #22223b
thread lamp #ffca3a

strands dusk 7 lamp

sets 1

set {
  leader left 1 (dusk) {
    . . . # . . .
    . . # . # . .
    . # . # . # .
    . # # # # # .
    . # . # . . .
    . . # . # . .
    . . . # . . .
    . . . . . . .
  }
}
"#,
    instead: r#"pattern "Anchor light"

thread dusk #22223b
thread lamp #ffca3a

strands dusk 7 lamp

sets 1

set {
  leader left 1 (dusk) {
    . . . # . . .
    . . # . # . .
    . # . # . # .
    . # # # # # .
    . # . # . # .
    . . # . # . .
    . . . # . . .
    . . . . . . .
  }
}
"#,
};

/// Of a picture with more knots off, no more than these are shown.
const MOST_SHOWN: usize = 4;

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    find_uneven(|kind| woven.seen(kind)).iter().filter_map(|uneven| words(woven, uneven)).collect()
}

fn words(woven: &Woven, uneven: &Uneven) -> Option<Finding> {
    let (part, symmetry) = (woven.pattern.part(uneven.kind)?, *uneven.near.first()?);
    let off = uneven.off;
    let mut shown: Vec<OffKnot> = uneven
        .blamed
        .iter()
        .filter(|spot| off.contains(spot))
        .filter_map(|&spot| OffKnot::of((woven, part), uneven, spot))
        .collect();
    let first = shown.first()?;
    let counterpart = match &first.counterpart {
        Some((_, thread)) => format!("its counterpart {thread}"),
        None => "no knot lies where its counterpart would be".to_owned(),
    };
    let message = format!(
        "But for {}, {}: here {} shows, and {counterpart}.",
        count(off.len().to_u64(), "knot"),
        in_words(symmetry, uneven.kind.word()),
        first.thread
    );
    let mut finding = Finding::new(&RULE, message)
        .at(first.place)
        .help("Let the knot and its counterpart show the same color: a mark, a kind or a number is wrong at one of them.");
    let mut reported = vec![first.place];
    shown.truncate(MOST_SHOWN);
    for shown in shown {
        let here = (shown.place, format!("{} shows here", shown.thread));
        let there =
            shown.counterpart.map(|(place, thread)| (place, format!("the counterpart shows {thread}")));
        for (place, text) in there.into_iter().chain([here]) {
            if !reported.contains(&place) {
                reported.push(place);
                finding = finding.note(place, text);
            }
        }
    }
    Some(finding)
}

/// A knot that is off, and its counterpart, each with its thread.
struct OffKnot<'a> {
    place: Place,
    thread: &'a str,
    counterpart: Option<(Place, &'a str)>,
}

impl<'a> OffKnot<'a> {
    fn of((woven, part): (&Woven<'a>, &Part), uneven: &Uneven, spot: FaceSpot) -> Option<Self> {
        let face = &uneven.face;
        let shown = |spot| {
            let seen = face.at(spot)?;
            Some((place_of(woven.pattern, part, seen.knot)?, woven.name(seen.color)))
        };
        let (place, thread) = shown(spot)?;
        let counterpart = face.image(*uneven.near.first()?, spot).and_then(shown);
        Some(Self { place, thread, counterpart })
    }
}

/// What would be so if no knot were off.
fn in_words(Symmetry { turning, by }: Symmetry, part: &str) -> String {
    let rows = || count(u64::from(by), "row");
    match turning {
        Turning::Mirror if by == 0 => format!("the left and the right half of the {part} mirror each other"),
        Turning::Mirror => {
            format!("the left and the right half of the {part} mirror each other, {} apart", rows())
        }
        Turning::Turn => format!("the {part} looks the same upside down"),
        Turning::Flip => format!("the upper and the lower half of the {part} mirror each other"),
        Turning::Shift => format!("the {part} looks the same {} further down", rows()),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};
    use knotwright_numbers::ToNumber;

    #[test]
    fn the_knot_and_its_counterpart_are_shown() {
        let finding = &find_by(RULE.name, RULE.example)[0];
        let shown = |place: crate::Place| &RULE.example[..place.span.start.to_usize()];
        assert_eq!(
            finding.message,
            "But for two knots, the left and the right half of the set mirror each other: here dusk shows, and its \
             counterpart lamp."
        );
        assert!(shown(finding.place).ends_with(". # . # . "));
        assert!(shown(finding.notes[0].place).ends_with("# # .\n    . "));
    }

    #[test]
    fn a_single_dot_or_another_picture_on_either_side_is_meant() {
        let chart = |rows: &str| {
            let start = RULE.example.find("    . . . #").unwrap();
            format!("{}{rows}  }}\n}}\n", &RULE.example[..start])
        };
        assert_silent(RULE.name, &chart(&format!("    . # . . . . .\n{}", "    . . . . . . .\n".repeat(7))));
        assert_silent(RULE.name, &chart(&"    . # # . . . .\n    . . . . . . .\n".repeat(4)));
    }

    #[test]
    fn a_mark_in_brick_rows_is_found_too() {
        let text = |rows: &str| {
            format!(
                "pattern \"A\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands kelp foam kelp foam | mirror\n\
                 set {{\n  rows {{\n{rows}  }}\n}}\n"
            )
        };
        let rows = "    > > < <\n     > x <\n    < > < >\n     > x <\n";
        let even = rows.repeat(4);
        assert_silent(RULE.name, &text(&even));
        let uneven = even.replacen("< > < >", "< > < <", 1);
        assert_eq!(messages_of(RULE.name, &text(&uneven)).len(), 1);
    }
}
