//! Whole files, from text to findings.

use knotwright_checker::{GivenUp, NoLibrary, Report, Settings, Source, analyze, check};
use std::sync::Arc;

fn checked(text: &str) -> Report {
    check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default())
}

/// The rules that speak, in order of place.
fn rules(text: &str) -> Vec<&'static str> {
    checked(text).findings.iter().map(|finding| finding.rule.name).collect()
}

const LADDER: &str = r#"pattern "Harbor ladder"
thread rope #c8a165
thread tar #222222

strands 2 rope 2 tar | mirror

motif fan(size) {
  take left 1: forward size down to 1
}

set {
  section "in" {
    both { on left 4 { work fan(3) } }
    meet center
    expect 2 tar 2 rope | mirror
  }
  section "out" {
    both { on left 4 { work fan(3) } }
    meet center
  }
  expect start
}
"#;

#[test]
fn a_whole_pattern_ties_and_closes() {
    let report = checked(LADDER);
    assert_eq!(report.findings, []);
    let pattern = report.pattern.unwrap();
    let set = pattern.set.as_ref().unwrap();
    assert_eq!(set.piece.knots().len(), 4 * 6 + 2);
    assert_eq!(set.steps.len(), 4 * 3 + 2);
    assert!(!pattern.picks_by_color);
}

#[test]
fn after_an_expect_that_fails_the_tie_goes_on_from_what_it_promised() {
    assert_eq!(rules(&LADDER.replacen("fan(3)", "fan(2)", 1)), ["expect-fails"]);
}

#[test]
fn nothing_more_is_said_of_a_file_of_a_newer_edition() {
    assert_eq!(rules("pattern \"Later\" edition 7\nknit all of it\n"), ["newer-edition"]);
}

#[test]
fn an_error_is_never_left_out_for_warnings() {
    let threads: String =
        (0..150).map(|number| format!("thread t{number} red\nthread T{number} red\n")).collect();
    let text = format!("pattern \"Many\"\n{threads}strands 4 t0\nset {{ take left 1: forward 9 }}\n");
    let findings = checked(&text).findings;
    assert_eq!(findings.len(), 100);
    let last = findings.last().unwrap();
    assert_eq!((last.rule.name, last.notes.len()), ("past-the-edge", 1));
    assert_eq!(last.notes[0].text, "51 more findings are left out");
}

/// Each of two wrong words is wrong whatever becomes of the other: nobody waits for mends to hear so.
#[test]
fn wrong_words_on_two_lines_are_both_said_at_once() {
    let text = "pattern \"A\"\nthread kelp teal\nthread foam white\nstrands 2 kelp 2 foam\nset {\n  take left 1: \
                forwrad 3\n  tkae left 1: forward 3\n}\n";
    let analysis = analyze(Arc::new(Source::new("band.knot", text)), &NoLibrary);
    let first = analysis.first_findings_unless(&GivenUp::NEVER, &Settings::default()).unwrap().findings;
    let words: Vec<&str> = first.iter().map(|finding| finding.place.span.of(text)).collect();
    assert_eq!(words, ["forwrad", "tkae"]);
}
