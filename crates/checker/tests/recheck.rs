//! After any edits a check that remembers the one before says what a fresh one says.

mod support;

use knotwright_checker::{Report, Settings, Severity, Source, check, recheck, rules};
use proptest::prelude::*;
use std::sync::Arc;
use support::{Shared, samples};

/// What is written instead of what, at one of its places.
const REPLACED: &[(&str, &str)] = &[
    ("forward 1", "forward 2"),
    ("forward 2", "forward 1"),
    ("forward", "backward"),
    ("backward", "forward"),
    ("left 1", "left 2"),
    ("left 2", "left 1"),
    ("left", "right"),
    ("right", "left"),
    ("to edge", "to left 1"),
    ("1", "2"),
    ("2", "1"),
    ("3", "2 + 1"),
    ("4", "3"),
    (" ", "  "),
    ("\n", "\n\n"),
    ("\n", " -- as the tide turns\n"),
    ("\n", " -- allow uneven-use: cut longer\n"),
    ("\n", "\nthread"),
    ("\n", "\n    take left 1: forward 0\n"),
    ("\n", "\n  meet center\n"),
    ("\n", "\n  note \"now\"\n"),
    ("repeat 2", "repeat 1"),
    ("repeat 4", "repeat 2"),
    ("expect", "-- expect"),
    ("{", "{ "),
    ("}", ""),
    ("#", "#e"),
    ("\\", "/"),
    (".", "\\"),
    ("set {", "set {\n  section \"a\" {\n    meet center\n  }"),
    ("set {", "closing {\n  take left 1: forward 1\n}\nset {"),
    ("set", "sett"),
    ("pattern", "pater"),
    ("strands", "strands 2"),
    ("lightpink", "firebrick"),
    ("#", "#1"),
];

/// Replaces one of the places of something, or takes it back.
#[derive(Debug, Clone)]
enum Edit {
    Replace(usize, prop::sample::Index),
    Delete(prop::sample::Index, usize),
    Copy(prop::sample::Index, prop::sample::Index),
    Undo,
}

fn edit() -> impl Strategy<Value = Edit> {
    let index = any::<prop::sample::Index>;
    prop_oneof![
        8 => (0..REPLACED.len(), index()).prop_map(|(what, at)| Edit::Replace(what, at)),
        1 => (index(), 1..6usize).prop_map(|(at, bytes)| Edit::Delete(at, bytes)),
        1 => (index(), index()).prop_map(|(from, to)| Edit::Copy(from, to)),
        2 => Just(Edit::Undo),
    ]
}

fn edited(text: &str, undo: &str, edit: &Edit) -> String {
    match edit {
        Edit::Replace(what, at) => {
            let (old, new) = REPLACED[*what];
            let places: Vec<usize> = text.match_indices(old).map(|(at, _)| at).collect();
            if places.is_empty() {
                return text.to_owned();
            }
            let at = places[at.index(places.len())];
            format!("{}{new}{}", &text[..at], &text[at + old.len()..])
        }
        Edit::Delete(at, bytes) => {
            let kept = at.index(text.chars().count().max(1));
            text.chars().take(kept).chain(text.chars().skip(kept + bytes)).collect()
        }
        Edit::Copy(from, to) => {
            let mut lines: Vec<&str> = text.split_inclusive('\n').collect();
            if let Some(&line) = lines.get(from.index(lines.len().max(1))) {
                lines.insert(to.index(lines.len()), line);
            }
            lines.concat()
        }
        Edit::Undo => undo.to_owned(),
    }
}

/// Those that are right, and the example of each warning.
fn texts() -> Vec<(String, String)> {
    let short = short_texts();
    let long = short.iter().filter_map(|(path, text)| Some((path.clone(), longer(path, text)?)));
    long.chain(short.iter().cloned()).collect()
}

