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
    /// One that needs no place among others: it is only asked whether anything is wrong with the band.
    fn alone(workshop: &mut Workshop, trial: Trial) -> Self {
        let found = workshop.looked_at(Some(&trial.choice), Blemishes::of_warnings);
        Self { found, ..Self::unseen(trial) }
    }

    /// One that nobody looks at.
    fn unseen(trial: Trial) -> Self {
        Self { found: None, trial, order: None, rough: None }
    }

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
    if trials.len() == 1 {
        return trials.into_iter().map(|trial| LookedAt::alone(workshop, trial)).collect();
    }
    if !workshop.affords_looks(2) && !workshop.promises_a_face() {
        return not_compared(trials);
    }
    let roughly = |(number, trial): (usize, Trial)| {
        let (found, rough) = workshop.rough_blemishes(&trial.choice).unzip();
        let mut looked = LookedAt { rough: rough.flatten(), ..LookedAt::unseen(trial) };
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

/// In a long band one could be looked at, and there would be none to compare it with. So the first one stays first, and the nearest
/// of all others come next.
fn not_compared(trials: Vec<Trial>) -> Vec<LookedAt> {
    let mut all: Vec<LookedAt> = trials.into_iter().map(LookedAt::unseen).collect();
    if let Some((_, others)) = all.split_first_mut() {
        others.sort_by_key(|looked| looked.trial.choice.near());
    }
    all
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
