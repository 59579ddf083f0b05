//! What no kept file may say.

use crate::files;
use std::path::Path;

/// A spelling or a path that is not wanted, put together here so that this file does not hold it.
fn unwanted() -> [(String, &'static str); 4] {
    [
        (format!("/{}/", "work"), "a path of one machine"),
        (format!("/{}/", "root"), "a path of one machine"),
        (format!("/{}/", "tmp"), "a path of one machine"),
        (format!("registry.{}", "npmjs"), "a registry's host"),
    ]
}

/// Machine-made files that no person writes.
fn made(path: &Path) -> bool {
    path.ends_with("Cargo.lock") || path.ends_with("package-lock.json") || path.ends_with("parser.c")
}

#[test]
fn no_file_knows_one_machine() {
    let found: Vec<_> = files::kept("")
        .into_iter()
        .filter(|path| !made(path))
        .flat_map(|path| {
            let text = files::text(&path).unwrap_or_default();
            unwanted()
                .into_iter()
                .filter(|(word, _)| text.contains(word.as_str()))
                .map(|(word, why)| format!("{}: {word} ({why})", path.display()))
                .collect::<Vec<_>>()
        })
        .collect();
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn identifiers_are_american() {
    let british = format!("col{}", "our");
    let found: Vec<_> = files::kept(".rs")
        .into_iter()
        .filter(|path| {
            let text = files::text(path).unwrap_or_default();
            text.lines().any(|line| {
                let code = line.split("//").next().unwrap_or_default();
                code.contains(&format!("{british}_")) || code.contains(&format!("_{british}"))
            })
        })
        .collect();
    assert!(found.is_empty(), "identifiers write `color`: {found:?}");
}

/// Words that sound translated, and what to write instead; put together here so that this file does not hold them.
fn translated() -> [(String, &'static str); 4] {
    [
        (format!("rec{}", "kon"), "compute"),
        (format!("an{}", "ew"), "again"),
        (format!("so {}", "many"), "at most, how many, this many"),
        (format!("so {}", "much"), "at most, how much, this much"),
    ]
}

/// How often a word begins in a text: with it, whatever is made of it.
fn count(text: &str, word: &str) -> usize {
    let begins = |at: usize| !text[..at].chars().next_back().is_some_and(char::is_alphanumeric);
    text.match_indices(word).filter(|(at, _)| begins(*at)).count()
}

#[test]
fn nothing_reads_as_if_translated() {
    let texts: Vec<_> = files::kept("")
        .into_iter()
        .filter(|path| !made(path))
        .filter_map(|path| Some((files::text(&path)?.to_lowercase(), path)))
        .collect();
    for (word, instead) in translated() {
        let found: Vec<_> =
            texts.iter().filter(|(text, _)| count(text, &word) > 0).map(|(_, path)| path).collect();
        assert!(found.is_empty(), "`{word}` is in {found:#?}; write instead: {instead}");
    }
}

#[test]
fn a_word_is_counted_with_what_is_made_of_it_and_not_within_others() {
    assert_eq!(count("Knots and knotted, unknotted; knot", "knot"), 2);
}
