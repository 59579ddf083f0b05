//! An opening, a set or a closing: knots tied one after another, and where they leave the strands.

use crate::orders::OtherStrands;
use crate::{Join, Kind, Knot, MOST_KNOTS, MOST_STRANDS, Tying};
use knotwright_numbers::ToNumber;
use std::ops::Range;
use std::sync::Arc;

/// Why there is no such piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceError {
    /// More than [`MOST_STRANDS`].
    TooManyStrands {
        /// How many were asked for.
        strands: usize,
    },
    /// More than [`MOST_KNOTS`].
    TooManyKnots,
    /// A knot in a gap that has no two strands.
    NoSuchGap {
        /// The knot, counted from 0.
        knot: usize,
    },
    /// A straight range that does not go gap by gap one way, overlaps the one before it or ends after the last knot.
    NotStraight {
        /// The range, counted from 0.
        range: usize,
    },
    /// Two pieces with different numbers of strands were to follow one another.
    OtherWidth,
}

/// Knots in the order of a script. Strands are named by their position as the piece begins.
///
/// A clone shares the knots with its original, so that a picture, the words and the thread of a band need none of their
/// own.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Piece {
    knots: Arc<Vec<Knot>>,
    order: Vec<u8>,
    straight: Arc<Vec<Range<u32>>>,
    joins: Arc<Vec<Join>>,
    is_rehung: bool,
}

impl Piece {
    /// Ties `steps`, each a gap and a kind, with `strands` strands.
    ///
    /// # Errors
    /// [`PieceError::TooManyStrands`], [`PieceError::TooManyKnots`], [`PieceError::NoSuchGap`].
    pub fn tie(strands: usize, steps: impl IntoIterator<Item = (u8, Kind)>) -> Result<Self, PieceError> {
        if strands > MOST_STRANDS {
            return Err(PieceError::TooManyStrands { strands });
        }
        let steps = steps.into_iter();
        let mut tying = Tying::new(strands);
        tying.reserve(steps.size_hint().0);
        for (knot, (gap, kind)) in steps.enumerate() {
            if knot == MOST_KNOTS {
                return Err(PieceError::TooManyKnots);
            }
            tying.tie(gap, kind).ok_or(PieceError::NoSuchGap { knot })?;
        }
        Ok(tying.finish())
    }

    /// What was tied knot for knot.
    pub(crate) fn from_tying(
        knots: Vec<Knot>,
        order: Vec<u8>,
        straight: Vec<Range<u32>>,
        is_rehung: bool,
    ) -> Self {
        let joins = Arc::default();
        Self { knots: Arc::new(knots), order, straight: Arc::new(straight), joins, is_rehung }
    }

    /// This piece with strands joined, in the order in which that is done.
    #[must_use]
    pub fn with_joins(self, joins: Vec<Join>) -> Self {
        if joins.is_empty() { self } else { Self { joins: Arc::new(joins), ..self } }
    }

    /// Where strands go on with a new piece of thread, in the order in which that is done.
    pub fn joins(&self) -> &[Join] {
        &self.joins
    }

    /// This piece without joins: each strand is one piece of thread.
    pub fn unjoined(&self) -> Self {
        Self { joins: Arc::default(), ..self.clone() }
    }

    /// No knots.
    pub fn empty(strands: usize) -> Self {
        Tying::new(strands).finish()
    }

    /// The same knots, those of each range in one straight row: a leader goes across, gap by gap.
    ///
    /// # Errors
    /// [`PieceError::NotStraight`].
    pub fn with_straight(mut self, straight: Vec<Range<u32>>) -> Result<Self, PieceError> {
        let mut free = 0;
        for (range, at) in straight.iter().enumerate() {
            let knots = self.knots.get(at.start.to_usize()..at.end.to_usize());
            if at.start < free || !knots.is_some_and(goes_across) {
                return Err(PieceError::NotStraight { range });
            }
            free = at.end;
        }
        self.straight = Arc::new(straight);
        Ok(self)
    }

