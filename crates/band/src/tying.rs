//! Strands in hand: knots are tied one after another, and the order of the strands is kept.

use crate::piece::goes_across;
use crate::{Join, Kind, Knot, MOST_KNOTS, MOST_STRANDS, Piece};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// A band with more knots than this gets room for the most that there may be. A list that doubles leaves its earlier selves
/// behind, and an allocator is in no hurry to give them back; room that is not used costs nothing.
const MANY_KNOTS: usize = 1 << 16;

/// Strands side by side and the knots tied so far. Strands are named by where they hung at first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tying {
    order: Vec<u8>,
    knots: Vec<Knot>,
    straight: Vec<Range<u32>>,
    joins: Vec<Join>,
    tied: u64,
    keeps_knots: bool,
    is_rehung: bool,
}

impl Tying {
    /// `strands` strands that hang in starting order; those beyond [`MOST_STRANDS`] are cut off.
    pub fn new(strands: usize) -> Self {
        Self {
            order: (0..=u8::MAX).take(strands.min(MOST_STRANDS)).collect(),
            knots: Vec::new(),
            straight: Vec::new(),
            joins: Vec::new(),
            tied: 0,
            keeps_knots: true,
            is_rehung: false,
        }
    }

    /// Strands in starting order, for those who only ask how they hang: knots are counted and not kept.
    pub fn without_knots(strands: usize) -> Self {
        Self { keeps_knots: false, is_rehung: true, ..Self::new(strands) }
    }

    /// Strands that hang in this order already: for a stretch that [replaces](Piece::replace) a part of a piece.
    pub fn hanging(order: &[u8]) -> Self {
        Self { order: order.to_vec(), is_rehung: true, ..Self::new(0) }
    }

    /// Strands that hang in this order, for those who only ask how they hang then: knots are counted and not kept.
    pub fn hanging_without_knots(order: &[u8]) -> Self {
        Self { keeps_knots: false, ..Self::hanging(order) }
    }

    /// The first `knots` of a piece without joins, to go on after them; the strands hang in this order then.
    pub fn going_on(piece: &Piece, knots: usize, order: &[u8]) -> Self {
        let tied = knots.min(piece.knots().len());
        let mut begun = Vec::with_capacity(piece.knots().len());
        begun.extend_from_slice(&piece.knots()[..tied]);
        let straight =
            piece.straight().iter().filter(|range| range.end.to_usize() <= tied).cloned().collect();
        Self {
            order: order.to_vec(),
            knots: begun,
            straight,
            tied: tied.to_u64(),
            is_rehung: piece.is_rehung(),
            ..Self::new(0)
        }
    }

    /// Makes room for `knots` more knots; only for speed.
    pub fn reserve(&mut self, knots: usize) {
        self.knots.reserve(knots.min(MOST_KNOTS));
    }

    /// The same strands, with room for `knots` more knots.
    #[must_use]
    pub fn with_room(mut self, knots: usize) -> Self {
        self.reserve(knots);
        self
    }

    fn make_room(&mut self) {
        if self.knots.len() >= MANY_KNOTS && self.knots.capacity() < MOST_KNOTS {
            self.knots.reserve_exact(MOST_KNOTS - self.knots.len());
        }
    }

    /// By position, which strand hangs there now.
    #[inline]
    pub fn order(&self) -> &[u8] {
        &self.order
    }

    /// The knots tied so far.
    #[inline]
    pub fn knots(&self) -> &[Knot] {
        &self.knots
    }

    /// Ranges of knots that lie in one straight row each.
    pub fn straight(&self) -> &[Range<u32>] {
        &self.straight
    }

    /// How many knots were tied, kept or not.
    #[inline]
    pub fn tied(&self) -> u64 {
        self.tied
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
        if self.keeps_knots {
            if self.knots.len() == self.knots.capacity() {
                self.make_room();
            }
            self.knots.push(knot);
        }
        self.tied += 1;
        Some(knot)
    }

    /// Ties `count` knots of one kind with the strand that works at the first, `gap`, and stays in hand: a forward
    /// run goes right gap by gap, a backward run left, a turning run stays in its gap. `None`, and nothing is tied, if
    /// the run would go past the edge.
    pub fn tie_run(&mut self, gap: u8, kind: Kind, count: usize) -> Option<()> {
        if count == 0 {
            return Some(());
        }
        if self.keeps_knots {
            self.make_room();
        }
        let at = usize::from(gap);
        match kind {
            Kind::Forward => self.tie_rightward(at, count)?,
            Kind::Backward => self.tie_leftward(at + 1, count)?,
            Kind::ForwardBackward | Kind::BackwardForward => self.tie_turning(gap, kind, count)?,
        }
        self.tied += count.to_u64();
        Some(())
    }

    /// The strand at `at` ties over the next `count` to its right and goes past them.
    fn tie_rightward(&mut self, at: usize, count: usize) -> Option<()> {
        let reach = self.order.get_mut(at..at.checked_add(count)?.checked_add(1)?)?;
        let hand = reach[0];
        if self.keeps_knots {
            self.knots.extend(reach[1..].iter().zip(at.to_u8()..).map(|(&base, gap)| Knot {
                gap,
                kind: Kind::Forward,
                working: hand,
                base,
            }));
        }
        reach.copy_within(1.., 0);
        reach[count] = hand;
        Some(())
    }

