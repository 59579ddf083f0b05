//! A face holds the steps to what is to be seen: of every slip in a chart, it is known from the band itself whether it
//! changes the picture, and then it must be an error.

use knotwright_band::Layout;
use knotwright_checker::{NoLibrary, PartKind, Pattern, Source, analyze};
use knotwright_grammar::tree::RowsChart;
use knotwright_numbers::ToNumber;
use std::sync::Arc;

const SAMPLES: [&str; 2] = [
    include_str!("../../../shared/patterns/tide-in-bricks.knot"),
    include_str!("../../../shared/patterns/quay-anchor.knot"),
];

/// What is seen of the set: row, gap and thread of each knot.
fn seen(pattern: &Pattern) -> Vec<(u32, u8, u16)> {
    let piece = pattern.set.as_ref().map(|set| set.piece.in_bricks()).unwrap_or_default();
    let hung = pattern.threads_before(PartKind::Set);
    let rows = Layout::of(&piece).rows;
    let spot = |(knot, row): (&knotwright_band::Knot, u32)| (row, knot.gap, hung[usize::from(knot.working)]);
    let mut seen: Vec<_> = piece.knots().iter().zip(rows).map(spot).collect();
    seen.sort_unstable();
    seen
}

#[test]
fn every_slip_that_changes_the_picture_is_an_error() {
    let (mut changed, mut unchanged) = (0, 0);
    for text in SAMPLES {
        let source = Arc::new(Source::new("band.knot", text));
        let analysis = analyze(Arc::clone(&source), &NoLibrary);
        assert_eq!(analysis.errors(), []);
        let right = seen(analysis.pattern().unwrap());
        let chart = source.parsed.tree.walk().find_map(|statement| statement.get::<RowsChart>()).unwrap();
        let marks = chart.chart.rows.iter().flat_map(|row| &row.marks);
        let slips =
            marks.flat_map(|mark| ["\\", "/", ">", "<", "."].map(|sign| (mark.offset.to_usize(), sign)));
        for (at, sign) in slips.filter(|(at, sign)| &text[*at..=*at] != *sign) {
            let slipped = format!("{}{sign}{}", &text[..at], &text[at + 1..]);
            let analysis = analyze(Arc::new(Source::new("band.knot", slipped.as_str())), &NoLibrary);
            let is_said = !analysis.errors().is_empty();
            if seen(analysis.pattern().unwrap()) == right {
                unchanged += 1;
            } else {
                changed += 1;
                assert!(is_said, "`{sign}` at {at} changes the picture and is not found:\n{slipped}");
            }
        }
    }
    assert!(changed > 1000 && unchanged > 100, "{changed} slips change the picture, {unchanged} do not");
}

/// Offered with the error is the mark with which the other strand works: all the rest stays as it is.
#[test]
fn the_mend_of_a_knot_that_shows_its_base_puts_all_right() {
    let text = SAMPLES[0];
    let source = Source::new("band.knot", text);
    let chart = source.parsed.tree.walk().find_map(|statement| statement.get::<RowsChart>()).unwrap();
    let mut tried = 0;
    for mark in chart.chart.rows.iter().flat_map(|row| &row.marks) {
        let at = mark.offset.to_usize();
        let other = match &text[at..=at] {
            "\\" => "/",
            "/" => "\\",
            ">" => "<",
            "<" => ">",
            _ => continue,
        };
        let slipped = format!("{}{other}{}", &text[..at], &text[at + 1..]);
        let source = Arc::new(Source::new("band.knot", slipped));
        let found = analyze(Arc::clone(&source), &NoLibrary)
            .findings(&NoLibrary, &knotwright_checker::Settings::default());
        let Some(differs) = found.iter().find(|finding| finding.rule.name == "face-differs") else {
            continue;
        };
        let mend = &differs.mends[0];
        assert!(mend.certain);
        assert_eq!(
            (mend.edits[0].place.span.start.to_usize(), mend.edits[0].text.as_str()),
            (at, &text[at..=at])
        );
        tried += 1;
    }
    assert!(tried > 20, "{tried}");
}
