//! The order in which edits are offered. How a band looks takes far longer to find out than how its knots lie: so those whose
//! knots lie best are looked at first, and only as many as are offered.

use super::search::is_many;
use super::shape::{Blemishes, is_far_worse};
use super::trial::{ChoiceOrder, EditedBand, Trial, Workshop};
use rustc_hash::FxHashSet as HashSet;
use std::collections::BTreeMap;

/// A choice, and how the band looks with it.
pub(super) struct LookedAt {
    /// `None` if it could not be looked at.
    pub(super) found: Option<Blemishes>,
    pub(super) trial: Trial,
    /// Whether its band is far worse than the best: then it is not offered.
    pub(super) is_far: bool,
    /// How much better it fits in than without the edit, once somebody has asked for it.
    gain: Option<i32>,
    /// Where it comes with what was found.
    order: Option<ChoiceOrder>,
    /// If more may be wrong with it than was found. Of those that come after all that are offered nobody asks.
    rough: Option<Rough>,
}

/// Of what a closer look may find more.
enum Rough {
    /// Its band was not tied yet.
    Untied,
    Tied(Box<EditedBand>),
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
        Self { found: None, trial, is_far: false, gain: None, order: None, rough: None }
    }

    fn is_far_behind(&self, best: &LookedAt) -> bool {
        let empty = |looked: &LookedAt| looked.order.map(|order| order.empty);
        empty(self).zip(empty(best)).is_some_and(|(empty, best)| is_far_worse(empty, best))
    }

    fn place(&self, number: usize) -> Place {
        (self.found.is_none(), self.order, self.trial.choice.near(), number)
    }

    /// A rough look finds nothing that is not there: with all that is found it comes where it was, or later.
    fn look_closer(&mut self, workshop: &mut Workshop, rough: Rough) {
        let (found, rough) = match rough {
            Rough::Untied => workshop.rough_blemishes(&self.trial.choice).unzip(),
            Rough::Tied(band) => workshop.closer_blemishes(band).unzip(),
        };
        self.rough = rough.flatten().map(Rough::Tied);
        self.show(workshop, found);
    }

    /// With what was found.
    fn show(&mut self, workshop: &Workshop, found: Option<Blemishes>) {
        let choice = &self.trial.choice;
        let gain = *self.gain.get_or_insert_with(|| workshop.gain(choice));
        self.order = found.as_ref().map(|found| workshop.order(choice, gain, found));
        self.found = found;
    }
}

/// Choices by where they come with what is known of their bands.
#[derive(Default)]
pub(super) struct Ranks {
    /// Each has a place of its own in memory: they change places often.
    waiting: BTreeMap<Place, Box<LookedAt>>,
}

impl Ranks {
    pub(super) fn is_empty(&self) -> bool {
        self.waiting.is_empty()
    }

    /// Each of them is found behind all equals that were added before.
    pub(super) fn add(&mut self, workshop: &mut Workshop, trials: Vec<Trial>) {
        let before = self.waiting.len();
        let foresees = workshop.foresees(trials.len());
        if !foresees {
            self.look_at_untied(workshop);
        }
        for (number, trial) in trials.into_iter().enumerate() {
            let least = if foresees { workshop.least_blemishes(&trial) } else { None };
            let mut looked = Box::new(LookedAt::unseen(trial));
            match least {
                Some(_) => {
                    looked.show(workshop, least);
                    looked.rough = Some(Rough::Untied);
                }
                None => looked.look_closer(workshop, Rough::Untied),
            }
            self.waiting.insert(looked.place(before + number), looked);
        }
    }

    /// Where few can be looked at, those that were added before come first.
    fn look_at_untied(&mut self, workshop: &mut Workshop) {
        for ((.., number), mut looked) in std::mem::take(&mut self.waiting) {
            if let Some(rough) = looked.rough.take_if(|rough| matches!(rough, Rough::Untied)) {
                looked.look_closer(workshop, rough);
            }
            self.waiting.insert(looked.place(number), looked);
        }
    }

    /// Where the first one comes, if more than one could be looked at.
    pub(super) fn first(&mut self, workshop: &mut Workshop) -> Option<ChoiceOrder> {
        self.waiting.values().filter(|looked| looked.found.is_some()).nth(1)?;
        loop {
            let mut first = self.waiting.first_entry()?;
            let Some(rough) = first.get_mut().rough.take() else { return first.get().order };
            let ((.., number), mut looked) = first.remove_entry();
            looked.look_closer(workshop, rough);
            self.waiting.insert(looked.place(number), looked);
        }
    }

    /// With others, the best first. Of those that could not be looked at nothing is known, and they come last.
    pub(super) fn in_order(mut self, workshop: &mut Workshop, others: Vec<Trial>) -> Vec<LookedAt> {
        if self.is_empty() && others.len() == 1 {
            return others.into_iter().map(|trial| LookedAt::alone(workshop, trial)).collect();
        }
        if self.is_empty() && !workshop.affords_looks(2) && !workshop.promises_a_face() {
            return not_compared(others);
        }
        self.add(workshop, others);
        let mut waiting = self.waiting;
        let (mut looked, mut far, mut places) = (Vec::new(), Vec::new(), Places::default());
        while places.count < workshop.most_in_order() {
            let Some(((.., number), mut first)) = waiting.pop_first() else { break };
            let best: Option<&LookedAt> = looked.first();
            if best.is_some_and(|best| first.is_far_behind(best)) {
                far.push(LookedAt { is_far: true, rough: None, ..*first });
                continue;
            }
            let Some(rough) = first.rough.take().filter(|_| !places.have(&first)) else {
                places.add(&first);
                looked.push(*first);
                continue;
            };
            first.look_closer(workshop, rough);
            waiting.insert(first.place(number), first);
        }
        looked.extend(waiting.into_values().map(|waiting| *waiting));
        // They are there nevertheless: none of the others is the only one.
        looked.extend(far);
        looked
    }
}

/// In a long band one could be looked at, and there would be none to compare it with. So the first one stays first, and the
/// nearest of all others come next.
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
