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

/// The lines of a sample, and the numbers of those of its chart.
fn chart_lines(text: &str) -> (Vec<&str>, std::ops::Range<usize>) {
    let lines: Vec<&str> = text.lines().collect();
    let head = lines.iter().position(|line| line.trim() == "rows {").unwrap();
    let end = head + lines[head..].iter().position(|line| line.trim() == "}").unwrap();
    (lines, head + 1..end)
}

/// The errors of a text, each with what its first mend makes of it.
fn errors_and_mends(text: &str) -> Vec<(String, u32, Option<String>)> {
    let found = found(text);
    let errors = found.iter().filter(|finding| finding.severity == knotwright_checker::Severity::Error);
    let applied = |mend: &knotwright_checker::Mend| {
        let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        knotwright_grammar::apply_edits(text, edits)
    };
    let told = errors.map(|finding| {
        let mended = finding.mends.first().and_then(applied);
        (finding.rule.name.to_owned(), finding.place.span.start, mended)
    });
    told.collect()
}

/// The rows above and below a row that was forgotten, and the face, say which row it was.
#[test]
fn a_row_left_out_under_a_face_is_one_error_and_comes_back_first() {
    for text in SAMPLES {
        let right = analyze(Arc::new(Source::new("band.knot", text)), &NoLibrary);
        let right = seen(right.pattern().unwrap());
        let (lines, rows) = chart_lines(text);
        for row in rows.step_by(3) {
            let mut slip = lines.clone();
            slip.remove(row);
            let errors = errors_and_mends(&(slip.join("\n") + "\n"));
            assert_eq!(errors.len(), 1, "line {}: {errors:?}", row + 1);
            let mended = errors[0].2.as_deref().unwrap_or_else(|| panic!("line {}: {errors:?}", row + 1));
            let again = analyze(Arc::new(Source::new("band.knot", mended)), &NoLibrary);
            assert_eq!(again.errors(), [], "line {}", row + 1);
            assert_eq!(seen(again.pattern().unwrap()), right, "line {}", row + 1);
        }
    }
}

