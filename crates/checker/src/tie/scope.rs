//! What names stand for while a block is tied: numbers, threads, labeled strands.

use crate::Place;
use crate::name_stack::NameStack;
use smol_str::SmolStr;

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Value {
    Number(i64),
    Thread(crate::resolve::ThreadId),
    /// A strand that was taken in hand.
    Strand(u8),
    /// A parameter whose argument could not be computed; the reason has been reported.
    Nothing,
}

/// What a name stands for, and the argument that gave it, for a parameter.
type Given = (Value, Option<Place>);

/// The names, the innermost last.
#[derive(Debug, Default)]
pub(super) struct Scope<'a> {
    entries: NameStack<'a, Given>,
    /// Where the names of the present motif begin.
    floor: usize,
}

/// A point to fall back to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mark {
    length: usize,
    floor: usize,
}

impl Mark {
    /// How many names there were.
    pub(super) fn length(self) -> usize {
        self.length
    }
}

impl<'a> Scope<'a> {
    pub(super) fn mark(&self) -> Mark {
        Mark { length: self.entries.len(), floor: self.floor }
    }

    /// Forgets all names given since `mark`.
    pub(super) fn back(&mut self, mark: Mark) {
        self.entries.truncate(mark.length);
        self.floor = mark.floor;
    }

    /// Hides all names up to `length`: a motif knows its own only.
    pub(super) fn close(&mut self, length: usize) {
        self.floor = length;
    }

    pub(super) fn give(&mut self, name: &'a SmolStr, value: Value, given: Option<Place>) {
        self.entries.push(name, (value, given));
    }

    /// The names that are known now, the innermost last.
    pub(super) fn names(&self) -> impl Iterator<Item = (&'a SmolStr, Value)> {
        self.entries.from(self.floor).iter().map(|(name, (value, _))| (*name, *value))
    }

    /// How many names are known now.
    pub(super) fn known(&self) -> usize {
        self.entries.len() - self.floor
    }

    /// What `name` stands for, and the argument it got that from.
    pub(super) fn find(&self, name: &SmolStr) -> Option<(Value, Option<Place>)> {
        self.entries.last(name, self.floor).copied()
    }
}
