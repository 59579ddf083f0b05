//! Where strands go on with a new piece of thread: a sign at the knot that holds it, and the threads from there on.

use crate::Band;
use crate::frame::PictureFrame;
use crate::path::Point;
use crate::placed::Placed;
use knotwright_band::{Join, Piece, orders};
use knotwright_numbers::ToNumber;

/// A join, and the knot that holds the new piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct PlacedJoin {
    pub(crate) row: u32,
    pub(crate) gap: u8,
    /// Whether the strand comes to the knot from the left.
    pub(crate) from_left: bool,
    /// The strand, by its starting position.
    pub(crate) strand: u8,
}

impl PlacedJoin {
    /// The join of a strand at a knot.
    pub(crate) fn at(knot: &Placed, strand: u8) -> Self {
        let from_left = (knot.working == strand) == knot.kind.left_works();
        Self { row: knot.row, gap: knot.gap, from_left, strand }
    }

    /// Where its sign is: at the upper side of the knot, where the strand comes in.
    pub(crate) fn sign(&self, frame: &PictureFrame) -> Point {
        let across = if self.from_left { -0.3 } else { 0.3 };
        frame.knot(self.row, self.gap).plus(Point::new(across * frame.cell.x, -0.3 * frame.cell.y), 1.0)
    }
}

/// The joins of a band, from the top. A join that no knot comes after is left out.
pub(crate) fn place_joins(band: &Band<'_>, knots: &[Placed]) -> Vec<PlacedJoin> {
    let strands = band.strands.len();
    let mut order: Vec<u8> = (0..strands).map(|strand| strand.to_u8()).collect();
    let (mut placed, mut first) = (Vec::new(), 0);
    for part in band.parts.iter().filter(|part| part.piece.strands() == strands) {
        for join in part.piece.joins().iter().filter(|join| join.is_in(part.set)) {
            let strand = order[usize::from(join.strand)];
            let is_its = |knot: &&Placed| knot.working == strand || knot.base == strand;
            let after = knots.iter().skip(first + join.knot.to_usize()).find(is_its);
            placed.extend(after.map(|knot| PlacedJoin::at(knot, strand)));
        }
        first += part.piece.knots().len();
        order = orders::one_then(&order, part.piece.order());
    }
    placed
}

/// The joins that are made in a set, or in a part that is no set.
pub(crate) fn joins_in(piece: &Piece, set: u64) -> impl Iterator<Item = &Join> {
    piece.joins().iter().filter(move |join| join.is_in(set))
}
