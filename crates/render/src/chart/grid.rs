//! Where rows and positions lie in the chart, in pixels.

use std::collections::BTreeMap;

use crate::Band;
use crate::path::Point;
use crate::placed::Placed;

/// From one position to the next.
pub(super) const ACROSS: f64 = 22.0;
/// From one row to the next.
pub(super) const DOWN: f64 = 27.0;
/// Beside the strands: room for the rows' numbers.
const BESIDE: f64 = 38.0;
/// The least width, so that the legend has room.
const LEAST: f64 = 400.0;

pub(super) struct Grid {
    pub(super) strands: usize,
    pub(super) rows: u32,
    /// The left edge of the first position, and the upper edge of the first row.
    pub(super) left: f64,
    pub(super) top: f64,
    /// The straight rows, and whether their leader begins at the left.
    pub(super) led: BTreeMap<u32, bool>,
}

impl Grid {
    pub(super) fn of(band: &Band<'_>, knots: &[Placed]) -> Self {
        let strands = band.strands.len().min(knotwright_band::MOST_STRANDS);
        let width = strands as f64 * ACROSS;
        let mut led = BTreeMap::new();
        for knot in knots.iter().filter(|knot| knot.leader.is_some()) {
            led.entry(knot.row).or_insert(starts_left(knot));
        }
        Self {
            strands,
            rows: knots.iter().map(|knot| knot.row + 1).max().unwrap_or(0),
            left: BESIDE.max((LEAST - width) / 2.0),
            top: 62.0,
            led,
        }
    }

    pub(super) fn column(&self, position: f64) -> f64 {
        self.left + (position + 0.5) * ACROSS
    }

    /// The middle of a row.
    pub(super) fn row(&self, row: u32) -> f64 {
        self.top + (f64::from(row) + 0.5) * DOWN
    }

    pub(super) fn knot(&self, knot: &Placed) -> Point {
        Point::new(self.column(f64::from(knot.gap) + 0.5), self.row(knot.row))
    }

    pub(super) fn right(&self) -> f64 {
        self.left + self.strands as f64 * ACROSS
    }

    pub(super) fn bottom(&self) -> f64 {
        self.top + f64::from(self.rows) * DOWN
    }

    /// The whole chart with a legend of that height.
    pub(super) fn size(&self, legend: f64) -> Point {
        Point::new(self.right() + self.left, self.bottom() + 34.0 + legend)
    }
}

/// Whether the leader goes to the right: in its first knot it is the left strand.
fn starts_left(knot: &Placed) -> bool {
    (knot.leader == Some(knot.working)) == knot.kind.left_works()
}
