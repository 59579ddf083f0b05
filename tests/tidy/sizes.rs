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
