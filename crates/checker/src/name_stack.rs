//! Names in scope, the innermost last; each is found at once, however many there are.

use rustc_hash::FxHashMap as HashMap;
use smol_str::SmolStr;

/// Names, each with what it stands for.
#[derive(Debug)]
pub(crate) struct NameStack<'a, T> {
    entries: Vec<(&'a SmolStr, T)>,
    /// By name, the numbers of its entries, in order.
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
        self.numbers.entry(name).or_default().push(self.entries.len());
        self.entries.push((name, value));
    }

    /// Forgets all but the first `length` names.
    pub(crate) fn truncate(&mut self, length: usize) {
        while self.entries.len() > length {
            let Some((name, _)) = self.entries.pop() else { return };
            if let Some(numbers) = self.numbers.get_mut(name.as_str()) {
                numbers.pop();
            }
        }
    }

    /// The names from this number on.
    pub(crate) fn from(&self, number: usize) -> &[(&'a SmolStr, T)] {
        self.entries.get(number..).unwrap_or_default()
    }

    /// What a name stands for that was given last, from this number on.
    pub(crate) fn last(&self, name: &str, from: usize) -> Option<&T> {
        let number = *self.numbers.get(name)?.last()?;
        (number >= from).then(|| &self.entries[number].1)
    }

    /// What it stands for that was given first.
    pub(crate) fn first(&self, name: &str) -> Option<&T> {
        let number = *self.numbers.get(name)?.first()?;
        Some(&self.entries[number].1)
    }
}

#[cfg(test)]
mod tests {
    use super::NameStack;
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
}
