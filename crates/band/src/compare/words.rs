//! The knots of two neighboring gaps as a word.

use super::by_gap::{Pair, TiedByGap};
use crate::Kind;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// A knot: whether it is in the second of the two gaps (0 or 1), and its kind.
pub(super) type Letter = (usize, Kind);

/// The knots of a gap, or of two neighboring ones, that were left when the search began, in the order of tying.
pub(super) struct GapWord {
    letters: Vec<Letter>,
    /// By gap, the places of its knots in the word.
    places: [Vec<u32>; 2],
    /// By gap, how many knots had been tied.
    begin: [u32; 2],
}

impl GapWord {
    pub(super) fn new(pair: &Pair, tied: &TiedByGap, band: usize, gaps: Range<usize>) -> Self {
        let first = gaps.start;
        let begin = [0, 1].map(|at| tied[band].get(first + at).copied().unwrap_or(0));
        let mut word = Self { letters: Vec::new(), places: Default::default(), begin };
        for (place, (gap, kind, _)) in (0..).zip(pair.word(band, gaps, tied)) {
            word.places[gap - first].push(place);
            word.letters.push((gap - first, kind));
        }
        word
    }

    pub(super) fn length(&self) -> u32 {
        self.letters.len().to_u32()
    }

    pub(super) fn letter(&self, place: u32) -> Option<Letter> {
        self.letters.get(place.to_usize()).copied()
    }

    /// By gap, how many of the word's knots are gone; `first`: its first gap.
    pub(super) fn gone(&self, tied: &[u32], first: usize) -> [u32; 2] {
        let more = |at: usize| if self.places[at].is_empty() { 0 } else { tied[first + at] - self.begin[at] };
        [more(0), more(1)]
    }

    /// The place of the first knot that is left.
    pub(super) fn next(&self, gone: [u32; 2]) -> u32 {
        let next = |at: usize| self.places[at].get(gone[at].to_usize()).copied().unwrap_or(self.length());
        next(0).min(next(1))
    }

    /// How many places there are from the first knot that is left to the last that is gone.
    pub(super) fn spread(&self, gone: [u32; 2]) -> u32 {
        let last = |at: usize| gone[at].checked_sub(1).map_or(0, |last| self.places[at][last.to_usize()] + 1);
        last(0).max(last(1)).saturating_sub(self.next(gone))
    }
}
