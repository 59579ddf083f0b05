//! The order of tying with the fewest pick-ups.
//!
//! A pick-up is taking a strand in hand to work; it ties a *series* of knots until it is let go. Knots join neighbors,
//! so what must be tied before what is a planar diagram, and a choice of series can be put in order exactly if each is
//! convex: no knot outside it lies, in time, between two of its knots. Whether a series is convex is a matter of its
//! own strand alone, and a part of a convex series is convex: so it is best to let each series go on as long as it can.
//! Takes time in proportion to the knots (and a sorting of the series). Checked against trying every order.

mod cut;
mod order;
mod strand;

use crate::{Layout, Piece};
use std::ops::Range;

/// An order in which to tie a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Numbers of the piece's knots in the order to tie them: the same band.
    pub knots: Vec<u32>,
    /// The series, one after another.
    pub series: Vec<Series>,
}

/// Knots that one strand ties without being let go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Series {
    /// The strand that works.
    pub strand: u8,
    /// Which of the plan's knots.
    pub knots: Range<u32>,
    /// Why the strand has to be picked up here.
    pub begins: Begins,
}

/// Why a series begins and the one before it, of that strand, could not go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Begins {
    /// It is the first of this strand.
    First,
    /// In between, another strand tied over this one in this knot.
    TiedOver {
        /// The knot, by its number in the piece.
        knot: u32,
    },
    /// The series could not hold this knot too: before it another strand must tie one that, in turn, waits for an
    /// earlier knot of the series. (The series may begin sooner than at this knot: at a turn, if nothing is lost.)
    Waits {
        /// The knot that could not be reached, by its number in the piece.
        knot: u32,
        /// What must be tied before it.
        other: u32,
    },
    /// The series before would have gone over more rows than were allowed.
    TooManyRows,
}

/// The order of tying with the fewest pick-ups, topmost first.
///
/// `within`: if given, no series spans more rows than this (0 counts as 1); then it is the fewest under that
/// condition, except for two series of one strand that happen to follow one another.
pub fn plan_pick_ups(piece: &Piece, within: Option<u32>) -> Plan {
    let layout = Layout::of(piece);
    let cuts = cut::cut_pick_ups(piece, &layout, within);
    order::in_order(piece, &layout, &cuts)
}

/// How many series the plan with the fewest pick-ups has.
pub fn fewest_pick_ups(piece: &Piece) -> usize {
    cut::cut_pick_ups(piece, &Layout::of(piece), None).begins.len()
}

/// How many times a strand is picked up if the piece is tied as its script says.
pub fn pick_ups(piece: &Piece) -> usize {
    piece.knots().chunk_by(|a, b| a.working == b.working).count()
}
