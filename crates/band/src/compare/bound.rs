//! How many edits there must be at least.
//!
//! The search needs a number that is never too large and seldom too small. For two neighboring gaps the least edits are
//! those between two words, which is well known how to compute; sums over pairs of gaps that share none are still never
//! too large, and of the two ways to pair gaps up the larger sum counts. The tables hold the distances near the
//! diagonal; what lies farther off is worked out letter by letter when it is asked for, and only up to a limit.

use super::by_gap::{Pair, TiedByGap};
use super::words::GapWord;
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::ops::Range;

/// The most entries of all tables together.
const MOST_ENTRIES: usize = 4_000_000;

/// The most distances that are computed letter by letter.
const MOST_COMPUTED: usize = 500_000;

/// How far one gap may be ahead of its neighbor for the distance to be computed.
const FAR_AHEAD: u32 = 200;

/// Any two knots in the same gap or in neighboring gaps come one after the other. So the knots of two neighboring gaps
/// are a word in each band, and to make the words equal takes no more edits than to make the bands equal; for pairs of
/// gaps that share none the edits add up.
pub(super) struct Bound {
    /// For the pairs that begin with gap 0, 2, 4 ... and for those that begin with 1, 3, 5 ... and gap 0 alone.
    pairings: [Vec<Table>; 2],
}

impl Bound {
    /// From knots tied so far; `None` if the tables would be too large.
    pub(super) fn new(pair: &Pair, tied: &TiedByGap) -> Option<Self> {
        let gaps = pair.ends[0].len();
        let spans = |first: usize| {
            let single = (first == 1 && gaps > 0).then_some(0..1);
            single.into_iter().chain((first..gaps).step_by(2).map(move |gap| gap..(gap + 2).min(gaps)))
        };
        let all: Vec<_> = spans(0).chain(spans(1)).collect();
        let around = [64, 16, 4].into_iter().find(|around| {
            let entries = |gaps: &Range<usize>| Table::size(pair, tied, gaps, *around);
            all.iter().map(entries).sum::<usize>() <= MOST_ENTRIES
        })?;
        let tables = |first| spans(first).map(|gaps| Table::new(pair, tied, gaps, around)).collect();
        Some(Self { pairings: [tables(0), tables(1)] })
    }

    /// Whether too many distances were computed to go on.
    pub(super) fn is_spent(&self) -> bool {
        self.pairings.iter().flatten().map(|table| table.ahead.len()).sum::<usize>() > MOST_COMPUTED
    }

    /// The least number of edits from here on.
    pub(super) fn at(&mut self, tied: &TiedByGap) -> u32 {
        let mut sum =
            |pairing: usize| self.pairings[pairing].iter_mut().map(|table| table.at(tied)).sum::<u32>();
        sum(0).max(sum(1))
    }
}

/// The edit distance (removals and additions) between all ends of two words, near the diagonal.
struct Table {
    gaps: Range<usize>,
    words: [GapWord; 2],
    /// The least difference of places that is kept, and how many.
    first: i64,
    kept: usize,
    entries: Vec<u32>,
    /// Distances of words in which one gap is ahead of the other.
    ahead: HashMap<[[u32; 2]; 2], u32>,
}

impl Table {
    fn size(pair: &Pair, tied: &TiedByGap, gaps: &Range<usize>, around: usize) -> usize {
        let length = |band: usize| gaps.clone().map(|gap| pair.rest(band, gap, tied).len()).sum::<usize>();
        let (one, other) = (length(0), length(1));
        (one + 1) * (one.abs_diff(other) + 2 * around + 1).min(one + other + 1)
    }

    fn new(pair: &Pair, tied: &TiedByGap, gaps: Range<usize>, around: usize) -> Self {
        let words = [0, 1].map(|band| GapWord::new(pair, tied, band, gaps.clone()));
        let [one, other] = [0, 1].map(|band| i64::from(words[band].length()));
        let around = around.to_i64().min(one.min(other));
        let first = (other - one).min(0) - around;
        let kept = ((other - one).max(0) + around - first + 1).to_usize();
        let entries = vec![0; (one.to_usize() + 1) * kept];
        let mut table = Self { gaps, words, first, kept, entries, ahead: HashMap::default() };
        table.fill();
        table
    }

