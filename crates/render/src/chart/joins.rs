//! Signs where strands go on with a new piece of thread.

use super::blocks::DrawnPart;
use super::grid::{ACROSS, DOWN, Grid};
use super::mark::ChartMark;
use crate::joined::{PlacedJoin, joins_in};
use crate::placed::Placed;
use knotwright_numbers::ToNumber;

/// Whether some of these parts have joins.
pub(super) fn are_there(list: &[DrawnPart<'_>]) -> bool {
    list.iter().any(|block| joins_in(&block.passage.piece, block.set).next().is_some())
}

/// The signs of a block, each where the strand comes to the knot that holds its new piece.
pub(super) fn signs(block: &DrawnPart<'_>, knots: &[Placed], grid: &Grid) -> Vec<ChartMark> {
    let sign = |join: &knotwright_band::Join| {
        let strand = *block.order.get(usize::from(join.strand))?;
        let is_its = |knot: &&Placed| knot.working == strand || knot.base == strand;
        let knot = knots.iter().skip(join.knot.to_usize()).find(is_its)?;
        let join = PlacedJoin::at(knot, strand);
        let middle = grid.knot(knot.row, knot.gap);
        let across = if join.from_left { -0.5 } else { 0.5 };
        Some(ChartMark::Join { at: [middle.x + across * ACROSS, middle.y - 0.46 * DOWN] })
    };
    joins_in(&block.passage.piece, block.set).filter_map(sign).collect()
}
