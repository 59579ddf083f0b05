//! Strands in hand: knots are tied one after another, and the order of the strands is kept.

use crate::{Kind, Knot};

/// Strands side by side and the knots tied so far.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tying {
    order: Vec<u8>,
    knots: Vec<Knot>,
}

impl Tying {
    /// `strands` strands that hang in starting order.
    ///
    /// # Panics
    /// Never for at most [`MOST_STRANDS`](crate::MOST_STRANDS) strands; more are cut off.
    pub fn new(strands: usize) -> Self {
        let order = (0..strands.min(crate::MOST_STRANDS) as u8).collect();
        Self { order, knots: Vec::new() }
    }

    /// By position, which strand hangs there now.
    pub fn order(&self) -> &[u8] {
        &self.order
    }

    /// The knots tied so far.
    pub fn knots(&self) -> &[Knot] {
        &self.knots
    }

    /// Ties one knot in `gap`; `None`, and nothing is tied, if there are no two strands there.
    #[inline]
    pub fn tie(&mut self, gap: u8, kind: Kind) -> Option<Knot> {
        let at = usize::from(gap);
        let &[left, right] = self.order.get(at..at + 2)? else { return None };
        let (working, base) = if kind.left_works() { (left, right) } else { (right, left) };
        if kind.swaps() {
            self.order.swap(at, at + 1);
        }
        let knot = Knot { gap, kind, working, base };
        self.knots.push(knot);
        Some(knot)
    }

    /// Gives up the strands: the knots, and by position which strand hangs there.
    pub fn finish(self) -> (Vec<Knot>, Vec<u8>) {
        (self.knots, self.order)
    }
}
