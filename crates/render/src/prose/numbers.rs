//! Which number the instructions give to each step of a passage: what is written once may be done many times.

use super::act::CountFrom;
use super::items::{Item, ItemReader};
use crate::{Event, Named, Passage};
use knotwright_numbers::ToNumber;

/// Where a step is in the instructions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepNumber {
    /// Its number, with those of the steps that it is below: `4`, `2.1`.
    pub number: String,
    /// Of every step on the way that is done more than once: the how manyeth time, and of how many.
    pub times: Vec<(u64, u64)>,
    /// Its number where steps are counted one at a time, as on the sheet.
    pub single: usize,
}

impl Passage {
    /// Whether a step ties something, or threads a bead.
    fn does_something(&self, step: usize) -> bool {
        let is_bead = self.steps.get(step).is_some_and(|step| matches!(step.named, Named::Bead { .. }));
        is_bead || !self.knots_of(step).is_empty()
    }

    /// By step, where it is in the instructions as they are written step by step; none if it ties nothing.
    pub fn step_numbers(&self) -> Vec<Option<StepNumber>> {
        // Places are read whatever the threads.
        let threads = vec![u16::MAX; self.piece.strands()];
        let items = ItemReader { counting: CountFrom::AsWritten }.items(self, &threads);
        let mut walk = Walk { at: vec![0], times: Vec::new(), found: Vec::new(), joins: 0 };
        walk.items(&items);
        let mut numbers = vec![None; self.steps.len()];
        let tying = self.events.iter().filter_map(|event| match event {
            Event::Step(step) => Some(step.to_usize()).filter(|step| self.does_something(*step)),
            _ => None,
        });
        for (step, number) in tying.zip(walk.found) {
            if let Some(slot) = numbers.get_mut(step) {
                *slot = Some(number);
            }
        }
        numbers
    }
}

/// Does all that the items say, in order.
struct Walk {
    /// By depth, the number of the last step.
    at: Vec<u64>,
    times: Vec<(u64, u64)>,
    found: Vec<StepNumber>,
    /// Strands that were joined so far: each is a step that ties nothing.
    joins: usize,
}

impl Walk {
    fn items(&mut self, items: &[Item]) {
        items.iter().for_each(|item| self.item(item));
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Section { body, .. } => self.items(body),
            Item::Do(deed) => {
                self.next();
                (1..=deed.times).for_each(|time| self.timed(time, deed.times, Self::done));
            }
            Item::Repeat { times, body } => {
                self.next();
                (1..=*times).for_each(|time| self.timed(time, *times, |walk| walk.below(body)));
            }
            Item::Passes(bodies) => {
                for body in bodies {
                    self.next();
                    self.below(body);
                }
            }
            Item::Join(_) => {
                self.next();
                self.joins += 1;
            }
            Item::Note(_) | Item::Wish(_) | Item::Row { .. } | Item::Look(_) => {}
        }
    }

    fn next(&mut self) {
        if let Some(number) = self.at.last_mut() {
            *number += 1;
        }
    }

    fn timed(&mut self, time: u64, times: u64, work: impl FnOnce(&mut Self)) {
        let is_one_of_many = times > 1;
        if is_one_of_many {
            self.times.push((time, times));
        }
        work(self);
        if is_one_of_many {
            self.times.pop();
        }
    }

    fn below(&mut self, body: &[Item]) {
        self.at.push(0);
        self.items(body);
        self.at.pop();
    }

    fn done(&mut self) {
        let number = self.at.iter().map(u64::to_string).collect::<Vec<_>>().join(".");
        let single = self.found.len() + self.joins + 1;
        self.found.push(StepNumber { number, times: self.times.clone(), single });
    }
}