    /// Whether its `knots` of those numbers are those of a stretch (see [`Tying::hanging`]).
    pub fn has_stretch(&self, knots: Range<u32>, stretch: &Self) -> bool {
        let straight = self.straight_within(&knots);
        self.knots.get(knots.start.to_usize()..knots.end.to_usize()) == Some(&stretch.knots[..])
            && self.straight[straight]
                .iter()
                .map(|range| range.start - knots.start..range.end - knots.start)
                .eq(stretch.straight.iter().cloned())
    }

    /// By number, the straight ranges that lie within some of its knots.
    fn straight_within(&self, knots: &Range<u32>) -> Range<usize> {
        let first = self.straight.partition_point(|range| range.end <= knots.start);
        first..self.straight.partition_point(|range| range.start < knots.end).max(first)
    }

    /// Puts a stretch in the place of the `knots` of those numbers. It must begin as the strands hang before them (see
    /// [`Tying::hanging`]). After them the strands hung in the order `hung`; where they hang otherwise now, other strands tie
    /// the knots that follow, each in the place of the one that hung there. Joins are left as they are.
    pub fn replace(&mut self, knots: Range<u32>, hung: &[u8], stretch: &Self) {
        let own = Arc::make_mut(&mut self.knots);
        if hung != stretch.order {
            let others = OtherStrands::hang(hung, &stretch.order);
            own[knots.end.to_usize()..].iter_mut().for_each(|knot| *knot = others.tie(*knot));
            others.take_over(&mut self.order);
        }
        own.splice(knots.start.to_usize()..knots.end.to_usize(), stretch.knots.iter().copied());
        if self.straight.is_empty() && stretch.straight.is_empty() {
            return;
        }
        let within = self.straight_within(&knots);
        let straight = Arc::make_mut(&mut self.straight);
        let after = |range: &mut Range<u32>, before: u32, now: u32| {
            *range = range.start - before + now..range.end - before + now;
        };
        let end = knots.start + stretch.knots.len().to_u32();
        straight[within.end..].iter_mut().for_each(|range| after(range, knots.end, end));
        let new = stretch.straight.iter().cloned().map(|mut range| {
            after(&mut range, 0, knots.start);
            range
        });
        straight.splice(within, new);
    }

    /// The same knots, none of which must lie straight.
    pub fn in_bricks(&self) -> Self {
        Self { straight: Arc::default(), ..self.clone() }
    }

    /// How many strands there are.
    pub fn strands(&self) -> usize {
        self.order.len()
    }

    /// How many gaps there are between strands.
    pub fn gaps(&self) -> usize {
        self.order.len().saturating_sub(1)
    }

    /// Its knots in the order of the script.
    pub fn knots(&self) -> &[Knot] {
        &self.knots
    }

    /// By position, which strand hangs there afterwards.
    pub fn order(&self) -> &[u8] {
        &self.order
    }

    /// Whether its strands were hung otherwise somewhere, as a promise that is not kept says they should hang. Then the
    /// order afterwards is not the one that the knots alone lead to, and the piece is of use only to those who show what
    /// was meant so far: a pattern without errors has no such piece.
    pub fn is_rehung(&self) -> bool {
        self.is_rehung
    }

    /// Ranges of knots that lie in one straight row each, ascending.
    pub fn straight(&self) -> &[Range<u32>] {
        &self.straight
    }

