//! A band by gaps, and what two bands have in common from the start.

use crate::{Kind, Knot};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// A knot among those of its gap.
#[derive(Debug, Clone, Copy)]
pub(super) struct Brick {
    /// Its number in the piece.
    pub(super) number: u32,
    /// How it is tied.
    pub(super) kind: Kind,
    /// How many knots of the gap to the left are tied before it, and how many of the gap to the right.
    before: [u32; 2],
}

/// By gap, its knots in the order in which they are tied.
pub(super) struct ByGap {
    pub(super) gaps: Vec<Vec<Brick>>,
}

impl ByGap {
    /// From knots, each with its number, in an order in which they can be tied (or undone).
    pub(super) fn new<'a>(gaps: usize, knots: impl Iterator<Item = (u32, &'a Knot)> + Clone) -> Self {
        let mut counts = vec![0; gaps];
        knots.clone().for_each(|(_, knot)| counts[usize::from(knot.gap)] += 1);
        let mut by_gap: Vec<Vec<Brick>> = counts.into_iter().map(Vec::with_capacity).collect();
        for (number, knot) in knots {
            let gap = usize::from(knot.gap);
            let count =
                |gap: Option<usize>| gap.and_then(|gap| by_gap.get(gap)).map_or(0, |g| g.len().to_u32());
            let before = [count(gap.checked_sub(1)), count(Some(gap + 1))];
            by_gap[gap].push(Brick { number, kind: knot.kind, before });
        }
        Self { gaps: by_gap }
    }

    /// How many knots each gap has.
    pub(super) fn counts(&self) -> Vec<u32> {
        self.gaps.iter().map(|gap| gap.len().to_u32()).collect()
    }

    /// The next knot of a gap when `tied` knots of each gap are tied, if nothing must be tied before it.
    pub(super) fn next(&self, gap: usize, tied: &[u32], ends: &[u32]) -> Option<&Brick> {
        if tied[gap] >= ends[gap] {
            return None;
        }
        let brick = &self.gaps[gap][tied[gap].to_usize()];
        let left = gap == 0 || brick.before[0] <= tied[gap - 1];
        let right = tied.get(gap + 1).is_none_or(|tied| brick.before[1] <= *tied);
        (left && right).then_some(brick)
    }
}

/// Two bands that are compared: by gap, how many knots of each are done with, and where to stop.
pub(super) struct Pair {
    pub(super) bands: [ByGap; 2],
    pub(super) ends: [Vec<u32>; 2],
}

/// A knot in the word of neighboring gaps: its gap, kind and number.
pub(super) type Letter = (usize, Kind, u32);

/// By band and gap, how many knots are tied.
pub(super) type TiedByGap = [Vec<u32>; 2];

impl Pair {
    pub(super) fn new(bands: [ByGap; 2]) -> Self {
        let ends = [bands[0].counts(), bands[1].counts()];
        Self { bands, ends }
    }

    /// The knots of a band and gap that are left.
    pub(super) fn rest(&self, band: usize, gap: usize, tied: &TiedByGap) -> &[Brick] {
        let range = tied[band][gap].to_usize()..self.ends[band][gap].to_usize();
        self.bands[band].gaps[gap].get(range).unwrap_or(&[])
    }

    /// The knots of a band in some neighboring gaps that are left, in the order in which they are tied.
    pub(super) fn word(&self, band: usize, gaps: Range<usize>, tied: &TiedByGap) -> Vec<Letter> {
        let rest = |gap: usize| self.rest(band, gap, tied).iter().map(move |b| (gap, b.kind, b.number));
        let mut word: Vec<Letter> = gaps.flat_map(rest).collect();
        word.sort_unstable_by_key(|letter| letter.2);
        word
    }

    /// Ties, in both, the knots that are next in both, as long as there are any; looks first at the gaps in `look`.
    ///
    /// What both begin with can always be kept: if the best match left such a knot out of one band, or matched it with
    /// a later one, it could be matched with its like at no loss.
    pub(super) fn tie_common(&self, tied: &mut TiedByGap, mut look: Vec<usize>) {
        while let Some(gap) = look.pop() {
            if self.is_common(gap, tied) {
                tied.iter_mut().for_each(|tied| tied[gap] += 1);
                let last = self.ends[0].len() - 1;
                look.extend([gap.saturating_sub(1), (gap + 1).min(last), gap]);
            }
        }
    }

    fn is_common(&self, gap: usize, tied: &TiedByGap) -> bool {
        let next = |band: usize| self.bands[band].next(gap, &tied[band], &self.ends[band]);
        next(0).zip(next(1)).is_some_and(|(one, other)| one.kind == other.kind)
    }

    /// By gap, how many knots both begin with.
    pub(super) fn common(&self) -> Vec<u32> {
        let gaps = self.ends[0].len();
        let mut tied = [vec![0; gaps], vec![0; gaps]];
        self.tie_common(&mut tied, (0..gaps).rev().collect());
        let [tied, _] = tied;
        tied
    }
}

/// By gap, how many knots two bands of as many gaps begin with in common: the greatest common beginning.
pub(crate) fn common_start(gaps: usize, one: &[Knot], other: &[Knot]) -> Vec<u32> {
    let by_gap = |knots| ByGap::new(gaps, (0..).zip(knots));
    Pair::new([by_gap(one), by_gap(other)]).common()
}
