//! The fewest edits, by a search that always goes on where the fewest may be enough (A*).
//!
//! A state is, by band and gap, how many knots are done with: kept or left out. A knot is kept with its like as soon
//! as it can be; it may be left out whenever it is the next in its gap, even if knots that come before it in the gaps
//! beside it are still to come. (It must be so: from 0, 1, 2 tied one after the other to 2, 1, 0 only the knot in gap 1
//! is left out of both, though in neither band it is the first that can be tied.)

use super::bound::Bound;
use super::by_gap::{Pair, TiedByGap};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// How many states are looked at, and how many are thought of, before the search is given up.
const MOST_STATES: usize = 20_000;
const MOST_THOUGHTS: usize = 100_000;

/// A knot left out: of which band, and its number.
pub(super) type SearchEdit = (usize, u32);

/// A state that was looked at.
struct State {
    tied: TiedByGap,
    edits: u32,
    came: Option<(usize, SearchEdit)>,
}

/// A state to look at: the least number of edits in all (fewest first), those still to come, and how to get there.
type Thought = Reverse<(u32, u32, usize, usize, usize)>;

/// The knots to leave out of either band so that the rest is equal, the fewest possible; `None` if that takes too
/// long.
pub(super) fn fewest_edits(pair: &Pair, start: &[u32]) -> Option<Vec<SearchEdit>> {
    let tied = [start.to_vec(), start.to_vec()];
    let mut bound = Bound::new(pair, &tied)?;
    // Each edit takes a look at a state, and a thought for each gap and band.
    if bound.at(&tied).to_usize() * 2 * start.len() > MOST_THOUGHTS {
        return None;
    }
    let mut search =
        Search { pair, bound, states: Vec::new(), seen: HashMap::default(), thoughts: BinaryHeap::new() };
    search.states.push(State { tied, edits: 0, came: None });
    let mut at = 0;
    let mut thoughts = 0;
    while search.states[at].tied != pair.ends {
        thoughts += search.think(at);
        if search.states.len() > MOST_STATES || thoughts > MOST_THOUGHTS || search.bound.is_spent() {
            return None;
        }
        at = search.next()?;
    }
    Some(search.edits_to(at))
}

struct Search<'a> {
    pair: &'a Pair,
    bound: Bound,
    states: Vec<State>,
    /// By state, the fewest edits that led there.
    seen: HashMap<TiedByGap, u32>,
    thoughts: BinaryHeap<Thought>,
}

impl Search<'_> {
    /// Thinks of each edit that is possible in a state; how many there are.
    fn think(&mut self, at: usize) -> usize {
        let before = self.thoughts.len();
        for band in 0..2 {
            for gap in 0..self.pair.ends[band].len() {
                if let Some((tied, _)) = self.after(at, band, gap) {
                    let to_come = self.bound.at(&tied);
                    let edits = self.states[at].edits + 1 + to_come;
                    self.thoughts.push(Reverse((edits, to_come, at, band, gap)));
                }
            }
        }
        self.thoughts.len() - before
    }

    /// The most promising state not looked at so far.
    fn next(&mut self) -> Option<usize> {
        loop {
            let Reverse((_, _, from, band, gap)) = self.thoughts.pop()?;
            let Some((tied, edit)) = self.after(from, band, gap) else { continue };
            let edits = self.states[from].edits + 1;
            if self.seen.get(&tied).is_none_or(|fewest| edits < *fewest) {
                self.seen.insert(tied.clone(), edits);
                self.states.push(State { tied, edits, came: Some((from, edit)) });
                return Some(self.states.len() - 1);
            }
        }
    }

    /// A state after the next knot of a gap is left out of a band and what is common then is tied.
    fn after(&self, at: usize, band: usize, gap: usize) -> Option<(TiedByGap, SearchEdit)> {
        let state = &self.states[at];
        let brick = self.pair.rest(band, gap, &state.tied).first()?;
        let mut tied = state.tied.clone();
        tied[band][gap] += 1;
        let last = self.pair.ends[0].len() - 1;
        self.pair.tie_common(&mut tied, vec![(gap + 1).min(last), gap.saturating_sub(1), gap]);
        Some((tied, (band, brick.number)))
    }

    fn edits_to(&self, mut at: usize) -> Vec<SearchEdit> {
        let mut edits = Vec::new();
        while let Some((from, edit)) = self.states[at].came {
            edits.push(edit);
            at = from;
        }
        edits
    }
}
