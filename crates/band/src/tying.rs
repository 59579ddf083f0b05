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

    /// Makes room for so many more knots; only for speed.
    pub fn reserve(&mut self, knots: usize) {
        self.knots.reserve(knots.min(crate::MOST_KNOTS));
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
        let pair = self.order.get_mut(at..at + 2)?;
        // Without branches, which a processor would have to guess: what differs is taken over or not.
        let (left, right) = (pair[0], pair[1]);
        let differs = left ^ right;
        let if_right = differs & u8::from(!kind.left_works()).wrapping_neg();
        let if_swapped = differs & u8::from(kind.swaps()).wrapping_neg();
        pair[0] = left ^ if_swapped;
        pair[1] = right ^ if_swapped;
        let (working, base) = (left ^ if_right, right ^ if_right);
        let knot = Knot { gap, kind, working, base };
        self.knots.push(knot);
        Some(knot)
    }

    /// Ties `count` knots of one kind with the strand that works at the first, `gap`, and stays in hand: a forward
    /// run goes right gap by gap, a backward run left, a turning run stays in its gap. Returns the new knots; `None`,
    /// and nothing is tied, if the run would go past the edge.
    pub fn tie_run(&mut self, gap: u8, kind: Kind, count: usize) -> Option<&[Knot]> {
        let already = self.knots.len();
        let last = match kind {
            Kind::Forward => usize::from(gap).checked_add(count.saturating_sub(1))?,
            Kind::Backward => {
                usize::from(gap).checked_sub(count.saturating_sub(1)).map(|_| usize::from(gap))?
            }
            Kind::ForwardBackward | Kind::BackwardForward => usize::from(gap),
        };
        if count > 0 && last + 1 >= self.order.len() {
            return None;
        }
        self.knots.reserve(count);
        let mut at = gap;
        for _ in 0..count {
            self.tie(at, kind)?;
            at = match kind {
                Kind::Forward => at.saturating_add(1),
                Kind::Backward => at.saturating_sub(1),
                Kind::ForwardBackward | Kind::BackwardForward => at,
            };
        }
        Some(&self.knots[already..])
    }

    /// Gives up the strands: the knots, and by position which strand hangs there.
    pub fn finish(self) -> (Vec<Knot>, Vec<u8>) {
        (self.knots, self.order)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_kind_moves_and_shows_as_the_notation_says() {
        // (kind, working, order afterwards)
        let table = [
            (Kind::Forward, 0, [1, 0]),
            (Kind::Backward, 1, [1, 0]),
            (Kind::ForwardBackward, 0, [0, 1]),
            (Kind::BackwardForward, 1, [0, 1]),
        ];
        for (kind, working, order) in table {
            let mut tying = Tying::new(2);
            let knot = tying.tie(0, kind).unwrap();
            assert_eq!((knot.working, knot.base), (working, 1 - working), "{kind:?}");
            assert_eq!(tying.order(), order, "{kind:?}");
        }
    }

    #[test]
    fn a_knot_past_the_edge_ties_nothing() {
        let mut tying = Tying::new(3);
        assert_eq!(tying.tie(2, Kind::Forward), None);
        assert_eq!(tying.tie(255, Kind::Forward), None);
        assert_eq!((tying.order(), tying.knots().len()), (&[0, 1, 2][..], 0));
    }

    #[test]
    fn a_run_keeps_its_strand_in_hand() {
        let mut tying = Tying::new(4);
        let gaps: Vec<u8> = tying.tie_run(0, Kind::Forward, 3).unwrap().iter().map(|k| k.gap).collect();
        assert_eq!(gaps, [0, 1, 2]);
        assert!(tying.knots().iter().all(|k| k.working == 0));
        assert_eq!(tying.order(), [1, 2, 3, 0]);
        assert!(tying.tie_run(2, Kind::Backward, 3).unwrap().iter().all(|k| k.working == 0));
        assert_eq!(tying.order(), [0, 1, 2, 3]);
        assert_eq!(tying.tie_run(1, Kind::BackwardForward, 5).unwrap().len(), 5);
    }

    #[test]
    fn a_run_past_the_edge_ties_nothing() {
        let mut tying = Tying::new(4);
        assert_eq!(tying.tie_run(1, Kind::Forward, 3), None);
        assert_eq!(tying.tie_run(1, Kind::Backward, 3), None);
        assert_eq!(tying.tie_run(3, Kind::ForwardBackward, 1), None);
        assert_eq!(tying.tie_run(3, Kind::Forward, usize::MAX), None);
        assert_eq!(tying.tie_run(2, Kind::Forward, 0), Some(&[][..]));
        assert!(tying.knots().is_empty());
    }
}
