//! Small rooms: how long files may be.

use crate::files;

const LONGEST: usize = 600;
const MEDIAN: usize = 150;

fn lengths() -> Vec<(usize, String)> {
    let mut lengths: Vec<_> = files::kept(".rs")
        .into_iter()
        .map(|path| (files::text(&path).unwrap_or_default().lines().count(), path.display().to_string()))
        .collect();
    lengths.sort();
    lengths
}

#[test]
fn no_file_is_longer_than_can_be_overseen() {
    let long: Vec<_> = lengths().into_iter().filter(|(lines, _)| *lines > LONGEST).collect();
    assert!(long.is_empty(), "over {LONGEST} lines: {long:?}");
}

#[test]
fn most_files_are_short() {
    let lengths = lengths();
    let (median, _) = &lengths[lengths.len() / 2];
    assert!(*median < MEDIAN, "half of the files have {median} lines or more");
}

/// The most columns that a line of the docs, or of a comment, may have.
const WIDEST: usize = 130;

#[test]
fn the_docs_are_read_without_scrolling_sideways() {
    let mut wide = Vec::new();
    // The pages of rules are made: their paragraphs are wrapped, but a row of their table or an example cannot be.
    for path in files::kept(".md").into_iter().filter(|path| !path.starts_with("docs/rules")) {
        let text = files::text(&path).expect("a page is text");
        let lines = (1..).zip(text.lines()).filter(|(_, line)| line.chars().count() > WIDEST);
        wide.extend(lines.map(|(number, _)| format!("{}:{number}", path.display())));
    }
    assert!(wide.is_empty(), "lines wider than {WIDEST} columns: {wide:#?}");
}

#[test]
fn comments_are_read_without_scrolling_sideways() {
    let mut wide = Vec::new();
    for path in files::kept(".rs") {
        let text = files::text(&path).expect("a source is text");
        let comments = (1..).zip(text.lines()).filter(|(_, line)| line.trim_start().starts_with("//"));
        let found = comments.filter(|(_, line)| line.chars().count() > WIDEST);
        wide.extend(found.map(|(number, _)| format!("{}:{number}", path.display())));
    }
    assert!(wide.is_empty(), "comments wider than {WIDEST} columns: {wide:#?}");
}