/// A set so long that not all of it is tied again; `None` if that is wrong.
fn longer(path: &str, text: &str) -> Option<String> {
    let (head, rest) = text.split_once("set {\n")?;
    let (body, tail) = rest.split_once("\n}\n")?;
    let times = 1 + 60 / body.lines().count();
    let text = format!("{head}set {{\n{}}}\n{tail}", format!("{body}\n").repeat(times));
    let is_right = !checked(path, &text).findings.iter().any(|finding| finding.severity == Severity::Error);
    is_right.then_some(text)
}

fn short_texts() -> Vec<(String, String)> {
    let warnings = rules::all().iter().filter(|rule| rule.severity == Severity::Warning);
    let examples = warnings.map(|rule| (format!("{}.knot", rule.name), rule.example.to_owned()));
    samples().into_iter().chain(examples).collect()
}

fn checked(path: &str, text: &str) -> Report {
    check(Arc::new(Source::new(path, text)), &Shared, &Settings::default())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 250, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_edits_one_after_another(
        (path, start) in prop::sample::select(texts()), edits in prop::collection::vec(edit(), 1..8),
    ) {
        let (mut before, mut text) = (start.clone(), start);
        let mut report = checked(&path, &text);
        for edit in edits {
            let next = edited(&text, &before, &edit);
            let source = Arc::new(Source::new(path.as_str(), next.as_str()));
            report = recheck(source, &Shared, &Settings::default(), report.keep());
            let fresh = checked(&path, &next);
            prop_assert_eq!(&report.findings, &fresh.findings, "{:?}, which was {:?}", next, text);
            prop_assert!(report.pattern == fresh.pattern, "{:?}, which was {:?}", next, text);
            before = std::mem::replace(&mut text, next);
        }
    }
}

/// The findings of a text that was edited from another.
fn again(before: &str, text: &str) -> Report {
    let source = Arc::new(Source::new("band.knot", text));
    recheck(source, &Shared, &Settings::default(), checked("band.knot", before).keep())
}

const HOLE: &str = "pattern \"A\"\nthread shell white\nthread foam ivory\nthread pitch black\nstrands shell foam pitch foam\n\
                    set {\n  take left 1: forward 2\n  take left 3: forward 1\n  take left 3: forward 1\n  take left 2: forward 1\n}\n";

#[test]
fn what_the_band_shows_moves_along_with_its_steps() {
    let looked = checked("band.knot", HOLE);
    let touch = |report: &Report| {
        let found =
            report.findings.iter().find(|finding| finding.rule.name == "look-alike-neighbours").cloned();
        found.expect("two colors are alike")
    };
    let (before, now) = (touch(&looked), touch(&again(HOLE, &HOLE.replace("set {\n", "set {\n\n\n"))));
    assert_eq!(before.place, now.place, "the color stands above the edit");
    assert_eq!(before.notes[0].place.span.start + 2, now.notes[0].place.span.start, "the step stands below");
}

/// What a rule says of the head changes with the head, though the knots are the same.
#[test]
fn an_edit_of_the_head_is_seen() {
    let text = HOLE.replace("foam ivory", "foam navy");
    let alike =
        |report: &Report| report.findings.iter().any(|finding| finding.rule.name == "look-alike-neighbours");
    assert!(alike(&checked("band.knot", HOLE)));
    assert!(!alike(&again(HOLE, &text)));
    assert!(alike(&again(&text, HOLE)));
    assert!(!alike(&again(HOLE, &text.replace("shell white", "shell orange"))));
}

/// As many knots by as many steps, but elsewhere.
#[test]
fn another_band_is_looked_at_anew() {
    let whole = "pattern \"A\"\nthread kelp #1f5d50\nstrands 4 kelp\n\
                 set {\n  take left 1: forward 1\n  take left 3: forward 1\n  take left 2: forward 1\n}\n";
    let idle = whole.replace("left 3", "left 1");
    let is_idle = |report: &Report| report.findings.iter().any(|finding| finding.rule.name == "idle-strand");
    assert!(!is_idle(&again(&idle, whole)));
    assert!(is_idle(&again(whole, &idle)));
}
