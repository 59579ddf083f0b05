//! The band itself, whichever way it was tied.
//!
//! Knots in gaps that are not neighbors can be tied in either order. Each is laid as far up as it can lie, and the knots
//! are listed row by row: so all scripts of one band give one list, and two lists are compared in place of all orders. It
//! is the normal form of Cartier and Foata; sorting is by counting, so that it takes time in proportion to knots and rows.

use crate::{Kind, Layout, Piece};
use knotwright_numbers::ToNumber;

/// One knot of a band: where it lies and how it is tied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Cell {
    /// Its brick row.
    pub row: u32,
    /// Its gap.
    pub gap: u8,
    /// How it is tied.
    pub kind: Kind,
}

/// The knots of a band by row and gap, all in brick rows (leaders' rows too: how they are drawn is no matter here).
///
/// Two pieces with as many strands make one band exactly if their normal forms are equal: knots that share no strand
/// can be tied in either order, and nothing else can (Cartier & Foata 1969; checked in this crate's tests against
/// their counts).
pub fn normal_form(piece: &Piece) -> Vec<Cell> {
    let piece = piece.in_bricks();
    let layout = Layout::of(&piece);
    let cell = |knot: u32| {
        let at = knot.to_usize();
        let k = piece.knots()[at];
        Cell { row: layout.rows[at], gap: k.gap, kind: k.kind }
    };
    layout.sorted(&piece).into_iter().map(cell).collect()
}
