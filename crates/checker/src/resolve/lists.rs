//! Lists of strands by color, spread out: `3 kelp | mirror` is six strands.

use knotwright_grammar::tree::{ListItem, ListShape};
use knotwright_numbers::ToNumber;

/// A list in parts, its counts computed: how many of which, from left to right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Spread<T> {
    Plain(Vec<(u64, T)>),
    Halves(Vec<(u64, T)>, Vec<(u64, T)>),
    Mirror(Vec<(u64, T)>),
    MirrorAround(Vec<(u64, T)>, (u64, T)),
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
pub(crate) fn is_uneven<T>(list: &Spread<T>) -> Option<(usize, usize)> {
    match list {
        Spread::Halves(left, right) => {
            let (left, right) = (count_of(left), count_of(right));
            (left != right).then_some((left.to_usize(), right.to_usize()))
        }
        _ => None,
    }
}

impl<T: Copy> Spread<T> {
    /// How many strands it lists; nothing is laid out for that.
    pub(crate) fn count(&self) -> u64 {
        match self {
            Self::Plain(all) => count_of(all),
            Self::Halves(left, right) => count_of(left).saturating_add(count_of(right)),
            Self::Mirror(half) => count_of(half).saturating_mul(2),
            Self::MirrorAround(half, middle) => count_of(half).saturating_mul(2).saturating_add(middle.0),
        }
    }

    /// Strand by strand. Only for lists whose [`count`](Self::count) is known to be small.
    pub(crate) fn strands(&self) -> Vec<T> {
        let mut strands = Vec::with_capacity(self.count().to_usize());
        match self {
            Self::Plain(all) => lay(&mut strands, all.iter()),
            Self::Halves(left, right) => {
                lay(&mut strands, left.iter());
                lay(&mut strands, right.iter());
            }
            Self::Mirror(half) => {
                lay(&mut strands, half.iter());
                lay(&mut strands, half.iter().rev());
            }
            Self::MirrorAround(half, middle) => {
                lay(&mut strands, half.iter());
                lay(&mut strands, std::iter::once(middle));
                lay(&mut strands, half.iter().rev());
            }
        }
        strands
    }
}

fn lay<'a, T: Copy + 'a>(strands: &mut Vec<T>, items: impl Iterator<Item = &'a (u64, T)>) {
    for &(count, thread) in items {
        strands.extend(std::iter::repeat_n(thread, count.to_usize()));
    }
}