    /// Whether it is known without a look that another one has the same knots: they are shared.
    pub(crate) fn has_knots_of(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.knots, &other.knots)
    }

    /// Gap and kind of every knot: what [`Piece::tie`] takes.
    pub fn steps(&self) -> impl ExactSizeIterator<Item = (u8, Kind)> {
        self.knots.iter().map(|knot| (knot.gap, knot.kind))
    }

    /// This piece and then the next, as one; strands are named by their position at the start of this one.
    ///
    /// # Errors
    /// [`PieceError::OtherWidth`], [`PieceError::TooManyKnots`].
    pub fn then(&self, next: &Self) -> Result<Self, PieceError> {
        if next.strands() != self.strands() {
            return Err(PieceError::OtherWidth);
        }
        if self.knots.len() + next.knots.len() > MOST_KNOTS {
            return Err(PieceError::TooManyKnots);
        }
        // Nothing is tied in this one: no strand has another name, and no knot need be copied.
        if self.knots.is_empty()
            && self.joins.is_empty()
            && self.order.iter().enumerate().all(|(at, &strand)| at == usize::from(strand))
        {
            return Ok(Self { is_rehung: self.is_rehung || next.is_rehung, ..next.clone() });
        }
        let name = |strand: u8| self.order[usize::from(strand)];
        let renamed = |k: &Knot| Knot { working: name(k.working), base: name(k.base), ..*k };
        let offset = self.knots.len().to_u32();
        let moved = |r: &Range<u32>| r.start + offset..r.end + offset;
        let later = |join: &Join| Join { knot: join.knot + offset, strand: name(join.strand), ..*join };
        let joins = self.joins.iter().copied().chain(next.joins.iter().map(later)).collect();
        let tied = Self::from_tying(
            self.knots.iter().copied().chain(next.knots.iter().map(renamed)).collect(),
            next.order.iter().map(|&strand| name(strand)).collect(),
            self.straight.iter().cloned().chain(next.straight.iter().map(moved)).collect(),
            self.is_rehung || next.is_rehung,
        );
        Ok(tied.with_joins(joins))
    }

    /// The same knots tied in another order, in bricks; `order` lists them by number. Numbers of no knot are left out.
    pub fn in_order(&self, order: &[u32]) -> Self {
        let mut tying = Tying::new(self.strands());
        tying.reserve(order.len());
        for knot in order.iter().filter_map(|&knot| self.knots.get(knot.to_usize())) {
            // Any gap of this piece is one of a piece with as many strands.
            let _ = tying.tie(knot.gap, knot.kind);
        }
        tying.finish().with_joins(self.joins_in_order(order))
    }

    /// The joins when the knots are tied in that order: each before the knot before which it was.
    fn joins_in_order(&self, order: &[u32]) -> Vec<Join> {
        let place = |join: &Join| {
            let after = self.knot_after(join);
            let knot = after.and_then(|after| order.iter().position(|&knot| knot == after));
            Join { knot: knot.unwrap_or(order.len()).to_u32(), ..*join }
        };
        let mut joins: Vec<Join> = self.joins.iter().map(place).collect();
        joins.sort_by_key(|join| join.knot);
        joins
    }

    /// The piece with the knots of these numbers tied by the other of their two strands. Both hang afterwards where they
    /// would have hung, and each knot lies where it lay.
    pub fn turned(&self, knots: &[u32]) -> Self {
        let mut turned = self.knots.to_vec();
        for &number in knots {
            if let Some(knot) = turned.get_mut(number.to_usize()) {
                knot.kind = knot.kind.mirrored();
                std::mem::swap(&mut knot.working, &mut knot.base);
            }
        }
        Self { knots: Arc::new(turned), ..self.clone() }
    }

    /// The piece in a mirror: left and right, forward and backward change places.
    pub fn mirrored(&self) -> Self {
        let last = self.order.len().saturating_sub(1).to_u8();
        let flip = |k: &Knot| Knot {
            gap: last - 1 - k.gap,
            kind: k.kind.mirrored(),
            working: last - k.working,
            base: last - k.base,
        };
        Self {
            knots: Arc::new(self.knots.iter().map(flip).collect()),
            order: self.order.iter().rev().map(|&strand| last - strand).collect(),
            straight: Arc::clone(&self.straight),
            joins: Arc::default(),
            is_rehung: self.is_rehung,
        }
        .with_joins(self.joins.iter().map(|join| Join { strand: last - join.strand, ..*join }).collect())
    }
}

