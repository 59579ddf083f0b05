//! Two changes of one text, put together.

use similar::{DiffOp, TextDiff};
use std::ops::Range;

/// The changes of both, line by line; none if both changed one line, or added lines at one place, and not alike. Unlike
/// the usual merge it takes changes of neighboring lines: each line is a step of its own.
pub(crate) fn interleaved(base: &str, ours: &str, theirs: &str) -> Option<String> {
    let mut changes = changes(base, ours);
    for change in self::changes(base, theirs) {
        let clash = changes.iter().find(|other| other.clashes(&change));
        match clash {
            Some(other) if *other == change => {}
            Some(_) => return None,
            None => changes.push(change),
        }
    }
    changes.sort_by_key(|change| (change.lines.start, change.lines.end));
    let lines = lines(base);
    let (mut out, mut at) = (String::with_capacity(base.len() + 64), 0);
    for change in changes {
        out.extend(lines.get(at..change.lines.start)?.iter().copied());
        out.push_str(&change.text);
        at = change.lines.end;
    }
    out.extend(lines.get(at..)?.iter().copied());
    Some(out)
}

/// Both texts, with the marks of a conflict wherever they differ.
pub(crate) fn side_by_side(ours: &str, theirs: &str) -> String {
    let (our, their) = (lines(ours), lines(theirs));
    let difference = TextDiff::from_slices(&our, &their);
    let mut out = String::with_capacity(ours.len() + theirs.len());
    for op in difference.ops() {
        let (one, other) = (our[op.old_range()].concat(), their[op.new_range()].concat());
        if matches!(op, DiffOp::Equal { .. }) {
            out += &one;
        } else {
            out += &format!("<<<<<<< ours\n{}=======\n{}>>>>>>> theirs\n", whole(one), whole(other));
        }
    }
    out
}

/// Each with its end.
fn lines(text: &str) -> Vec<&str> {
    text.split_inclusive('\n').collect()
}

/// A mark is at the start of a line.
fn whole(mut lines: String) -> String {
    if !lines.is_empty() && !lines.ends_with('\n') {
        lines.push('\n');
    }
    lines
}

/// Lines of the base, and what is in their place.
#[derive(Debug, PartialEq, Eq)]
struct LineChange {
    lines: Range<usize>,
    text: String,
}

impl LineChange {
    fn clashes(&self, other: &Self) -> bool {
        let (one, two) = (&self.lines, &other.lines);
        one.start.max(two.start) < one.end.min(two.end) || (one == two && one.is_empty())
    }
}

fn changes(base: &str, new: &str) -> Vec<LineChange> {
    let (old, new) = (lines(base), lines(new));
    let difference = TextDiff::from_slices(&old, &new);
    let changed = difference.ops().iter().filter(|op| !matches!(op, DiffOp::Equal { .. }));
    changed.map(|op| LineChange { lines: op.old_range(), text: new[op.new_range()].concat() }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const BASE: &str = "a\nb\nc\nd\n";

    #[test]
    fn changes_of_neighboring_lines_go_together() {
        assert_eq!(interleaved(BASE, "a\nB\nc\nd\n", "a\nb\nC\nd\n").as_deref(), Some("a\nB\nC\nd\n"));
        assert_eq!(interleaved(BASE, "a\nc\nd\n", "a\nb\nC\nd\nE\n").as_deref(), Some("a\nC\nd\nE\n"));
        assert_eq!(interleaved(BASE, "a\nB\nc\nd\n", "a\nB\nc\nd\n").as_deref(), Some("a\nB\nc\nd\n"));
    }

    #[test]
    fn two_changes_of_one_line_do_not() {
        assert_eq!(interleaved(BASE, "a\nx\nc\nd\n", "a\ny\nc\nd\n"), None);
        assert_eq!(interleaved(BASE, "a\nb\nx\nc\nd\n", "a\nb\ny\nc\nd\n"), None, "lines at one place");
    }

    #[test]
    fn what_differs_stands_between_marks() {
        assert_eq!(side_by_side("a\nx\nc", "a\ny\nc"), "a\n<<<<<<< ours\nx\n=======\ny\n>>>>>>> theirs\nc");
        assert_eq!(side_by_side("a", "b"), "<<<<<<< ours\na\n=======\nb\n>>>>>>> theirs\n");
    }
}
