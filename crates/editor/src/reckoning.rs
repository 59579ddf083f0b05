//! The numbers of the whole band are reckoned as the program reckons them; here are those of one part.

use knotwright_band::{Layout, Piece};
use knotwright_checker::Part;

pub(crate) use knotwright_maker::Reckoning;

/// A part by itself. `None` if it has errors that moved strands.
pub(crate) fn piece(part: &Part) -> Option<Piece> {
    Piece::from_tied(part.knots.clone(), part.order.clone(), part.straight.clone()).ok()
}

/// How many rows a part has by itself.
pub(crate) fn rows(part: &Part) -> Option<u32> {
    piece(part).map(|piece| Layout::of(&piece).height)
}
