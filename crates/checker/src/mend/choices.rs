//! The edits that are left once the law of renaming was asked. In a wide band they are many, and only the first ones are looked
//! at: so each is written out when its turn comes.

use super::candidates::Candidate;
use super::edits::KeptEdit;
use super::insertions::Insertions;
use super::search::Goal;
use super::strands::StrandsEdit;
use super::trial::{Choice, SiftedChoice};
use knotwright_numbers::ToNumber;

/// Each has a number.
#[derive(Debug)]
pub(super) struct Choices {
    /// Edits of what is there.
    pub(super) kept: Vec<KeptEdit>,
    /// Steps put in.
    pub(super) added: Insertions,
    pub(super) hung: Vec<StrandsEdit>,
}

impl Choices {
    /// The numbers of all of them: what is put in comes after all other edits, and other strands come last; near ones first.
    pub(super) fn in_order(&self) -> Vec<u32> {
        let steps = self.kept.len() + self.added.len();
        let mut order: Vec<u32> = (0..steps.to_u32()).collect();
        order.sort_by_cached_key(|&number| {
            let candidate = self.candidate(number.to_usize());
            (candidate.is_added(), candidate.near())
        });
        order.extend((steps..steps + self.hung.len()).map(ToNumber::to_u32));
        order
    }

    /// Whether the set closes with it.
    pub(super) fn closes(&self, number: u32) -> bool {
        self.kept.get(number.to_usize()).is_none_or(|kept| kept.closes)
    }

    pub(super) fn get(&self, goal: &Goal, number: u32) -> SiftedChoice {
        let number = number.to_usize();
        if let Some(kept) = self.kept.get(number) {
            return SiftedChoice::edit(goal, kept.clone());
        }
        let number = number - self.kept.len();
        match number.checked_sub(self.added.len()) {
            None => SiftedChoice::edit(goal, self.added.edit(number)),
            Some(number) => SiftedChoice::unsure(Choice::Strands(self.hung[number].clone())),
        }
    }

    /// Of a step, added or not.
    fn candidate(&self, number: usize) -> Candidate {
        match number.checked_sub(self.kept.len()) {
            None => self.kept[number].candidate,
            Some(number) => self.added.candidate(number),
        }
    }
}
