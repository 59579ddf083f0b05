//! A band: pieces one below the other, each knot in its row.
//!
//! While somebody edits, a long band is laid again and again. So what is asked of every band is noted on the one way
//! through its knots; and of a set that comes once more, knots are laid only until they lie as they did the time before,
//! further down: all that follow do so, too.

use crate::rows::brick_row;
use crate::{Knot, MOST_KNOTS, Piece};
use knotwright_numbers::ToNumber;
use std::cell::OnceCell;
use std::ops::Range;

/// Pieces one below the other. Their knots are numbered through.
#[derive(Debug)]
pub struct BandRows {
    /// Each with the number of its first knot.
    pieces: Vec<(u32, Piece)>,
    gaps: usize,
    has_straight: bool,
    /// By knot, its row.
    rows: Vec<u32>,
    below: Below,
    by_gap: OnceCell<KnotsByGap>,
}

/// Two knots of a gap, one after the other, between which bricks are missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct TwoKnots {
    pub(crate) gap: u8,
    pub(crate) above: u32,
    pub(crate) below: u32,
}

/// What lies at the lower end of a band, gap by gap, and what was noted on the way down. Gaps are bytes, so that no index needs
/// to be tested: nothing is done as often as a knot is laid.
#[derive(Debug, Clone)]
struct Below {
    /// With one more gap at each end: the first row below the last knot, 0 if there is none.
    free: [u32; 258],
    /// The first knot so far.
    first: [u32; 256],
    /// The last knot so far.
    last: [u32; 256],
    /// Between knots with no more rows between them than this no brick is missing.
    near: u32,
    /// Where bricks are missing between two knots. In most bands that is nowhere.
    apart: Vec<TwoKnots>,
}

impl Below {
    /// Lays a knot of that number in bricks. Its row.
    #[inline]
    fn lay(&mut self, gap: u8, number: u32) -> u32 {
        let row = brick_row(&self.free, gap);
        self.put(gap, row, number);
        row
    }

    /// Puts a knot of that number into a row.
    #[inline]
    fn put(&mut self, gap: u8, row: u32, number: u32) {
        let at = usize::from(gap);
        let free = std::mem::replace(&mut self.free[at + 1], row + 1);
        let above = std::mem::replace(&mut self.last[at], number);
        if free == 0 {
            self.first[at] = number;
        } else if row - free >= self.near {
            self.note(TwoKnots { gap, above, below: number }, [free - 1, row]);
        }
    }

    #[cold]
    fn note(&mut self, two: TwoKnots, rows: [u32; 2]) {
        if !MissingRows::between(rows, two.gap).is_empty() {
            self.apart.push(two);
        }
    }
}

/// Every second row from the first to the last.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MissingRows {
    pub(crate) first: u32,
    pub(crate) last: u32,
}

impl MissingRows {
    /// The rows between two knots of a gap, of which the rows are given, in which a brick is missing.
    pub(crate) fn between([above, below]: [u32; 2], gap: u8) -> Self {
        let is_brick = |row: u32| (row + u32::from(gap)).is_multiple_of(2);
        let first = above + if is_brick(above) { 2 } else { 1 };
        let last = below.saturating_sub(if is_brick(below) { 2 } else { 1 });
        Self { first, last }
    }

    pub(crate) fn is_empty(self) -> bool {
        self.first > self.last
    }

    pub(crate) fn len(self) -> usize {
        if self.is_empty() { 0 } else { (self.last - self.first).to_usize() / 2 + 1 }
    }
}

impl BandRows {
    /// Lays these pieces, the first one at the top. The first that has another number of strands, or too many knots for
    /// [`MOST_KNOTS`] in all, is left out with those below it.
    pub fn of(pieces: impl IntoIterator<Item = Piece>) -> Self {
        let pieces: Vec<Piece> = pieces.into_iter().collect();
        let strands = pieces.first().map_or(0, Piece::strands);
        let gaps = strands.saturating_sub(1);
        let knots = pieces.iter().map(|piece| piece.knots().len()).sum::<usize>();
        let has_straight = pieces.iter().any(|piece| !piece.straight().is_empty());
        // Bricks of one gap have a row between them; with straight rows, one may be missing there.
        let near = if has_straight { 1 } else { 2 };
        let mut band = Self {
            pieces: Vec::with_capacity(pieces.len()),
            gaps,
            has_straight,
            rows: Vec::with_capacity(knots.min(MOST_KNOTS)),
            below: Below { free: [0; 258], first: [0; 256], last: [0; 256], near, apart: Vec::new() },
            by_gap: OnceCell::new(),
        };
        for piece in pieces {
            if !band.put_below(piece) {
                break;
            }
        }
        band.below.apart.sort_by_key(|two| two.gap);
        band
    }

