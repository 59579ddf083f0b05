//! Names in scope, the innermost last; each is found at once, however many there are.
//!
//! Mostly they are a few, which are soon looked through. Of more it is kept where each of them is.

use rustc_hash::FxHashMap as HashMap;
use smol_str::SmolStr;

/// Up to this many names are looked through.
const FEW: usize = 8;

/// Names, each with what it stands for.
#[derive(Debug)]
pub(crate) struct NameStack<'a, T> {
    entries: Vec<(&'a SmolStr, T)>,
    /// By name, the numbers of its entries, in order; nothing as long as there are few.
    numbers: HashMap<&'a str, Vec<usize>>,
}

impl<T> Default for NameStack<'_, T> {
    fn default() -> Self {
        Self { entries: Vec::new(), numbers: HashMap::default() }
    }
}

impl<'a, T> NameStack<'a, T> {
    pub(crate) fn len(&self) -> usize {
        self.entries.len()
    }

    pub(crate) fn push(&mut self, name: &'a SmolStr, value: T) {
        self.entries.push((name, value));
        let length = self.entries.len();
        if length > FEW {
            let first = if length == FEW + 1 { 0 } else { length - 1 };
            for (number, (name, _)) in self.entries.iter().enumerate().skip(first) {
                self.numbers.entry(name).or_default().push(number);
            }
        }
    }

    /// Forgets all but the first `length` names. At the end of most blocks there are no others.
    #[inline]
    pub(crate) fn truncate(&mut self, length: usize) {
        if length < self.entries.len() {
            self.forget(length);
        }
    }

    fn forget(&mut self, length: usize) {
        if length <= FEW {
            self.numbers.clear();
        } else {
            for (name, _) in self.entries.get(length..).unwrap_or_default() {
                self.numbers.get_mut(name.as_str()).and_then(Vec::pop);
            }
        }
        self.entries.truncate(length);
    }

    /// The names from this number on.
    pub(crate) fn from(&self, number: usize) -> &[(&'a SmolStr, T)] {
        self.entries.get(number..).unwrap_or_default()
    }

    /// What a name stands for that was given last, from this number on.
    pub(crate) fn last(&self, name: &str, from: usize) -> Option<&T> {
        let number = match self.entries.len() {
            0..=FEW => self.entries.iter().rposition(|entry| entry.0.as_str() == name)?,
            _ => *self.numbers.get(name)?.last()?,
        };
        (number >= from).then(|| &self.entries[number].1)
    }

    /// What it stands for that was given first.
    pub(crate) fn first(&self, name: &str) -> Option<&T> {
        let number = match self.entries.len() {
            0..=FEW => self.entries.iter().position(|entry| entry.0.as_str() == name)?,
            _ => *self.numbers.get(name)?.first()?,
        };
        Some(&self.entries[number].1)
    }
}

#[cfg(test)]
mod tests {
    use super::{FEW, NameStack};
    use smol_str::SmolStr;

    #[test]
    fn the_innermost_of_a_name_counts_until_it_is_forgotten() {
        let (kelp, foam) = (SmolStr::new("kelp"), SmolStr::new("foam"));
        let mut names = NameStack::default();
        names.push(&kelp, 1);
        names.push(&foam, 2);
        names.push(&kelp, 3);
        assert_eq!((names.last("kelp", 0), names.first("kelp")), (Some(&3), Some(&1)));
        assert_eq!((names.last("kelp", 2), names.last("foam", 2)), (Some(&3), None), "a motif knows its own");
        names.truncate(1);
        assert_eq!((names.last("kelp", 0), names.last("foam", 0), names.len()), (Some(&1), None, 1));
        names.truncate(0);
        assert_eq!(names.first("kelp"), None);
    }

    #[test]
    fn many_names_are_found_as_few_are() {
        let all: Vec<SmolStr> =
            (0..3 * FEW).map(|number| SmolStr::new(format!("kelp-{}", number % 5))).collect();
        let mut names = NameStack::default();
        let agrees = |names: &NameStack<usize>| {
            let given = &all[..names.len()];
            for (name, from) in all.iter().zip((0..names.len()).cycle()) {
                let last = given.iter().rposition(|given| given == name).filter(|&last| last >= from);
                assert_eq!(
                    (names.last(name, from), names.first(name)),
                    (last.as_ref(), given.iter().position(|given| given == name).as_ref())
                );
            }
        };
        // Up and down again, past the number from which on it is kept where they are.
        for length in (0..=all.len()).chain((0..all.len()).rev()).chain([FEW + 2, 3, all.len(), FEW, 0]) {
            names.truncate(length);
            (names.len()..length).for_each(|number| names.push(&all[number], number));
            agrees(&names);
        }
    }
}
