//! How many edits there must be at least.

use super::by_gap::{Letter, Pair, Tied};
use crate::Kind;
use std::ops::Range;

/// The most entries of all tables together.
const MOST_ENTRIES: usize = 4_000_000;

/// Any two knots in the same gap or in neighboring gaps come one after the other. So the knots of two neighboring gaps
/// are a word in each band, and to make the words equal takes no more edits than to make the bands equal; for pairs of
/// gaps that share none the edits add up.
pub(super) struct Bound {
    /// For the pairs that begin with gap 0, 2, 4 ... and for those that begin with 1, 3, 5 ... and gap 0 alone.
    pairings: [Vec<Table>; 2],
}

/// The edit distance (removals and additions) between all ends of two words, near the diagonal.
struct Table {
    gaps: Range<usize>,
    /// By band: how many of these knots come before the words begin, and how long the words are.
    begin: [u32; 2],
    length: [u32; 2],
    /// The least difference of places that is kept, and how many.
    first: i64,
    kept: usize,
    entries: Vec<u32>,
}

impl Bound {
    /// From knots tied so far; `None` if the tables would be too large.
    pub(super) fn new(pair: &Pair, tied: &Tied) -> Option<Self> {
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

    /// The least number of edits from here on.
    pub(super) fn at(&self, tied: &Tied) -> u32 {
        let sum = |tables: &Vec<Table>| tables.iter().map(|table| table.at(tied)).sum();
        self.pairings.iter().map(sum).max().unwrap_or(0)
    }
}

impl Table {
    fn lengths(pair: &Pair, tied: &Tied, gaps: &Range<usize>) -> [u32; 2] {
        [0, 1].map(|band| gaps.clone().map(|gap| pair.ends[band][gap] - tied[band][gap]).sum())
    }

    fn size(pair: &Pair, tied: &Tied, gaps: &Range<usize>, around: usize) -> usize {
        let [one, other] = Self::lengths(pair, tied, gaps).map(|length| length as usize);
        (one + 1) * (one.abs_diff(other) + 2 * around + 1).min(one + other + 1)
    }

    fn new(pair: &Pair, tied: &Tied, gaps: Range<usize>, around: usize) -> Self {
        let length = Self::lengths(pair, tied, &gaps);
        let [one, other] = length.map(i64::from);
        let first = (other - one).min(0) - (around as i64).min(one.min(other));
        let last = (other - one).max(0) + (around as i64).min(one.min(other));
        let kept = (last - first + 1) as usize;
        let begin = [0, 1].map(|band| gaps.clone().map(|gap| tied[band][gap]).sum());
        let entries = vec![0; (one as usize + 1) * kept];
        let mut table = Self { gaps, begin, length, first, kept, entries };
        let plain = |letter: Letter| (letter.0, letter.1);
        let word = |band: usize| pair.word(band, table.gaps.clone(), tied).into_iter().map(plain).collect();
        table.fill(&[0, 1].map(word));
        table
    }

    fn fill(&mut self, words: &[Vec<(usize, Kind)>; 2]) {
        for one in (0..=self.length[0]).rev() {
            for at in 0..self.kept {
                let other = i64::from(one) + self.first + at as i64;
                if other < 0 || other > i64::from(self.length[1]) {
                    continue;
                }
                let other = other as u32;
                self.entries[one as usize * self.kept + at] = self.least(words, one, other);
            }
        }
    }

    fn least(&self, words: &[Vec<(usize, Kind)>; 2], one: u32, other: u32) -> u32 {
        match (words[0].get(one as usize), words[1].get(other as usize)) {
            (None, _) => self.length[1] - other,
            (_, None) => self.length[0] - one,
            (Some(a), Some(b)) if a == b => self.entry(one + 1, other + 1),
            _ => 1 + self.entry(one + 1, other).min(self.entry(one, other + 1)),
        }
    }

    /// The distance of the words' ends from these places on; far from the diagonal, their difference in length.
    fn entry(&self, one: u32, other: u32) -> u32 {
        let at = i64::from(other) - i64::from(one) - self.first;
        match usize::try_from(at) {
            Ok(at) if at < self.kept => self.entries[one as usize * self.kept + at],
            _ => (self.length[0] - one).abs_diff(self.length[1] - other),
        }
    }

    fn at(&self, tied: &Tied) -> u32 {
        let place =
            |band: usize| self.gaps.clone().map(|gap| tied[band][gap]).sum::<u32>() - self.begin[band];
        self.entry(place(0), place(1))
    }
}