    /// Lays the last piece once more, for those who only ask for rows. Whether it has room.
    pub(crate) fn repeat_last(&mut self) -> bool {
        let last = self.pieces.last().map(|(_, piece)| piece.clone());
        last.is_some_and(|piece| self.put_below(piece))
    }

    fn put_below(&mut self, piece: Piece) -> bool {
        if piece.strands() != self.gaps + 1 || self.rows.len() + piece.knots().len() > MOST_KNOTS {
            return false;
        }
        let first = self.rows.len().to_u32();
        match self.pieces.last() {
            Some((before, last)) if last.has_knots_of(&piece) && !self.has_straight => {
                self.lay_again(*before, &piece);
            }
            _ => self.lay(&piece),
        }
        self.pieces.push((first, piece));
        true
    }

    fn lay(&mut self, piece: &Piece) {
        let mut done = 0;
        for range in piece.straight() {
            let (start, end) = (range.start.to_usize(), range.end.to_usize());
            self.lay_bricks(&piece.knots()[done..start]);
            self.lay_straight(&piece.knots()[start..end]);
            done = end;
        }
        self.lay_bricks(&piece.knots()[done..]);
    }

    fn lay_bricks(&mut self, knots: &[Knot]) {
        let numbers = self.rows.len().to_u32()..;
        let below = &mut self.below;
        self.rows.extend(knots.iter().zip(numbers).map(|(knot, number)| below.lay(knot.gap, number)));
    }

    fn lay_straight(&mut self, knots: &[Knot]) {
        let gaps = || knots.iter().map(|knot| usize::from(knot.gap));
        let (Some(first), Some(last)) = (gaps().min(), gaps().max()) else { return };
        let row = self.below.free[first..last + 3].iter().copied().max().unwrap_or(0);
        for knot in knots {
            self.below.put(knot.gap, row, self.rows.len().to_u32());
            self.rows.push(row);
        }
    }

    /// Lays a piece that has just been laid, with its first knot of that number.
    fn lay_again(&mut self, before: u32, piece: &Piece) {
        let (above, first) = (self.below.clone(), self.rows.len());
        let gaps = self.gaps;
        // Where something above lies in gaps in which the piece has no knot, it may lie otherwise each time.
        let tied = (0..gaps).filter(|&gap| above.free[gap + 1] > 0);
        let own = tied.clone().filter(|&gap| above.last[gap] >= before).count();
        let is_alone = own == tied.clone().count();
        // How much further down the knots lie, since which knot, and in how many gaps there was one since then.
        let (mut down, mut since, mut seen) = (0, 0, 0);
        for (number, knot) in piece.knots().iter().enumerate() {
            let last_there = self.below.last[usize::from(knot.gap)];
            self.lay_bricks(std::slice::from_ref(knot));
            let further = self.rows[first + number] - self.rows[before.to_usize() + number];
            if further != down {
                (down, since, seen) = (further, (first + number).to_u32(), 0);
            }
            seen += usize::from(last_there < since);
            if seen == own && is_alone && down.is_multiple_of(2) {
                self.lay_rest(before.to_usize() + number + 1..first, down);
                for gap in tied {
                    self.below.free[gap + 1] = above.free[gap + 1] + down;
                    self.below.last[gap] = above.last[gap] + piece.knots().len().to_u32();
                }
                return;
            }
        }
    }

