//! Places for things of which there are many, and few at a time: a place is used again.

use std::ops::{Index, IndexMut};

#[derive(Debug, Default)]
pub(super) struct Slots<T> {
    all: Vec<T>,
    free: Vec<usize>,
}

impl<T: Default> Slots<T> {
    pub(super) fn is_empty(&self) -> bool {
        self.all.len() == self.free.len()
    }

    pub(super) fn insert(&mut self, thing: T) -> usize {
        match self.free.pop() {
            Some(place) => {
                self.all[place] = thing;
                place
            }
            None => {
                self.all.push(thing);
                self.all.len() - 1
            }
        }
    }

    pub(super) fn remove(&mut self, place: usize) -> T {
        self.free.push(place);
        std::mem::take(&mut self.all[place])
    }
}

impl<T> Index<usize> for Slots<T> {
    type Output = T;

    fn index(&self, place: usize) -> &T {
        &self.all[place]
    }
}

impl<T> IndexMut<usize> for Slots<T> {
    fn index_mut(&mut self, place: usize) -> &mut T {
        &mut self.all[place]
    }
}
