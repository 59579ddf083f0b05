//! The strands that exist in a block, and a mirror in front of them.

use crate::Side;

/// Positions of the band side by side, from 0, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct PositionRange {
    pub(super) low: usize,
    pub(super) high: usize,
}

impl PositionRange {
    /// The shortest range with both in it.
    pub(super) fn joined(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }
}

/// A range of positions of the band, from 0, both ends included, as it is seen from within.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Frame {
    pub(super) low: usize,
    pub(super) high: usize,
    /// Left and right have changed places.
    pub(super) mirrored: bool,
}

impl Frame {
    pub(super) fn width(self) -> usize {
        self.high + 1 - self.low
    }

    /// The band's position of the `local`-th strand of the range, counted from 1 from its left.
    pub(super) fn position(self, local: usize) -> usize {
        if self.mirrored { self.high + 1 - local } else { self.low + local - 1 }
    }

    /// The inverse of [`position`](Self::position).
    pub(super) fn local(self, position: usize) -> usize {
        if self.mirrored { self.high + 1 - position } else { position + 1 - self.low }
    }

    /// The range from the `first`-th to the `last`-th strand, counted from 1 within this one.
    pub(super) fn inner(self, first: usize, last: usize) -> Self {
        let (one, other) = (self.position(first), self.position(last));
        Self { low: one.min(other), high: one.max(other), mirrored: self.mirrored }
    }

    pub(super) fn mirror(self) -> Self {
        Self { mirrored: !self.mirrored, ..self }
    }

    /// Whether `side` of the text is the right side of the band.
    pub(super) fn is_right(self, side: Side) -> bool {
        (side == Side::Right) != self.mirrored
    }

    /// How many strands there are beyond `position` towards the right, or the left, of the band.
    pub(super) fn beyond(self, position: usize, right: bool) -> usize {
        if right { self.high - position } else { position - self.low }
    }

    /// Its positions, regardless of the mirror.
    pub(super) fn positions(self) -> PositionRange {
        PositionRange { low: self.low, high: self.high }
    }

    pub(super) fn has(self, position: usize) -> bool {
        self.covers(PositionRange { low: position, high: position })
    }

    pub(super) fn overlaps(self, other: PositionRange) -> bool {
        self.low <= other.high && other.low <= self.high
    }

    pub(super) fn covers(self, other: PositionRange) -> bool {
        self.low <= other.low && other.high <= self.high
    }
}