    /// Lays the rest of a piece that has just been laid: the knots of these numbers once more, further down.
    fn lay_rest(&mut self, knots: Range<usize>, down: u32) {
        let laid = self.rows.len();
        let length = (laid - knots.start).to_u32();
        self.rows.extend_from_within(knots.clone());
        self.rows[laid..].iter_mut().for_each(|row| *row += down);
        let is_there = |two: &&TwoKnots| knots.contains(&two.below.to_usize());
        let moved =
            |two: &TwoKnots| TwoKnots { above: two.above + length, below: two.below + length, ..*two };
        let again: Vec<TwoKnots> = self.below.apart.iter().filter(is_there).map(moved).collect();
        self.below.apart.extend(again);
    }

    /// Its pieces.
    pub fn pieces(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().map(|(_, piece)| piece)
    }

    /// By piece, the number of its first knot.
    pub fn firsts(&self) -> impl Iterator<Item = u32> + '_ {
        self.pieces.iter().map(|(first, _)| *first)
    }

    /// All of it as one piece, for which the knots are copied.
    pub fn as_one(&self) -> Piece {
        let none = Piece::empty(self.gaps + 1);
        self.pieces().fold(none, |all, piece| all.then(piece).unwrap_or(all))
    }

    /// How many gaps there are.
    pub fn gaps(&self) -> usize {
        self.gaps
    }

    /// By knot, its row.
    pub fn rows(&self) -> &[u32] {
        &self.rows
    }

    /// How many rows there are.
    pub fn height(&self) -> u32 {
        self.below.free[..self.gaps + 2].iter().copied().max().unwrap_or(0)
    }

    /// How many rows hold a straight row. Takes time in proportion to those.
    pub fn straight_rows(&self) -> u64 {
        let of = |(first, piece): &(u32, Piece)| -> Vec<u32> {
            piece.straight().iter().map(|knots| self.rows[(first + knots.start).to_usize()]).collect()
        };
        let mut rows: Vec<u32> = self.pieces.iter().flat_map(of).collect();
        rows.sort_unstable();
        rows.dedup();
        rows.len().to_u64()
    }

    /// Whether a knot lies in a straight row.
    pub fn is_straight(&self, knot: u32) -> bool {
        let piece = self.pieces.partition_point(|(first, _)| *first <= knot).checked_sub(1);
        piece.is_some_and(|piece| {
            let (first, piece) = &self.pieces[piece];
            let at = piece.straight().partition_point(|range| range.end <= knot - first);
            piece.straight().get(at).is_some_and(|range| range.contains(&(knot - first)))
        })
    }

    /// By gap, its first knot, if it has any.
    pub fn first_knots(&self) -> impl Iterator<Item = Option<u32>> + '_ {
        (0..self.gaps).map(|gap| Some(self.ends(gap)?.0))
    }

    /// The first and the last knot of a gap.
    pub(crate) fn ends(&self, gap: usize) -> Option<(u32, u32)> {
        (gap < self.gaps && self.below.free[gap + 1] > 0)
            .then(|| (self.below.first[gap], self.below.last[gap]))
    }

    /// By knot, its gap.
    pub fn knot_gaps(&self) -> impl Iterator<Item = u8> + Clone + '_ {
        self.gaps_of(0..u32::MAX)
    }

    /// The gaps of the knots of these numbers, in their order.
    pub(crate) fn gaps_of(&self, knots: Range<u32>) -> impl Iterator<Item = u8> + Clone + '_ {
        let of = move |(first, piece): &'_ (u32, Piece)| {
            let within = |knot: u32| knot.saturating_sub(*first).to_usize().min(piece.knots().len());
            within(knots.start)..within(knots.end).max(within(knots.start))
        };
        self.pieces.iter().flat_map(move |laid| laid.1.knots()[of(laid)].iter().map(|knot| knot.gap))
    }

    /// Where bricks are missing.
    pub(crate) fn apart(&self) -> &[TwoKnots] {
        &self.below.apart
    }

    /// Whether there is a straight row.
    pub(crate) fn has_straight(&self) -> bool {
        self.has_straight
    }

    /// The knots of a gap, from the top down. All gaps are gone through when somebody first asks.
    pub fn gap(&self, gap: usize) -> Option<&[u32]> {
        self.by_gap.get_or_init(|| KnotsByGap::of(self)).gap(gap)
    }
}

