//! What is different between two bands.
//!
//! Two scripts may tie one band in many orders, so scripts are never compared: bands are, by their brick layouts. Equal
//! layouts are one band ([`compare_bands`]). Otherwise [`find_edits`] finds the fewest knots to leave out of either so that the
//! rest is one band, and pairs what is left out into knots that changed or moved; [`find_follows`] says what that does to the
//! strands further down; [`same_up_to`] looks whether a set is the other one in a mirror, in other colors or begun
//! elsewhere. A line-by-line difference of two scripts would not do: two knots that share no strand, tied in the other order,
//! would count as a change.

mod bound;
mod by_gap;
mod edits;
mod follows;
mod rotation;
mod rough;
mod same_up_to;
mod search;
mod words;

pub use edits::{KnotEdits, find_edits};
pub use follows::{Follows, MovedStrand, find_follows};
pub use rotation::Turned;
pub use same_up_to::{UpTo, same_up_to};

pub(crate) use by_gap::common_start;

use crate::{Layout, Piece, normal_form};
use knotwright_numbers::ToNumber;

/// A piece and, by strand, its color.
#[derive(Debug, Clone, Copy)]
pub struct Colored<'a> {
    /// The knots.
    pub piece: &'a Piece,
    /// By strand, its color; a missing one counts as color 0.
    pub colors: &'a [u16],
}

impl Colored<'_> {
    pub(crate) fn color(&self, strand: u8) -> u16 {
        self.colors.get(usize::from(strand)).copied().unwrap_or(0)
    }

    /// By position, the color there at the start.
    fn start(&self) -> Vec<u16> {
        (0..self.piece.strands().to_u8()).map(|strand| self.color(strand)).collect()
    }
}

/// How alike two bands are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Likeness {
    /// The same knots in the same places, and the same colors at the start: one band, however it is tied.
    Same,
    /// Other knots or colors at the start, but at every place the same color is seen, in brick rows.
    SameLook,
    /// Neither.
    Different,
}

/// How alike two bands are. Takes time in proportion to knots and rows.
pub fn compare_bands(one: Colored<'_>, other: Colored<'_>) -> Likeness {
    if one.piece.strands() != other.piece.strands() {
        return Likeness::Different;
    }
    if one.start() == other.start() && normal_form(one.piece) == normal_form(other.piece) {
        return Likeness::Same;
    }
    if look(one) == look(other) { Likeness::SameLook } else { Likeness::Different }
}

/// Row, gap and color of everything seen, in brick rows.
fn look(band: Colored<'_>) -> Vec<(u32, u8, u16)> {
    let bricks = band.piece.in_bricks();
    let layout = Layout::of(&bricks);
    let seen = |number: u32| {
        let knot = bricks.knots()[number.to_usize()];
        (layout.rows[number.to_usize()], knot.gap, band.color(knot.working))
    };
    layout.sorted(&bricks).into_iter().map(seen).collect()
}
