//! Steps that may be put in. In a wide band they are many, and only the first ones are looked at: so each is written out when its
//! turn comes.

use super::candidates::Candidate;
use super::edits::KeptEdit;
use super::insertions::Insertions;
use knotwright_numbers::ToNumber;

/// Each has a number.
#[derive(Debug)]
pub(super) struct AddedSteps {
    /// Of what stands there already.
    pub(super) copies: Vec<KeptEdit>,
    pub(super) runs: Insertions,
}

impl AddedSteps {
    /// All of them, near ones first.
    pub(super) fn in_turn(&self) -> impl Iterator<Item = KeptEdit> {
        let mut order: Vec<u32> = (0..(self.copies.len() + self.runs.len()).to_u32()).collect();
        order.sort_by_cached_key(|&number| self.candidate(number.to_usize()).near());
        order.into_iter().map(|number| self.edit(number.to_usize()))
    }

    fn edit(&self, number: usize) -> KeptEdit {
        match number.checked_sub(self.copies.len()) {
            None => self.copies[number].clone(),
            Some(number) => self.runs.edit(number),
        }
    }

    fn candidate(&self, number: usize) -> Candidate {
        match number.checked_sub(self.copies.len()) {
            None => self.copies[number].candidate,
            Some(number) => self.runs.candidate(number),
        }
    }
}
