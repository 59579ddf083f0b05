//! Facts as they are gathered: each place says a thing once, however often it is passed.

use crate::{Fact, FactKind, Place};
use rustc_hash::FxHashSet as HashSet;
use std::mem::{Discriminant, discriminant};

/// The most facts that are kept: nobody reads more.
const MOST_FACTS: usize = 1000;

/// Facts in the order they were found.
#[derive(Debug, Default)]
pub(crate) struct Facts {
    list: Vec<Fact>,
    seen: HashSet<(Place, Discriminant<FactKind>)>,
}

impl Facts {
    /// Keeps `fact`, unless its place said the same before.
    pub(crate) fn add(&mut self, fact: Fact) {
        let key = (fact.place, discriminant(&fact.kind));
        if !self.is_full() && self.seen.insert(key) {
            self.list.push(fact);
        }
    }

    /// Keeps a fact about the text itself, which no motif and no mirror led to.
    pub(crate) fn say(&mut self, place: Place, kind: FactKind) {
        self.add(Fact { place, through: Vec::new(), mirrored: false, kind });
    }

    /// Whether no more are kept; then nothing costly need be done for one.
    pub(crate) fn is_full(&self) -> bool {
        self.list.len() >= MOST_FACTS
    }

    pub(crate) fn list(&self) -> &[Fact] {
        &self.list
    }

    pub(crate) fn count(&self) -> usize {
        self.list.len()
    }

    /// All of them.
    pub(crate) fn into_list(self) -> Vec<Fact> {
        self.list
    }
}
