//! Places in a text.

/// A half-open range of bytes in one file. Line and column are reckoned only at the edge, by
/// [`LineIndex`](crate::LineIndex).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The first byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

impl Span {
    /// The bytes from `start` up to, not including, `end`.
    pub fn new(start: usize, end: usize) -> Self {
        Self { start: start as u32, end: end as u32 }
    }

    /// The least span that holds both.
    pub fn to(self, other: Self) -> Self {
        Self { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// How many bytes it covers.
    pub fn len(self) -> usize {
        (self.end - self.start) as usize
    }

    /// Whether it covers nothing.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }

    /// Whether `offset` lies in it, its end included: a cursor behind a word still touches it.
    pub fn touches(self, offset: u32) -> bool {
        self.start <= offset && offset <= self.end
    }

    /// The part of `text` it covers; empty if it does not fit.
    pub fn of(self, text: &str) -> &str {
        text.get(self.start as usize..self.end as usize).unwrap_or("")
    }
}
