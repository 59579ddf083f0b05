//! Lists of strands by color, spread out: `3 kelp | mirror` is six strands.

use knotwright_grammar::tree::{ListItem, ListShape};
use knotwright_numbers::ToNumber;

/// A list in parts, its counts computed: how many of which, from left to right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Spread<T, L = Vec<(u64, T)>> {
    Plain(L),
    Halves(L, L),
    Mirror(L),
    MirrorAround(L, (u64, T)),
}

/// Computes every item of a list.
pub(crate) fn spread_list<T, E>(
    shape: &ListShape,
    mut item: impl FnMut(&ListItem) -> Result<(u64, T), E>,
) -> Result<Spread<T>, E> {
    let mut items = |list: &[ListItem]| list.iter().map(&mut item).collect::<Result<Vec<_>, E>>();
    Ok(match shape {
        ListShape::Plain(all) => Spread::Plain(items(all)?),
        ListShape::Halves(left, right) => Spread::Halves(items(left)?, items(right)?),
        ListShape::Mirror(half) => Spread::Mirror(items(half)?),
        ListShape::MirrorAround(half, middle) => {
            let half = items(half)?;
            let middle = items(std::slice::from_ref(middle))?.pop();
            match middle {
                Some(middle) => Spread::MirrorAround(half, middle),
                None => Spread::Mirror(half),
            }
        }
    })
}

/// How many strands are in `items`.
pub(crate) fn count_of<T>(items: &[(u64, T)]) -> u64 {
    items.iter().fold(0, |sum, (count, _)| sum.saturating_add(*count))
}

/// The halves at a `|`, if they differ in number.
pub(crate) fn is_uneven<T, L: AsRef<[(u64, T)]>>(list: &Spread<T, L>) -> Option<(usize, usize)> {
    match list {
        Spread::Halves(left, right) => {
            let (left, right) = (count_of(left.as_ref()), count_of(right.as_ref()));
            (left != right).then_some((left.to_usize(), right.to_usize()))
        }
        _ => None,
    }
}

impl<T: Copy> Spread<T> {
    /// Strand by strand. Only for lists whose [`count`](Spread::count) is known to be small.
    pub(crate) fn strands(&self) -> Vec<T> {
        let mut strands = Vec::with_capacity(self.count().to_usize());
        self.lay(&mut strands);
        strands
    }

    /// The list without its items being copied.
    pub(crate) fn as_slices(&self) -> Spread<T, &[(u64, T)]> {
        match self {
            Self::Plain(all) => Spread::Plain(all),
            Self::Halves(left, right) => Spread::Halves(left, right),
            Self::Mirror(half) => Spread::Mirror(half),
            Self::MirrorAround(half, middle) => Spread::MirrorAround(half, *middle),
        }
    }
}

impl<T: Copy, L: AsRef<[(u64, T)]>> Spread<T, L> {
    /// How many strands it lists; nothing is laid out for that.
    pub(crate) fn count(&self) -> u64 {
        let count = |items: &L| count_of(items.as_ref());
        match self {
            Self::Plain(all) => count(all),
            Self::Halves(left, right) => count(left).saturating_add(count(right)),
            Self::Mirror(half) => count(half).saturating_mul(2),
            Self::MirrorAround(half, middle) => count(half).saturating_mul(2).saturating_add(middle.0),
        }
    }

    /// Adds them, strand by strand.
    pub(crate) fn lay(&self, strands: &mut Vec<T>) {
        let mut lay = |&(count, thread): &(u64, T)| (0..count).for_each(|_| strands.push(thread));
        match self {
            Self::Plain(all) => all.as_ref().iter().for_each(lay),
            Self::Halves(left, right) => left.as_ref().iter().chain(right.as_ref()).for_each(lay),
            Self::Mirror(half) => half.as_ref().iter().chain(half.as_ref().iter().rev()).for_each(lay),
            Self::MirrorAround(half, middle) => {
                half.as_ref().iter().for_each(&mut lay);
                lay(middle);
                half.as_ref().iter().rev().for_each(lay);
            }
        }
    }
}