    /// The strand at `at` ties over the next `count` to its left and goes past them.
    fn tie_leftward(&mut self, at: usize, count: usize) -> Option<()> {
        let first = at.checked_sub(count)?;
        let reach = self.order.get_mut(first..=at)?;
        let hand = reach[count];
        if self.keeps_knots {
            let bases = &reach[..count];
            self.knots.extend(bases.iter().zip(first.to_u8()..at.to_u8()).rev().map(|(&base, gap)| Knot {
                gap,
                kind: Kind::Backward,
                working: hand,
                base,
            }));
        }
        reach.copy_within(..count, 1);
        reach[0] = hand;
        Some(())
    }

    /// `count` turning knots between `gap` and its right neighbor.
    fn tie_turning(&mut self, gap: u8, kind: Kind, count: usize) -> Option<()> {
        let at = usize::from(gap);
        let pair = self.order.get(at..at + 2)?;
        if self.keeps_knots {
            let (working, base) = if kind.left_works() { (pair[0], pair[1]) } else { (pair[1], pair[0]) };
            self.knots.extend(std::iter::repeat_n(Knot { gap, kind, working, base }, count));
        }
        Some(())
    }

    /// The knots from `first` on lie in one straight row: a leader has gone across. Nothing happens if they do not go
    /// gap by gap one way, or if there are none.
    pub fn lay_straight(&mut self, first: usize) {
        let free = self.straight.last().map_or(0, |range| range.end.to_usize());
        let row = self.knots.get(first..).filter(|row| first >= free && !row.is_empty() && goes_across(row));
        if let Some(row) = row {
            let range = first.to_u32()..(first + row.len()).to_u32();
            self.straight.push(range);
        }
    }

    /// The strand goes on with a new piece of thread: of this one, if it is another; only in this set, if there is but one.
    pub fn join(&mut self, strand: u8, thread: Option<u16>, set: Option<u64>) {
        if self.keeps_knots {
            self.joins.push(Join { knot: self.tied.to_u32(), strand, thread, set });
        }
    }

    /// Where strands were joined so far.
    pub fn joins(&self) -> &[Join] {
        &self.joins
    }

    /// Hangs the strands from position `low` on otherwise: what is tied so is [no whole piece](Piece::is_rehung).
    pub fn rehang(&mut self, low: usize, order: &[u8]) {
        if let Some(strands) = self.order.get_mut(low..low + order.len())
            && strands != order
        {
            strands.copy_from_slice(order);
            self.is_rehung = true;
        }
    }

    /// Gives up the strands: what was tied.
    pub fn finish(self) -> Piece {
        Piece::from_tying(self.knots, self.order, self.straight, self.is_rehung).with_joins(self.joins)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gone_on_after_some_knots_the_piece_is_the_same() {
        let steps =
            [(0, Kind::Forward), (1, Kind::Backward), (2, Kind::ForwardBackward), (0, Kind::Backward)];
        let piece = Piece::tie(4, steps).unwrap().with_straight(vec![0..1, 3..4]).unwrap();
        let before = Piece::tie(4, steps[..2].iter().copied()).unwrap();
        let mut tying = Tying::going_on(&piece, 2, before.order());
        assert_eq!((tying.knots(), tying.tied()), (before.knots(), 2));
        assert_eq!(tying.straight(), vec![0..1; 1]);
        steps[2..].iter().for_each(|&(gap, kind)| assert!(tying.tie(gap, kind).is_some()));
        assert_eq!(tying.finish(), piece.with_straight(vec![0..1; 1]).unwrap());
    }

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
    fn a_run_is_its_knots_one_after_another() {
        let (mut runs, mut knots) = (Tying::new(9), Tying::new(9));
        runs.tie_run(2, Kind::Forward, 5).unwrap();
        runs.tie_run(7, Kind::Backward, 8).unwrap();
        runs.tie_run(3, Kind::BackwardForward, 2).unwrap();
        runs.tie_run(4, Kind::Forward, 0).unwrap();
        let forward = (2..7).map(|gap| (gap, Kind::Forward));
        let backward = (0..8).rev().map(|gap| (gap, Kind::Backward));
        for (gap, kind) in forward.chain(backward).chain([(3, Kind::BackwardForward); 2]) {
            assert!(knots.tie(gap, kind).is_some());
        }
        assert_eq!(runs, knots);
        assert_eq!(runs.tied(), 15);
    }

    #[test]
    fn a_run_past_the_edge_ties_nothing() {
        let mut tying = Tying::new(4);
        assert_eq!(tying.tie_run(1, Kind::Forward, 3), None);
        assert_eq!(tying.tie_run(1, Kind::Backward, 3), None);
        assert_eq!(tying.tie_run(3, Kind::Backward, 1), None);
        assert_eq!(tying.tie_run(3, Kind::ForwardBackward, 1), None);
        assert_eq!(tying.tie_run(3, Kind::Forward, usize::MAX), None);
        assert_eq!(tying.tie_run(2, Kind::Forward, 0), Some(()));
        assert_eq!(tying, Tying::new(4));
    }

    #[test]
    fn strands_that_were_hung_otherwise_are_no_whole_piece() {
        let mut tying = Tying::new(3);
        tying.rehang(0, &[0, 1, 2]);
        assert!(!tying.clone().finish().is_rehung(), "they hung like that");
        tying.rehang(1, &[2, 1]);
        assert_eq!(tying.order(), [0, 2, 1]);
        assert!(tying.finish().is_rehung());
    }

    #[test]
    fn only_knots_gap_by_gap_lie_straight() {
        let mut tying = Tying::new(4);
        tying.tie_run(0, Kind::Forward, 3).unwrap();
        tying.lay_straight(0);
        tying.lay_straight(3);
        tying.tie(0, Kind::Forward).unwrap();
        tying.tie(2, Kind::Forward).unwrap();
        tying.lay_straight(3);
        assert_eq!(tying.straight(), [0..3; 1]);
    }
}
