//! The laws on every pattern and sample of the project; and the patterns are already well set.

// Files are read here, in a test: the room itself knows none.
#![allow(clippy::disallowed_methods)]

mod laws;

use knotwright_grammar::parse;
use knotwright_numbers::ToNumber;
use std::fs;
use std::path::{Path, PathBuf};

fn knots(folder: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut rest = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared").join(folder)];
    while let Some(folder) = rest.pop() {
        for entry in fs::read_dir(&folder).into_iter().flatten().flatten() {
            match entry.path() {
                path if path.is_dir() => rest.push(path),
                path if path.extension().is_some_and(|ending| ending == "knot") => found.push(path),
                _ => {}
            }
        }
    }
    found.sort();
    found
}

fn read(path: &Path) -> String {
    String::from_utf8_lossy(&fs::read(path).expect("a sample can be read")).into_owned()
}

/// Holds the laws for what `change` makes of every sample.
fn hold_for_all(change: impl Fn(&str) -> Vec<String> + std::panic::RefUnwindSafe) {
    let samples = [knots("corpus"), knots("patterns")].concat();
    assert!(samples.len() > 16, "the samples are where they are looked for");
    for path in samples {
        let text = read(&path);
        let outcome =
            std::panic::catch_unwind(|| change(&text).iter().for_each(|text| drop(laws::hold(text))));
        assert!(outcome.is_ok(), "{} breaks a law", path.display());
    }
}

#[test]
fn the_laws_hold_for_every_sample() {
    hold_for_all(|text| vec![text.to_owned(), text.replace('\n', "\r\n")]);
}

#[test]
fn the_laws_hold_where_a_word_is_missing() {
    hold_for_all(|text| {
        let tokens = parse(text).tokens;
        let without = tokens.iter().step_by(37).map(|token| {
            let (before, rest) = text.split_at(token.span.start.to_usize());
            format!("{before}{}", &rest[token.span.len()..])
        });
        without.collect()
    });
}

#[test]
fn the_patterns_are_well_set() {
    for path in knots("patterns") {
        let text = read(&path);
        assert_eq!(laws::hold(&text), text, "{} is not as `knotwright format` would set it", path.display());
    }
}
