//! Where lines and positions lie in the chart, in pixels. A line is a row, or as high as one.

use crate::path::Point;
use knotwright_numbers::ToNumber;

/// From one position to the next.
pub(super) const ACROSS: f64 = 22.0;
/// From one line to the next.
pub(super) const DOWN: f64 = 27.0;
/// Half as wide as a bead.
pub(super) const BEAD: f64 = ACROSS * 0.38;
/// Beside the strands: room for the rows' numbers.
pub(super) const BESIDE: f64 = 52.0;
/// The least width, so that the legend has room.
const LEAST: f64 = 420.0;

#[derive(Debug, Clone, Copy)]
pub(super) struct Grid {
    pub(super) strands: usize,
    /// The left edge of the first position, and the upper edge of the first line.
    pub(super) left: f64,
    pub(super) top: f64,
}

impl Grid {
    pub(super) fn of(strands: usize) -> Self {
        let width = strands.to_f64() * ACROSS;
        Self { strands, left: BESIDE.max((LEAST - width) / 2.0), top: 0.0 }
    }

    pub(super) fn column(&self, position: f64) -> f64 {
        self.left + (position + 0.5) * ACROSS
    }

    /// The middle of a line.
    pub(super) fn line(&self, line: u32) -> f64 {
        self.top + (f64::from(line) + 0.5) * DOWN
    }

    /// The middle of a gap in a line.
    pub(super) fn knot(&self, line: u32, gap: u8) -> Point {
        Point::new(self.column(f64::from(gap) + 0.5), self.line(line))
    }

    pub(super) fn right(&self) -> f64 {
        self.left + self.strands.to_f64() * ACROSS
    }

    pub(super) fn width(&self) -> f64 {
        self.right() + self.left
    }
}
