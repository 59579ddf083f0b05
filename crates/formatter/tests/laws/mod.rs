//! What holds of every text, whatever stands in it.

mod same;

use knotwright_formatter::{Edit, apply_text_edits, format};
use knotwright_grammar::{Parsed, ProblemKind, Span, parse};
use knotwright_numbers::ToNumber;

/// Formats `text`, holds the outcome to every law, and gives it back.
pub(crate) fn hold(text: &str) -> String {
    let before = parse(text);
    let edits = format(text, &before);
    let out = apply_text_edits(text, &edits);
    let after = parse(&out);
    twice_is_once(&out, &after);
    meaning_is_kept(&before, &after, &format!("\n{text}\n---- became ----\n{out}"));
    assert_eq!(same::words(text, &before), same::words(&out, &after), "words in = words out");
    assert_eq!(same::comments(text, &before), same::comments(&out, &after), "comments in = comments out");
    assert_eq!(same::broken(text, &before), same::broken(&out, &after), "what does not parse stays");
    line_ends_are_kept(text, &out);
    edits_are_least(text, &edits);
    out
}

fn twice_is_once(out: &str, after: &Parsed) {
    let again = format(out, after);
    assert!(again.is_empty(), "twice is once, but the second time changes\n{out}\nby {again:?}");
}

fn meaning_is_kept(before: &Parsed, after: &Parsed, shown: &str) {
    assert!(same::without_places(&before.tree) == same::without_places(&after.tree), "another tree: {shown}");
    // Which blocks are open at the end is told by places, and those move.
    let kind = |kind: &ProblemKind| match kind {
        ProblemKind::OpenAtEnd { opened } => {
            ProblemKind::OpenAtEnd { opened: vec![Span::default(); opened.len()] }
        }
        other => other.clone(),
    };
    let kinds =
        |parsed: &Parsed| parsed.problems.iter().map(|problem| kind(&problem.kind)).collect::<Vec<_>>();
    assert_eq!(kinds(before), kinds(after), "other problems: {shown}");
}

fn line_ends_are_kept(text: &str, out: &str) {
    assert_eq!(text.starts_with('\u{feff}'), out.starts_with('\u{feff}'), "the byte-order mark stays");
    let ends = |text: &str| text.trim_end_matches([' ', '\t']).ends_with(['\n', '\r']);
    let empty = out.trim_start_matches('\u{feff}').is_empty();
    assert!(empty || ends(text) == ends(out), "the last line end stays, and none is added");
    for end in same::line_ends(out) {
        let known = same::line_ends(text).any(|other| other == end);
        assert!(known || same::line_ends(text).next().is_none(), "no new kind of line end: {end:?}");
    }
}

/// In order, each a change, no two on one line.
fn edits_are_least(text: &str, edits: &[Edit]) {
    for edit in edits {
        assert_ne!(edit.span.of(text), edit.text, "an edit changes something");
    }
    for pair in edits.windows(2) {
        let between =
            text.get(pair[0].span.end.to_usize()..pair[1].span.start.to_usize()).expect("edits in order");
        assert!(between.contains(['\n', '\r']), "one edit a line: {pair:?}");
    }
}
