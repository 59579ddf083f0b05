//! The order in which edits are offered. How a band looks takes far longer to find out than how its knots lie; so where many
//! edits are to be ranked, those whose knots lie best are looked at first, and only as many as are offered.

use super::search::{MOST_MENDS, is_many};
use super::shape::Blemishes;
use super::trial::{ChoiceOrder, Trial, Workshop};
use rustc_hash::FxHashSet as HashSet;

/// Up to this many are looked at without asking which of them may come before the others.
const FEW: usize = MOST_MENDS + 4;

/// A choice, and how the band looks with it.
pub(super) struct LookedAt {
    /// `None` if it could not be looked at.
    pub(super) found: Option<Blemishes>,
    pub(super) trial: Trial,
    /// Where it comes with what was found.
    order: Option<ChoiceOrder>,
    /// Among equals the one that was found first comes first.
    number: usize,
    /// Whether more may be wrong with it than was found: then it comes after all that are offered.
    is_rough: bool,
}

impl LookedAt {
    fn key(&self) -> (bool, Option<ChoiceOrder>, (u32, u8), usize) {
        (self.found.is_none(), self.order, self.trial.choice.near(), self.number)
    }

    /// With what was found.
    fn showing(mut self, workshop: &Workshop, found: Option<Blemishes>, is_rough: bool) -> Self {
        self.order = found.as_ref().map(|found| workshop.order(&self.trial.choice, found));
        (self.found, self.is_rough) = (found, is_rough);
        self
    }
}

/// All of them, the best first. Of those that could not be looked at nothing is known, and they come last.
pub(super) fn in_order(workshop: &mut Workshop, trials: Vec<Trial>) -> Vec<LookedAt> {
    let mut looked: Vec<LookedAt> = Vec::with_capacity(trials.len());
    let mut is_full = false;
    for (number, trial) in trials.into_iter().enumerate() {
        if number == FEW {
            is_full = is_offered_without_warnings(&looked);
        }
        let found = match is_full {
            true => workshop.rough_blemishes(&trial.choice),
            false => workshop.blemishes(Some(&trial.choice)).map(|found| (found, false)),
        };
        let unknown = LookedAt { found: None, trial, order: None, number, is_rough: false };
        looked.push(match found {
            Some((found, is_rough)) => unknown.showing(workshop, Some(found), is_rough),
            None => unknown,
        });
    }
    looked.sort_by_key(LookedAt::key);
    // A rough look finds nothing that is not there: what comes after enough others so, comes after them all the same.
    while let Some(at) = looked.iter().position(|looked| looked.is_rough) {
        if places(&looked[..at]) >= MOST_MENDS {
            break;
        }
        let rough = looked.remove(at);
        let found = workshop.blemishes_again(&rough.trial.choice);
        let whole = rough.showing(workshop, found, false);
        let after = looked[at..].partition_point(|other| other.key() < whole.key());
        looked.insert(at + after, whole);
    }
    looked
}

/// Whether all that can be offered would leave no warning. How knots lie says nothing of warnings: where all leave one, a
/// rough look refuses nothing.
fn is_offered_without_warnings(looked: &[LookedAt]) -> bool {
    let is_clean = |looked: &&LookedAt| looked.found.is_some_and(|found| found.warnings == 0);
    places(looked.iter().filter(is_clean)) >= MOST_MENDS
}

/// How many mends are offered of these.
fn places<'l>(looked: impl IntoIterator<Item = &'l LookedAt>) -> usize {
    let mut seen = HashSet::default();
    let is_new = |looked: &&LookedAt| {
        !is_many(&looked.trial.choice) || looked.found.is_none_or(|found| seen.insert(found.band))
    };
    looked.into_iter().filter(is_new).count()
}