/// Whether each knot lies one gap further on in one direction.
pub(crate) fn goes_across(knots: &[Knot]) -> bool {
    let steps = |by: i16| knots.windows(2).all(|k| i16::from(k[1].gap) - i16::from(k[0].gap) == by);
    steps(1) || steps(-1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use Kind::{Backward, Forward, ForwardBackward};

    #[test]
    fn more_than_the_limits_is_an_error_of_its_own() {
        assert_eq!(Piece::tie(201, []), Err(PieceError::TooManyStrands { strands: 201 }));
        let endless = std::iter::repeat((0, Forward));
        assert_eq!(Piece::tie(2, endless), Err(PieceError::TooManyKnots));
        assert_eq!(Piece::tie(3, [(1, Forward), (2, Forward)]), Err(PieceError::NoSuchGap { knot: 1 }));
        assert_eq!(Piece::tie(0, [(0, Forward)]), Err(PieceError::NoSuchGap { knot: 0 }));
    }

    #[test]
    fn a_stretch_in_the_place_of_another_is_as_if_tied_so() {
        let (before, after) = ([(0, Forward), (1, Backward)], [(1, Forward), (0, Forward)]);
        let (old, new) = ([(2, ForwardBackward)], [(0, Forward), (1, Forward), (1, Backward), (0, Backward)]);
        let tied = |middle: &[(u8, Kind)]| {
            let middle = middle.iter().copied();
            Piece::tie(4, before.into_iter().chain(middle).chain(after)).unwrap()
        };
        let mut piece = tied(&old).with_straight(vec![0..2, 3..5]).unwrap();
        let mut stretch = Tying::hanging(Piece::tie(4, before).unwrap().order());
        stretch.tie_run(0, Forward, 2).unwrap();
        stretch.lay_straight(0);
        stretch.tie_run(1, Backward, 2).unwrap();
        let hung = Piece::tie(4, before.into_iter().chain(old)).unwrap();
        piece.replace(2..3, hung.order(), &stretch.finish());
        assert_eq!(piece, tied(&new).with_straight(vec![0..2, 2..4, 6..8]).unwrap());
    }

    #[test]
    fn where_others_hang_after_a_stretch_they_tie_the_knots_that_follow() {
        let (before, after) = ([(0, Forward), (1, Backward)], [(1, Forward), (0, ForwardBackward)]);
        let tied = |middle| Piece::tie(4, before.into_iter().chain([middle]).chain(after)).unwrap();
        let hanging = |knots: &[(u8, Kind)]| Piece::tie(4, knots.iter().copied()).unwrap().order().to_vec();
        let (old, new) = ((2, ForwardBackward), (2, Forward));
        let (mut piece, mut stretch) = (tied(old), Tying::hanging(&hanging(&before)));
        stretch.tie_run(2, Forward, 1).unwrap();
        piece.replace(2..3, &hanging(&[before[0], before[1], old]), &stretch.finish());
        assert_eq!(piece, tied(new));
    }

    #[test]
    fn straight_ranges_go_across_and_do_not_overlap() {
        let steps = [(0, Forward), (1, Backward), (2, Forward), (2, Backward), (1, Backward)];
        let piece = Piece::tie(4, steps).unwrap();
        let refused = |ranges: Vec<Range<u32>>| piece.clone().with_straight(ranges).err();
        assert_eq!(refused(vec![0..3, 3..5]), None);
        assert_eq!(refused(vec![0..4; 1]), Some(PieceError::NotStraight { range: 0 }));
        assert_eq!(refused(vec![0..3, 2..3]), Some(PieceError::NotStraight { range: 1 }));
        assert_eq!(refused(vec![3..6; 1]), Some(PieceError::NotStraight { range: 0 }));
    }

    #[test]
    fn one_piece_after_another_keeps_the_names_of_the_first() {
        let set = Piece::tie(3, [(0, Forward), (1, Forward)]).unwrap();
        let twice = set.then(&set).unwrap();
        let directly = Piece::tie(3, set.steps().chain(set.steps())).unwrap();
        assert_eq!(twice, directly);
        assert_eq!(twice.order(), [2, 0, 1]);
        assert_eq!(set.then(&Piece::empty(2)), Err(PieceError::OtherWidth));
    }

    #[test]
    fn a_mirror_turns_left_and_right() {
        let piece = Piece::tie(4, [(0, Forward), (1, ForwardBackward)]).unwrap();
        let mirrored = Piece::tie(4, [(2, Backward), (1, Kind::BackwardForward)]).unwrap();
        assert_eq!(piece.mirrored(), mirrored);
        assert_eq!(Piece::empty(0).mirrored(), Piece::empty(0));
    }
}
