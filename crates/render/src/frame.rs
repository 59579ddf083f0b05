//! Where rows and positions lie in the picture.

use crate::path::Point;
use crate::placed::Placed;
use crate::threaded::largest;
use crate::{Band, ends};
use knotwright_band::ends::EndWork;
use knotwright_numbers::ToNumber;

/// The measures of a picture, in tenths of a millimeter.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PictureFrame {
    pub(crate) cell: Point,
    thickness: f64,
    /// The left edge of the band, and the line one row above its first row.
    pub(crate) corner: Point,
    pub(crate) strands: usize,
    pub(crate) rows: u32,
    /// How much room there is below the band.
    pub(crate) below: f64,
    /// No piece of an end is drawn longer than this; the knots are what the picture is about.
    pub(crate) longest: f64,
}

/// In pictures a bracelet's plaits are mostly as long as they are; a chart is to fit on few pages.
const LONGEST: f64 = 600.0;
const LONGEST_IN_CHART: f64 = 120.0;

impl PictureFrame {
    pub(crate) fn of(band: &Band<'_>, knots: &[Placed]) -> Self {
        let cell = Point::new(in_reach(band.gauge.width), in_reach(band.gauge.pitch));
        let rows = knots.iter().map(|knot| knot.row + 1).max().unwrap_or(0);
        let strands = band.strands.len().min(knotwright_band::MOST_STRANDS);
        let (corner, thickness) = (Point::default(), in_reach(band.gauge.thickness));
        let mut frame = Self { cell, thickness, corner, strands, rows, below: 0.0, longest: LONGEST };
        // A bead may reach beyond the first and the last knot, and beyond the edges.
        let bead = largest(band);
        let beside = ends::room_beside(band, &frame).max((bead - cell.x) / 2.0);
        frame.below = ends::room_below(band, &frame).max(bead);
        frame.corner = Point::new(frame.thickness() * 2.0 + beside, ends::room_above(band, &frame).max(bead));
        frame
    }

    /// A frame without a row, for ends on a chart.
    pub(crate) fn bare(cell: Point, thickness: f64, strands: usize) -> Self {
        let corner = Point::default();
        Self { cell, thickness, corner, strands, rows: 0, below: 0.0, longest: LONGEST_IN_CHART }
    }

    /// Whether an end of these pieces is drawn shorter than it is.
    pub(crate) fn shortens(&self, works: &[EndWork]) -> bool {
        works.iter().any(|work| match work {
            EndWork::Plait { length, .. }
            | EndWork::Twist { length }
            | EndWork::Loop { length }
            | EndWork::Tassel { length } => length * 10.0 > self.longest,
            EndWork::Split { works, .. } => self.shortens(works),
            EndWork::Knot
            | EndWork::Wrap { .. }
            | EndWork::Bead { .. }
            | EndWork::ClosingKnot
            | EndWork::Slide { .. } => false,
        })
    }

    pub(crate) fn size(&self) -> Point {
        let width = self.strands.to_f64() * self.cell.x + self.corner.x * 2.0;
        Point::new(width, self.bottom() + self.below)
    }

    /// The middle of a position.
    pub(crate) fn column(&self, position: f64) -> f64 {
        self.corner.x + (position + 0.5) * self.cell.x
    }

    pub(crate) fn knot(&self, row: u32, gap: u8) -> Point {
        let x = self.column(f64::from(gap) + 0.5);
        Point::new(x, self.corner.y + (f64::from(row) + 1.0) * self.cell.y)
    }

    /// The line one row below the last row.
    pub(crate) fn bottom(&self) -> f64 {
        self.corner.y + (f64::from(self.rows) + 1.0) * self.cell.y
    }

    /// The thickness of a strand: a position is 1.5 and a row 2 of them, or 2.5 and 2.4 where a leader goes across.
    pub(crate) fn thickness(&self) -> f64 {
        self.thickness
    }
}

/// Millimeters to tenths; what no thread can have is brought back to what one might.
pub(crate) fn in_reach(millimeters: f64) -> f64 {
    if millimeters.is_finite() { (millimeters * 10.0).clamp(0.5, 500.0) } else { 10.0 }
}