    fn fill(&mut self) {
        for one in (0..=self.words[0].length()).rev() {
            for at in (0..self.kept).rev() {
                let other = u32::try_from(i64::from(one) + self.first + at.to_i64());
                if let Some(other) = other.ok().filter(|other| *other <= self.words[1].length()) {
                    self.entries[one.to_usize() * self.kept + at] = self.least(one, other);
                }
            }
        }
    }

    fn least(&self, one: u32, other: u32) -> u32 {
        match (self.words[0].letter(one), self.words[1].letter(other)) {
            (None, _) => self.words[1].length() - other,
            (_, None) => self.words[0].length() - one,
            (Some(a), Some(b)) if a == b => self.entry(one + 1, other + 1),
            _ => 1 + self.entry(one + 1, other).min(self.entry(one, other + 1)),
        }
    }

    /// Where the distance of words with `one` and `other` letters gone is kept.
    fn kept_at(&self, one: u32, other: u32) -> Option<usize> {
        let at = usize::try_from(i64::from(other) - i64::from(one) - self.first).ok()?;
        (at < self.kept).then_some(one.to_usize() * self.kept + at)
    }

    /// The difference in length of what is left of the words.
    fn longer(&self, one: u32, other: u32) -> u32 {
        (self.words[0].length() - one).abs_diff(self.words[1].length() - other)
    }

    /// The distance of the words' ends from these places on; far from the diagonal, their difference in length.
    fn entry(&self, one: u32, other: u32) -> u32 {
        self.kept_at(one, other).map_or_else(|| self.longer(one, other), |at| self.entries[at])
    }

    fn at(&mut self, tied: &TiedByGap) -> u32 {
        let gone = [0, 1].map(|band| self.words[band].gone(&tied[band], self.gaps.start));
        self.distance(gone)
    }

    /// The distance of what is left of the words; `gone`: by band and gap, how many knots are no longer there.
    ///
    /// If they are the beginnings of the words, it is in the table. If one gap is ahead of the other in a band (a
    /// knot was left out before those that come before it in the other gap), it is computed letter by letter until
    /// that is so; or, if that is far, it is at least the distance of the longer ends less the letters gone from
    /// them.
    fn distance(&mut self, gone: [[u32; 2]; 2]) -> u32 {
        let [one, other] = [0, 1].map(|band: usize| gone[band][0] + gone[band][1]);
        let [from, other_from] = [0, 1].map(|band| self.words[band].next(gone[band]));
        let ahead = (one - from) + (other - other_from);
        if ahead == 0 {
            return self.entry(from, other_from);
        }
        if self.kept_at(one, other).is_none() {
            return self.longer(one, other);
        }
        if self.words.iter().zip(gone).any(|(word, gone)| word.spread(gone) > FAR_AHEAD) {
            return self.entry(from, other_from).saturating_sub(ahead);
        }
        if let Some(&known) = self.ahead.get(&gone) {
            return known;
        }
        let distance = self.compute(gone, from, other_from);
        self.ahead.insert(gone, distance);
        distance
    }

    fn compute(&mut self, gone: [[u32; 2]; 2], from: u32, other_from: u32) -> u32 {
        let letters = [self.words[0].letter(from), self.words[1].letter(other_from)];
        let [Some(one), Some(other)] = letters else {
            // Nothing is left of one of the words.
            return self.longer(gone[0][0] + gone[0][1], gone[1][0] + gone[1][1]);
        };
        let (mut less, mut other_less) = (gone, gone);
        less[0][one.0] += 1;
        other_less[1][other.0] += 1;
        if one == other {
            return self.distance([less[0], other_less[1]]);
        }
        1 + self.distance(less).min(self.distance(other_less))
    }
}
