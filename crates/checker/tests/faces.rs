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

/// A chevron in steps, with its face.
const STEPS: &str = "\
pattern \"Ebb\"
thread kelp #1f5d50
thread foam #f4f1e8
strands kelp foam kelp foam kelp foam

set {
  face k kelp, f foam {
    k . .
     k .
    f k .
     f k
    . f k
     . f
    . . f
  }
  take left 1: forward 5
  take left 1 (foam): forward 5
}
";

fn found(text: &str) -> Vec<knotwright_checker::Finding> {
    let analysis = analyze(Arc::new(Source::new("band.knot", text)), &NoLibrary);
    analysis.findings(&NoLibrary, &knotwright_checker::Settings::default())
}

/// The text after the first mend of the first finding about a face.
fn mended(text: &str) -> Option<(String, String)> {
    let found = found(text);
    let of_face = found.iter().find(|finding| finding.rule.name.starts_with("face-"))?;
    let mend = of_face.mends.first()?;
    let span = mend.edits[0].place.span;
    let (start, end) = (span.start.to_usize(), span.end.to_usize());
    Some((mend.title.clone(), format!("{}{}{}", &text[..start], mend.edits[0].text, &text[end..])))
}

fn is_clean(text: &str) -> bool {
    !found(text).iter().any(|finding| finding.rule.name.starts_with("face-"))
}

#[test]
fn a_step_that_shows_another_face_is_mended() {
    assert!(is_clean(STEPS), "{:?}", found(STEPS));
    for (right, wrong, title) in [
        ("take left 1: forward 5", "take left 1: forward 4", "write `5` instead of `4`: the face shows then"),
        ("(foam): forward 5", "(foam): forward 3", "write `5` instead of `3`: the face shows then"),
    ] {
        let (told, text) = mended(&STEPS.replacen(right, wrong, 1)).unwrap();
        assert_eq!((told.as_str(), text.as_str()), (title, STEPS));
    }
}

#[test]
fn the_other_strand_ties_the_knot_that_it_should() {
    // The third knot of the first step shows foam: the strand that is tied over.
    let text = STEPS.replacen("    f k .\n", "    f f .\n", 1);
    let (title, mended) = mended(&text).unwrap();
    assert_eq!(title, "let the other strand tie this knot: the face shows then");
    assert!(
        mended.contains("  take left 1: forward 2\n  take left 4: backward 1\n  take left 4: forward 2\n  take left 1 (foam)"),
        "{mended}"
    );
    assert!(is_clean(&mended), "{mended}");
}

#[test]
fn a_turning_knot_of_the_other_strand_is_mended() {
    let text = "pattern \"Ebb\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands kelp foam kelp foam\n\nset {\n  \
                face k kelp, f foam {\n    k .\n     .\n    f .\n  }\n  take left 1: forward-backward 2\n}\n";
    let (_, mended) = mended(text).unwrap();
    assert!(
        mended.contains("  take left 1: forward-backward 1\n  take left 2: backward-forward 1\n"),
        "{mended}"
    );
    assert!(is_clean(&mended), "{mended}");
}