/// A knot that is not tied is told where its row stands, not where the face begins.
#[test]
fn a_mark_that_ties_nothing_under_a_face_is_told_in_its_row_with_a_mark_that_shows_it() {
    let mut told = 0;
    for text in SAMPLES {
        let (lines, rows) = chart_lines(text);
        for row in rows.step_by(3) {
            let start: usize = lines[..row].iter().map(|line| line.len() + 1).sum();
            let marks = lines[row].char_indices().filter(|(_, sign)| !sign.is_whitespace());
            for (at, _) in marks.step_by(2) {
                let slip = format!("{}.{}", &text[..start + at], &text[start + at + 1..]);
                let errors = errors_and_mends(&slip);
                let [(rule, place, Some(mended))] = &errors[..] else { panic!("{slip}: {errors:?}") };
                // With other strands at the end, that is what is said first.
                if rule == "face-knots" {
                    let line = slip[..place.to_usize()].matches('\n').count();
                    assert_eq!(line, row, "{}", lines[row]);
                    told += 1;
                }
                assert_eq!(errors_and_mends(mended), []);
            }
        }
    }
    assert!(told > 30, "{told}");
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

/// A diamond in a window.
const WINDOW: &str = "\
pattern \"Lighthouse window\"
thread dusk #2b3a67
thread lamp #f2c14e
strands 2 dusk 2 lamp | mirror

set {
  face d dusk, l lamp {
    d l l d
     l l l
    l d d l
  }
  rows {
    \\ \\ \\ \\
     / \\ \\
    / \\ / \\
     . . .
  }
}
";

/// The only error of a text.
#[track_caller]
fn only_error(text: &str) -> knotwright_checker::Finding {
    let mut found = found(text);
    found.retain(|finding| finding.severity == knotwright_checker::Severity::Error);
    assert_eq!(found.len(), 1, "{text}\n{found:#?}");
    found.remove(0)
}

fn applied(text: &str, mend: &knotwright_checker::Mend) -> String {
    let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
    knotwright_grammar::apply_edits(text, edits).expect("the edits fit")
}

#[test]
fn letters_of_a_face_that_are_exchanged_are_one_error_and_certain() {
    for (text, right, wrong) in [
        (SAMPLES[0], "face n night, f foam", "face n foam, f night"),
        (SAMPLES[1], "face m midnightblue, l linen", "face m linen, l midnightblue"),
        // One letter alone stands for the wrong thread.
        (SAMPLES[1], "face m midnightblue, l linen", "face m midnightblue, l midnightblue"),
    ] {
        let slip = text.replacen(right, wrong, 1);
        assert_ne!(slip, text);
        let found = only_error(&slip);
        assert_eq!(found.rule.name, "face-differs");
        assert!(found.mends.iter().any(|mend| applied(&slip, mend) == text), "{found:#?}");
        assert!(found.mends.iter().all(|mend| mend.certain == (found.mends.len() == 1)), "{found:#?}");
    }
}

/// The letters may be meant otherwise as well as the strands: both are offered.
#[test]
fn strands_exchanged_below_a_face_are_one_error_that_counts_its_knots() {
    assert!(is_clean(WINDOW));
    let slip = WINDOW.replacen("2 dusk 2 lamp", "2 lamp 2 dusk", 1);
    let found = only_error(&slip);
    assert_eq!(
        found.message,
        "The face promises dusk here, but this knot shows lamp; of the 11 knots of the face, ten others show another color, too."
    );
    assert_eq!(found.notes.iter().filter(|note| note.text == "and here").count(), 3);
    let titles: Vec<&str> = found.mends.iter().map(|mend| mend.title.as_str()).collect();
    assert_eq!(
        titles,
        [
            "write `d lamp`, `l dusk` after `face`: the face shows then",
            "write `2 dusk 2 lamp` instead of `2 lamp 2 dusk` in `strands`: the face shows then"
        ]
    );
    assert!(found.mends.iter().all(|mend| !mend.certain && is_clean(&applied(&slip, mend))));
    assert_eq!(applied(&slip, &found.mends[1]), WINDOW);
}

#[test]
fn a_letter_missing_after_face_is_one_error_with_its_thread() {
    for (text, key) in [(WINDOW, ", l lamp"), (SAMPLES[0], ", f foam"), (SAMPLES[1], ", l linen")] {
        let slip = text.replacen(key, "", 1);
        let found = only_error(&slip);
        assert_eq!(found.rule.name, "face-letter");
        assert_eq!(applied(&slip, &found.mends[0]), text);
        assert!(found.mends[0].certain, "{found:#?}");
    }
    let slip = WINDOW.replacen("d l l d", "d s l d", 1);
    let found = only_error(&slip);
    assert_eq!(found.mends.len(), 1, "{found:#?}");
    assert_eq!(applied(&slip, &found.mends[0]), WINDOW);
}

/// Each mark of a chart with each other sign, where nothing but the face says how the strands hang at the end.
#[test]
fn a_mark_that_leads_strands_astray_is_one_error_and_comes_back() {
    let (mut tried, mut offered) = (0, 0);
    for text in SAMPLES
        .map(|text| text.replacen("\n  expect start", "", 1))
        .iter()
        .map(String::as_str)
        .chain([WINDOW])
    {
        let source = Source::new("band.knot", text);
        let chart = source.parsed.tree.walk().find_map(|statement| statement.get::<RowsChart>()).unwrap();
        let marks = chart.chart.rows.iter().flat_map(|row| &row.marks).map(|mark| mark.offset.to_usize());
        for (number, at) in marks.enumerate().filter(|&(_, at)| !text[at..].starts_with('.')) {
            let sign = ["\\", "/", ">", "<"][number % 4];
            let slip = format!("{}{sign}{}", &text[..at], &text[at + 1..]);
            if slip == text || is_clean(&slip) {
                continue;
            }
            let found = only_error(&slip);
            tried += 1;
            offered += usize::from(found.mends.iter().any(|mend| applied(&slip, mend) == text));
        }
    }
    assert!(tried > 100 && offered * 100 > tried * 90, "{offered} of {tried}");
}
