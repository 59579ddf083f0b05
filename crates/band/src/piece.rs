//! An opening, a set or a closing: knots tied one after another, and where they leave the strands.

use crate::{Kind, Knot, MOST_KNOTS, MOST_STRANDS, Tying};
use std::borrow::Cow;
use std::ops::Range;

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
    /// A knot whose strands do not hang there at that time.
    OtherStrands {
        /// The knot, counted from 0.
        knot: usize,
    },
    /// The order afterwards is not the one the knots lead to.
    OtherOrder,
    /// A straight range that does not go gap by gap one way, overlaps the one before it or ends after the last knot.
    NotStraight {
        /// The range, counted from 0.
        range: usize,
    },
    /// Two pieces with different numbers of strands were to follow one another.
    OtherWidth,
}

/// Knots in the order of a script. Strands are named by their position as the piece begins.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    knots: Vec<Knot>,
    order: Vec<u8>,
    straight: Vec<Range<u32>>,
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
        let (knots, order) = tying.finish();
        Ok(Self { knots, order, straight: Vec::new() })
    }

    /// A piece tied elsewhere. `order`: by position, which strand hangs there afterwards. `straight`: ranges of knots
    /// that must lie in one straight row each, ascending.
    ///
    /// # Errors
    /// Every [`PieceError`] but `OtherWidth`; the knots are tied again to see that they are as they say.
    pub fn from_tied(
        knots: Vec<Knot>,
        order: Vec<u8>,
        straight: Vec<Range<u32>>,
    ) -> Result<Self, PieceError> {
        if order.len() > MOST_STRANDS {
            return Err(PieceError::TooManyStrands { strands: order.len() });
        }
        if knots.len() > MOST_KNOTS {
            return Err(PieceError::TooManyKnots);
        }
        if end_of(&knots, order.len())? != order {
            return Err(PieceError::OtherOrder);
        }
        Self { knots, order, straight: Vec::new() }.with_straight(straight)
    }

    /// No knots.
    pub fn empty(strands: usize) -> Self {
        Self { knots: Vec::new(), order: Tying::new(strands).finish().1, straight: Vec::new() }
    }

    /// The same knots, those of each range in one straight row: a leader goes across, gap by gap.
    ///
    /// # Errors
    /// [`PieceError::NotStraight`].
    pub fn with_straight(mut self, straight: Vec<Range<u32>>) -> Result<Self, PieceError> {
        let mut free = 0;
        for (range, at) in straight.iter().enumerate() {
            let knots = self.knots.get(at.start as usize..at.end as usize);
            if at.start < free || !knots.is_some_and(goes_across) {
                return Err(PieceError::NotStraight { range });
            }
            free = at.end;
        }
        self.straight = straight;
        Ok(self)
    }

    /// The same knots, none of which must lie straight.
    pub fn in_bricks(&self) -> Cow<'_, Self> {
        if self.straight.is_empty() {
            return Cow::Borrowed(self);
        }
        Cow::Owned(Self { straight: Vec::new(), ..self.clone() })
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

    /// Ranges of knots that lie in one straight row each, ascending.
    pub fn straight(&self) -> &[Range<u32>] {
        &self.straight
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
        let name = |strand: u8| self.order[usize::from(strand)];
        let renamed = |k: &Knot| Knot { working: name(k.working), base: name(k.base), ..*k };
        let offset = self.knots.len() as u32;
        let moved = |r: &Range<u32>| r.start + offset..r.end + offset;
        Ok(Self {
            knots: self.knots.iter().copied().chain(next.knots.iter().map(renamed)).collect(),
            order: next.order.iter().map(|&strand| name(strand)).collect(),
            straight: self.straight.iter().cloned().chain(next.straight.iter().map(moved)).collect(),
        })
    }

    /// The piece in a mirror: left and right, forward and backward change places.
    pub fn mirrored(&self) -> Self {
        let last = self.order.len().saturating_sub(1) as u8;
        let flip = |k: &Knot| Knot {
            gap: last - 1 - k.gap,
            kind: k.kind.mirrored(),
            working: last - k.working,
            base: last - k.base,
        };
        Self {
            knots: self.knots.iter().map(flip).collect(),
            order: self.order.iter().rev().map(|&strand| last - strand).collect(),
            straight: self.straight.clone(),
        }
    }
}

/// Ties the knots again; the order they lead to.
fn end_of(knots: &[Knot], strands: usize) -> Result<Vec<u8>, PieceError> {
    let mut order: Vec<u8> = (0..strands as u8).collect();
    for (at, knot) in knots.iter().enumerate() {
        let gap = usize::from(knot.gap);
        let pair = order.get_mut(gap..gap + 2).ok_or(PieceError::NoSuchGap { knot: at })?;
        let (working, base) = if knot.kind.left_works() { (pair[0], pair[1]) } else { (pair[1], pair[0]) };
        if (working, base) != (knot.working, knot.base) {
            return Err(PieceError::OtherStrands { knot: at });
        }
        if knot.kind.swaps() {
            pair.swap(0, 1);
        }
    }
    Ok(order)
}

/// Whether each knot lies one gap further on in one direction.
fn goes_across(knots: &[Knot]) -> bool {
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
    fn knots_tied_elsewhere_are_looked_at_again() {
        let good = Piece::tie(3, [(0, Forward), (1, ForwardBackward)]).unwrap();
        let again = |knots, order| Piece::from_tied(knots, order, vec![]);
        assert_eq!(again(good.knots.clone(), good.order.clone()), Ok(good.clone()));
        assert_eq!(again(good.knots.clone(), vec![0, 1, 2]), Err(PieceError::OtherOrder));
        let mut turned = good.knots.clone();
        turned[1].kind = turned[1].kind.mirrored();
        assert_eq!(again(turned, good.order.clone()), Err(PieceError::OtherStrands { knot: 1 }));
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
