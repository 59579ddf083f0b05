//! Whatever the text is, the check comes to an end without a panic and says the same each time.

use knotwright_checker::{NoLibrary, Report, Settings, Severity, Source, check};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use std::sync::Arc;

/// The words of the notation, some names, signs and numbers.
const WORDS: [&str; 78] = [
    "pattern \"P\"",
    "about \"A\"",
    "thread a teal",
    "thread b #fff",
    "colorway \"C\" {",
    "strands a b a b",
    "strands 3 a | b | mirror",
    "strands from left a, from right b",
    "gauge {",
    "thickness 1 mm",
    "length 15 cm",
    "sets 3",
    "ends 12 cm",
    "start folded pairs mirrored",
    "use m from \"x.knot\"",
    "motif m(n, t) {",
    "motif k() on 4 {",
    "opening {",
    "set {",
    "closing {",
    "take left 1",
    "take right 2 (a)",
    "take center left",
    "take a 1 from left",
    "take b 2 left of center",
    "take lead",
    "as lead",
    ":",
    "forward 2",
    "backward 1",
    "forward-backward 3",
    "backward-forward 1 over a",
    "forward over b",
    "backward until a",
    "forward to edge",
    "backward to left 1",
    "forward to center",
    "forward 3 down to 1",
    "backward 1 up to 9 by 2",
    "then",
    "then 2",
    ",",
    "meet center",
    "on left 3 {",
    "on inside 1 {",
    "on 2 to 3 {",
    "on center 2 {",
    "both {",
    "mirrored {",
    "work m(2, a)",
    "work k() mirrored",
    "repeat 3 {",
    "repeat 40 {",
    "for i 3 down to 1 {",
    "rows {",
    "rows offset {",
    "\\ / > <",
    "x x",
    ". .",
    "leader left 1 (a) {",
    "# . #",
    "section \"s\" {",
    "note \"n\"",
    "expect a b a b",
    "expect start",
    "expect start mirrored",
    "expect 2 a | mirror",
    "}",
    "}",
    "}",
    "(",
    ")",
    "-- allow missing-brick: lace",
    "left",
    "0",
    "99999999999",
    "\u{0}",
    "\"",
];

fn checked(text: &str) -> Report {
    check(Arc::new(Source::new("soup.knot", text)), &NoLibrary, &Settings::default())
}

/// Lines of words, mostly the start of a sensible file before them.
fn soup() -> impl Strategy<Value = String> {
    let word = prop::sample::select(WORDS.to_vec());
    let line = prop::collection::vec(word, 1..4).prop_map(|words| words.join(" "));
    let lines = prop::collection::vec(line, 0..24).prop_map(|lines| lines.join("\n"));
    let start = "pattern \"P\"\nthread a teal\nthread b coral\nstrands a b a b a b\n";
    let begun = format!("{start}motif m(n, t) {{\ntake left n (t): forward 1\n}}\nset {{\n");
    (prop::bool::weighted(0.7), lines)
        .prop_map(move |(begin, lines)| if begin { format!("{begun}{lines}\n") } else { lines })
}

/// A leader's chart that is a mirror image of itself but for some marks, here and there in a mirror or a range of its own.
fn charts() -> impl Strategy<Value = String> {
    let wrappers = [
        "set {",
        "set {\nmirrored {",
        "set {\nrepeat 2 {",
        "set {\non left 5 {",
        "opening {",
        "sets 1\nset {",
    ];
    let halves = prop::collection::vec(prop::collection::vec(any::<bool>(), 4), 2..9);
    let slips = prop::collection::vec((0_usize..9, 0_usize..8), 0..3);
    (prop::sample::select(wrappers.to_vec()), halves, slips, 3_usize..9).prop_map(|(wrapper, halves, slips, width)| {
        let columns = if wrapper.contains("on left") { 4 } else { width.max(5) - 1 };
        let mut rows: Vec<Vec<bool>> = halves
            .iter()
            .map(|half| (0..columns).map(|at| half[at.min(columns - 1 - at).min(3)]).collect())
            .collect();
        for (row, column) in slips {
            if let Some(mark) = rows.get_mut(row).and_then(|row| row.get_mut(column)) {
                *mark = !*mark;
            }
        }
        let row = |row: &Vec<bool>| row.iter().map(|&mark| if mark { "# " } else { ". " }).collect::<String>();
        let rows: Vec<String> = rows.iter().map(row).collect();
        let braces = "}\n".repeat(wrapper.matches('{').count());
        format!(
            "pattern \"P\"\nthread a teal\nthread b coral\nstrands a {} b\n{wrapper}\nleader left 1 {{\n{}\n}}\n{braces}",
            width.max(5) - 1,
            rows.join("\n")
        )
    })
}

fn within(report: &Report) -> bool {
    let fits = |place: &knotwright_checker::Place| {
        let text = &report.files[place.file.0.to_usize()].text;
        text.get(place.span.start.to_usize()..place.span.end.to_usize()).is_some()
    };
    report.findings.iter().all(|finding| {
        fits(&finding.place)
            && finding.notes.iter().all(|note| fits(&note.place))
            && finding.mends.iter().flat_map(|mend| &mend.edits).all(|edit| fits(&edit.place))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn word_soup_is_checked(text in soup()) {
        let report = checked(&text);
        prop_assert!(within(&report), "{text}");
        prop_assert!(report.findings.len() <= 100);
        prop_assert!(report.findings.is_sorted_by_key(|finding| finding.place));
    }

    #[test]
    fn pictures_are_checked(text in charts()) {
        let report = checked(&text);
        prop_assert!(report.findings.iter().all(|finding| finding.severity == Severity::Warning), "{text}");
        prop_assert!(within(&report), "{text}");
    }

    #[test]
    fn letter_soup_is_checked(text in "\\PC{0,200}") {
        prop_assert!(within(&checked(&text)));
    }

    #[test]
    fn what_is_said_is_the_same_each_time(text in soup()) {
        prop_assert_eq!(checked(&text).findings, checked(&text).findings);
    }
}
