//! Places in a text.

use knotwright_numbers::ToNumber;

/// A half-open range of bytes in one file. Line and column are computed only at the edge, by
/// [`LineIndex`](crate::LineIndex).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The first byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

/// A place in a text by its byte. What lies further than can be counted so is in a text that is too large to be read
/// ([`LARGEST_TEXT`](crate::LARGEST_TEXT)).
pub fn to_offset(byte: usize) -> u32 {
    u32::try_from(byte).unwrap_or(u32::MAX)
}

impl Span {
    /// The bytes from `start` up to, not including, `end`.
    pub fn new(start: usize, end: usize) -> Self {
        Self { start: to_offset(start), end: to_offset(end) }
    }

    /// The least span that holds both.
    pub fn to(self, other: Self) -> Self {
        Self { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// How many bytes it covers.
    pub fn len(self) -> usize {
        (self.end - self.start).to_usize()
    }

    /// Whether it covers nothing.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }

    /// Whether `offset` is in it, its end included: a cursor after a word still touches it.
    pub fn touches(self, offset: u32) -> bool {
        self.start <= offset && offset <= self.end
    }

    /// Whether they have a byte or an end in common.
    pub fn meets(self, other: Self) -> bool {
        self.start <= other.end && other.start <= self.end
    }

    /// From the start of its first line to the end of its last, without the line breaks around them.
    pub fn whole_lines(self, text: &str) -> Self {
        let before = text.get(..self.start.to_usize()).unwrap_or("");
        let after = text.get(self.end.to_usize()..).unwrap_or("");
        let start = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
        let more = after.find(['\n', '\r']).unwrap_or(after.len());
        Self { start: to_offset(start), end: self.end + to_offset(more) }
    }

    /// The part of `text` it covers; empty if it does not fit.
    #[inline]
    pub fn of(self, text: &str) -> &str {
        text.get(self.start.to_usize()..self.end.to_usize()).unwrap_or("")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_grows_to_its_lines_whatever_ends_them() {
        let text = "one\r\n  two\rthree\n";
        let lines = |start, end| Span { start, end }.whole_lines(text).of(text).to_owned();
        assert_eq!(
            [lines(1, 1), lines(7, 8), lines(9, 12), lines(17, 17)],
            ["one", "  two", "  two\rthree", ""]
        );
        assert_eq!(
            Span { start: 99, end: 99 }.whole_lines(text),
            Span { start: 0, end: 99 },
            "what does not fit stays"
        );
    }
}