/// The knots of a band gap by gap, each gap from the top down. It takes four bytes a knot.
#[derive(Debug)]
struct KnotsByGap {
    /// By gap, where its knots begin in the list; at last, where they all end.
    starts: Vec<usize>,
    knots: Vec<u32>,
}

impl KnotsByGap {
    /// The knots of a band. Takes time in proportion to them.
    fn of(band: &BandRows) -> Self {
        // Gaps are bytes, so that no index needs to be tested.
        let mut free = [0; 256];
        for knot in band.pieces().flat_map(Piece::knots) {
            free[usize::from(knot.gap)] += 1;
        }
        let mut starts = Vec::with_capacity(band.gaps + 1);
        let mut before = 0;
        for knots in free.iter_mut().take(band.gaps) {
            starts.push(before);
            before += std::mem::replace(knots, before);
        }
        starts.push(before);
        let mut knots = vec![0; band.rows.len()];
        let mut number = 0;
        for piece in band.pieces() {
            for knot in piece.knots() {
                let place = &mut free[usize::from(knot.gap)];
                knots[*place] = number;
                (*place, number) = (*place + 1, number + 1);
            }
        }
        Self { starts, knots }
    }

    fn gap(&self, gap: usize) -> Option<&[u32]> {
        let (first, end) = (self.starts.get(gap)?, self.starts.get(gap + 1)?);
        self.knots.get(*first..*end)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind::{self, Forward};
    use crate::Layout;
    use proptest::prelude::*;

    /// All of it without what is asked for later.
    type RowParts<'a> = (&'a [u32], u32, Vec<Option<(u32, u32)>>, &'a [TwoKnots]);

    fn parts(band: &BandRows) -> RowParts<'_> {
        let ends = (0..band.gaps()).map(|gap| band.ends(gap)).collect();
        (band.rows(), band.height(), ends, band.apart())
    }

    /// The same pieces laid knot by knot.
    fn assert_as_one(pieces: &[Piece]) {
        let one = pieces.iter().skip(1).fold(pieces[0].clone(), |all, piece| all.then(piece).unwrap());
        let (laid, whole) = (BandRows::of(pieces.iter().cloned()), BandRows::of([one.clone()]));
        assert_eq!(parts(&laid), parts(&whole));
        let layout = Layout::of(&one);
        assert_eq!((laid.rows(), laid.height()), (&layout.rows[..], layout.height));
        assert_eq!(laid.straight_rows(), layout.straight_rows(&one));
        assert!(
            (0..laid.rows().len().to_u32()).all(|knot| laid.is_straight(knot) == whole.is_straight(knot))
        );
        assert!((0..laid.gaps()).all(|gap| laid.gap(gap) == whole.gap(gap)));
    }

    #[test]
    fn a_set_that_comes_again_lies_as_if_laid_knot_by_knot() {
        let chevron = Piece::tie(6, [0, 4, 1, 3, 2, 0, 4, 1, 3].map(|gap| (gap, Forward))).unwrap();
        let opening = Piece::tie(6, [2, 2, 2, 0].map(|gap| (gap, Forward))).unwrap();
        assert_as_one(&[opening, chevron.clone(), chevron.clone(), chevron]);
    }

    fn gaps(most: usize) -> impl Strategy<Value = Vec<u8>> {
        prop::collection::vec(0_u8..7, 0..most)
    }

    proptest! {
        #[test]
        fn pieces_lie_as_one(
            strands in 2_usize..8, opening in gaps(9), set in gaps(60), closing in gaps(9), row in any::<bool>(),
        ) {
            let tied = |gaps: Vec<u8>| {
                let steps = gaps.into_iter().map(|gap| (gap % (strands.to_u8() - 1), Kind::Forward));
                Piece::tie(strands, steps).unwrap()
            };
            let (opening, set, mut closing) = (tied(opening), tied(set), tied(closing));
            if row && !closing.knots().is_empty() {
                closing = closing.with_straight(vec![0..1; 1]).unwrap();
            }
            assert_as_one(&[opening.clone(), set.clone(), set.clone(), set.clone(), closing.clone()]);
            assert_as_one(&[opening, closing.clone(), closing, set.clone(), set]);
        }
    }
}
