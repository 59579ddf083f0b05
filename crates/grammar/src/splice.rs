//! Edits as places: which bytes of a text were replaced, and by how many.
//!
//! An editor says where it writes. That place goes along with the text from version to version, and whatever was known
//! of the text (tokens, tree, knots, findings) is moved by it; nobody compares two versions to find it again.
//! Two edits one after another are one splice that covers both, so that versions which nobody looked at cost nothing.
//!
//! What holds of a splice between two texts: they are the same before its `start`, and after its ends. It may cover
//! more than what differs, and all that use it are right all the same, only slower.

use crate::Span;
use knotwright_numbers::ToNumber;
use std::iter::zip;

/// Bytes that are compared at a time.
const AT_ONCE: usize = 256;

/// One stretch of a text that was replaced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Splice {
    /// The first byte that may differ.
    pub start: usize,
    /// The byte after the stretch, in the text before.
    pub old_end: usize,
    /// The byte after the stretch, in the text after.
    pub new_end: usize,
}

impl Splice {
    /// Replaces nothing by nothing.
    pub const NONE: Self = Self { start: 0, old_end: 0, new_end: 0 };

    /// The least stretch that differs, where `new` is in the place of `old`, which began at byte `at` of a text;
    /// `None` if they are the same. Its ends are boundaries of characters.
    pub fn between(old: &str, new: &str, at: usize) -> Option<Self> {
        let mut start = same_start(old.as_bytes(), new.as_bytes());
        if start == old.len() && start == new.len() {
            return None;
        }
        while !old.is_char_boundary(start) || !new.is_char_boundary(start) {
            start -= 1;
        }
        let mut end = same_end(&old.as_bytes()[start..], &new.as_bytes()[start..]);
        while !old.is_char_boundary(old.len() - end) || !new.is_char_boundary(new.len() - end) {
            end -= 1;
        }
        Some(Self { start: at + start, old_end: at + old.len() - end, new_end: at + new.len() - end })
    }

    /// Both edits as one: this and then `next`, with all that is between them.
    pub fn then(self, next: Self) -> Self {
        if self.is_empty() || next.is_empty() {
            return if self.is_empty() { next } else { self };
        }
        // In the text between the two.
        let end = self.new_end.max(next.old_end);
        Self {
            start: self.start.min(next.start),
            old_end: end - self.new_end + self.old_end,
            new_end: end - next.old_end + next.new_end,
        }
    }

    /// The least of it that differs between the text before and the text after; `None` if nothing does. Only what it
    /// covers is compared.
    pub fn trimmed(self, old: &str, new: &str) -> Option<Self> {
        match (old.get(self.start..self.old_end), new.get(self.start..self.new_end)) {
            (Some(old), Some(new)) => Self::between(old, new, self.start),
            _ => Some(self),
        }
    }

    /// Whether it replaces nothing by nothing.
    pub fn is_empty(self) -> bool {
        self.start == self.old_end && self.start == self.new_end
    }

    /// By how many bytes what comes after it has moved.
    pub fn by(self) -> i32 {
        self.new_end.to_i32() - self.old_end.to_i32()
    }

    /// Where a place that comes after it is now.
    pub fn after(self, offset: u32) -> u32 {
        offset.wrapping_add_signed(self.by())
    }

    /// Where a span is now; `None` if it touches what was replaced.
    pub fn moved(self, span: Span) -> Option<Span> {
        if span.end.to_usize() < self.start {
            return Some(span);
        }
        let is_after = span.start.to_usize() > self.old_end;
        is_after.then(|| Span { start: self.after(span.start), end: self.after(span.end) })
    }
}

/// How many bytes both begin with.
fn same_start(one: &[u8], other: &[u8]) -> usize {
    let (ours, theirs) = (one.chunks_exact(AT_ONCE), other.chunks_exact(AT_ONCE));
    let sure = AT_ONCE * zip(ours, theirs).take_while(|(one, other)| one == other).count();
    sure + zip(&one[sure..], &other[sure..]).take_while(|(one, other)| one == other).count()
}

/// How many bytes both end with.
fn same_end(one: &[u8], other: &[u8]) -> usize {
    let (ours, theirs) = (one.rchunks_exact(AT_ONCE), other.rchunks_exact(AT_ONCE));
    let sure = AT_ONCE * zip(ours, theirs).take_while(|(one, other)| one == other).count();
    let (one, other) = (&one[..one.len() - sure], &other[..other.len() - sure]);
    sure + zip(one.iter().rev(), other.iter().rev()).take_while(|(one, other)| one == other).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts<'t>(old: &'t str, new: &'t str) -> (&'t str, &'t str) {
        let found = Splice::between(old, new, 0).expect("they differ");
        (&old[found.start..found.old_end], &new[found.start..found.new_end])
    }

    fn splice(start: usize, old_end: usize, new_end: usize) -> Splice {
        Splice { start, old_end, new_end }
    }

    #[test]
    fn the_least_part_that_differs_is_found() {
        assert_eq!(Splice::between("forward 3", "forward 3", 7), None);
        assert_eq!(Splice::between("forward 3", "forward 12", 7), Some(splice(15, 16, 17)));
        assert_eq!(parts("forward 3", "forward 4"), ("3", "4"));
        assert_eq!(parts("aaa", "aaaa"), ("", "a"), "what is the same is counted once");
        assert_eq!(parts("", "set"), ("", "set"));
        let long = "meet center\n".repeat(99);
        assert_eq!(parts(&format!("{long}ab{long}"), &format!("{long}axb{long}")), ("", "x"));
    }

    #[test]
    fn no_character_is_torn_apart() {
        // Both letters begin, and these signs end, with the same byte.
        assert_eq!(parts("\u{e9}", "\u{e8}"), ("\u{e9}", "\u{e8}"));
        assert_eq!(parts("\u{1f600}", "\u{1f640}"), ("\u{1f600}", "\u{1f640}"));
    }

    #[test]
    fn two_edits_are_one_that_covers_both() {
        // "abcdef", "abXcdef", "abXcYf": the second comes after the first.
        assert_eq!(splice(2, 2, 3).then(splice(4, 6, 5)), splice(2, 5, 5));
        // "abcdef", "abcX", "Zbc": the second is around it, or before it.
        assert_eq!(splice(3, 6, 4).then(splice(0, 4, 1)), splice(0, 6, 1));
        assert_eq!(splice(3, 6, 4).then(splice(0, 1, 0)), splice(0, 6, 3));
        // What was typed is deleted again.
        assert!(splice(2, 2, 3).then(splice(2, 3, 2)).is_empty());
        let again = splice(2, 3, 2).then(splice(2, 2, 3));
        assert_eq!(again.trimmed("abcdef", "abcdef"), None);
        assert_eq!(again.trimmed("abcdef", "abXdef"), Some(again));
    }

    #[test]
    fn what_touches_an_edit_is_nowhere_after_it() {
        let edit = splice(4, 6, 9);
        assert_eq!(edit.moved(Span::new(0, 3)), Some(Span::new(0, 3)));
        assert_eq!(edit.moved(Span::new(7, 8)), Some(Span::new(10, 11)));
        assert_eq!(
            [Span::new(0, 4), Span::new(5, 5), Span::new(6, 8)].map(|span| edit.moved(span)),
            [None; 3]
        );
    }
}
