//! The order in which edits are offered. How a band looks takes far longer to find out than how its knots lie: so those whose
//! knots lie best are looked at first, and only as many as are offered.

use super::search::{MOST_MENDS, is_many};
use super::shape::Blemishes;
use super::trial::{ChoiceOrder, EditedBand, Trial, Workshop};
use rustc_hash::FxHashSet as HashSet;
use std::collections::BTreeMap;

/// A choice, and how the band looks with it.
pub(super) struct LookedAt {
    /// `None` if it could not be looked at.
    pub(super) found: Option<Blemishes>,
    pub(super) trial: Trial,
    /// Where it comes with what was found.
    order: Option<ChoiceOrder>,
    /// The band, if more may be wrong with it than was found. Of those that come after all that are offered nobody asks.
    rough: Option<Box<EditedBand>>,
}

/// The less, the earlier it comes. Among equals the one that was found first comes first.
type Place = (bool, Option<ChoiceOrder>, (u32, u8), usize);

impl LookedAt {
    fn place(&self, number: usize) -> Place {
        (self.found.is_none(), self.order, self.trial.choice.near(), number)
    }

    /// With what was found.
    fn show(&mut self, workshop: &Workshop, found: Option<Blemishes>) {
        self.order = found.as_ref().map(|found| workshop.order(&self.trial.choice, found));
        self.found = found;
    }
}

/// All of them, the best first. Of those that could not be looked at nothing is known, and they come last.
pub(super) fn in_order(workshop: &mut Workshop, trials: Vec<Trial>) -> Vec<LookedAt> {
    let roughly = |(number, trial): (usize, Trial)| {
        let (found, rough) = workshop.rough_blemishes(&trial.choice).unzip();
        let mut looked = LookedAt { found: None, trial, order: None, rough: rough.flatten() };
        looked.show(workshop, found);
        (looked.place(number), looked)
    };
    let mut waiting: BTreeMap<Place, LookedAt> = trials.into_iter().enumerate().map(roughly).collect();
    let (mut looked, mut places) = (Vec::with_capacity(waiting.len()), Places::default());
    while places.count < MOST_MENDS {
        let Some(((.., number), mut first)) = waiting.pop_first() else { break };
        let Some(band) = first.rough.take().filter(|_| !places.have(&first)) else {
            places.add(&first);
            looked.push(first);
            continue;
        };
        // A rough look finds nothing that is not there, so with all that is found it comes here or later.
        let (found, rough) = workshop.closer_blemishes(band).unzip();
        first.rough = rough.flatten();
        first.show(workshop, found);
        waiting.insert(first.place(number), first);
    }
    looked.extend(waiting.into_values());
    looked
}

/// How many mends are offered of those that were added.
#[derive(Default)]
struct Places {
    count: usize,
    seen: HashSet<u64>,
}

impl Places {
    /// Whether one with the same band is among them, so that another one is not offered.
    fn have(&self, looked: &LookedAt) -> bool {
        is_many(&looked.trial.choice) && looked.found.is_some_and(|found| self.seen.contains(&found.band))
    }

    fn add(&mut self, looked: &LookedAt) {
        let is_new =
            !is_many(&looked.trial.choice) || looked.found.is_none_or(|found| self.seen.insert(found.band));
        self.count += usize::from(is_new);
    }
}
