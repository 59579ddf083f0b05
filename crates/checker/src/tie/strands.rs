//! The strands in their present order, and the knots: the innermost loops.

use knotwright_band::{Kind, Knot};

/// Strands side by side. They are named by where they hung as the part began.
#[derive(Debug)]
pub(super) struct Strands {
    order: Vec<u8>,
    knots: Vec<Knot>,
    tied: u64,
    keep: bool,
}

impl Strands {
    /// `count` strands in starting order; the knots are kept only if `keep` says so.
    pub(super) fn new(count: usize, keep: bool) -> Self {
        Self { order: (0..=u8::MAX).take(count).collect(), knots: Vec::new(), tied: 0, keep }
    }

    /// Strands that hang in this order already.
    pub(super) fn hanging(order: &[u8]) -> Self {
        Self { order: order.to_vec(), knots: Vec::new(), tied: 0, keep: true }
    }

    pub(super) fn order(&self) -> &[u8] {
        &self.order
    }

    pub(super) fn knots(&self) -> &[Knot] {
        &self.knots
    }

    /// How many knots were tied, kept or not.
    pub(super) fn tied(&self) -> u64 {
        self.tied
    }

    pub(super) fn finish(self) -> (Vec<Knot>, Vec<u8>) {
        (self.knots, self.order)
    }

    /// Hangs the strands of `low..` anew.
    pub(super) fn rearrange(&mut self, low: usize, order: &[u8]) {
        self.order[low..low + order.len()].copy_from_slice(order);
    }

    /// The strand at `at` ties over the next `count` to its right and goes past them.
    pub(super) fn right(&mut self, at: usize, count: usize) {
        let hand = self.order[at];
        let bases = &self.order[at + 1..=at + count];
        if self.keep {
            self.knots.extend(bases.iter().zip(at as u8..).map(|(&base, gap)| Knot {
                gap,
                kind: Kind::Forward,
                working: hand,
                base,
            }));
        }
        self.order.copy_within(at + 1..=at + count, at);
        self.order[at + count] = hand;
        self.tied += count as u64;
    }

    /// The strand at `at` ties over the next `count` to its left and goes past them.
    pub(super) fn left(&mut self, at: usize, count: usize) {
        let hand = self.order[at];
        let first = at - count;
        let bases = &self.order[first..at];
        if self.keep {
            self.knots.extend(bases.iter().zip(first as u8..at as u8).rev().map(|(&base, gap)| Knot {
                gap,
                kind: Kind::Backward,
                working: hand,
                base,
            }));
        }
        self.order.copy_within(first..at, first + 1);
        self.order[first] = hand;
        self.tied += count as u64;
    }

    /// `count` turning knots between `gap` and its right neighbor.
    pub(super) fn turn(&mut self, gap: usize, kind: Kind, count: usize) {
        if self.keep {
            let (left, right) = (self.order[gap], self.order[gap + 1]);
            let (working, base) = if kind.left_works() { (left, right) } else { (right, left) };
            let knot = Knot { gap: gap as u8, kind, working, base };
            self.knots.extend(std::iter::repeat_n(knot, count));
        }
        self.tied += count as u64;
    }

    /// One knot of any kind between `gap` and its right neighbor.
    pub(super) fn knot(&mut self, gap: usize, kind: Kind) {
        match kind {
            Kind::Forward => self.right(gap, 1),
            Kind::Backward => self.left(gap + 1, 1),
            Kind::ForwardBackward | Kind::BackwardForward => self.turn(gap, kind, 1),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Strands;
    use knotwright_band::{Kind, Tying};

    /// Runs against the plain knot-for-knot simulation of the band room.
    #[test]
    fn a_run_is_its_knots_one_after_another() {
        let mut strands = Strands::new(9, true);
        let mut tying = Tying::new(9);
        strands.right(2, 5);
        strands.left(8, 8);
        strands.turn(3, Kind::BackwardForward, 2);
        strands.right(4, 0);
        let forward = (2..7).map(|gap| (gap, Kind::Forward));
        let backward = (0..8).rev().map(|gap| (gap, Kind::Backward));
        for (gap, kind) in forward.chain(backward).chain([(3, Kind::BackwardForward); 2]) {
            assert!(tying.tie(gap, kind).is_some());
        }
        assert_eq!(strands.order(), tying.order());
        assert_eq!(strands.knots(), tying.knots());
        assert_eq!(strands.tied(), 15);
    }
}
