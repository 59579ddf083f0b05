//! The list of `strands`, edited without its text being read again: a search for mends tries some hundred edits of it.

use super::strands::list_of;
use crate::resolve::{Script, Spread, ThreadId};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{List, ListShape, Strands};

/// What an edit makes of the items of a list; the number is that of the item.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum ItemEdit {
    /// Another count.
    Count(usize, u64),
    /// Another thread.
    Thread(usize, ThreadId),
    /// Strands of a thread, this many, are put in before it.
    PutIn(usize, u64, ThreadId),
    /// Its count is that of another thread, which is put in between.
    Split(usize, ThreadId),
    LeftOut(usize),
    /// It and the next one change places.
    Swapped(usize),
    /// `| mirror` is put in or left out.
    Mirror,
    /// All counts are halved, and `| mirror` is put in.
    HalfMirrored,
}

/// A list in one line: whatever is written between its items stays right when items come and go.
#[derive(Debug)]
pub(super) struct PlainList(Spread<ThreadId>);

impl PlainList {
    /// `None` if it has more lines, is listed from both edges, or has one strand alone in the middle.
    pub(super) fn of(script: &Script, span: Span, strands: &Strands) -> Option<Self> {
        let Strands::Across(List { shape, .. }) = strands else { return None };
        let is_plain = !span.of(&script.source().text).contains(['\n', '\r']);
        let is_around = matches!(shape, ListShape::MirrorAround(..));
        list_of(script, strands).filter(|_| is_plain && !is_around).map(Self)
    }

    /// With an edit, of the right half if there is one and `is_right`; `None` if nothing is left there.
    pub(super) fn edited(&self, is_right: bool, edit: ItemEdit) -> Option<Spread<ThreadId>> {
        let mut edited = match (&self.0, edit) {
            (Spread::Plain(all), ItemEdit::Mirror) => return Some(Spread::Mirror(all.clone())),
            (Spread::Mirror(half), ItemEdit::Mirror) => return Some(Spread::Plain(half.clone())),
            (Spread::Plain(all), ItemEdit::HalfMirrored) => {
                return Some(Spread::Mirror(
                    all.iter().map(|&(count, thread)| (count / 2, thread)).collect(),
                ));
            }
            (list, _) => list.clone(),
        };
        let items = match &mut edited {
            Spread::Plain(items) | Spread::Mirror(items) => items,
            Spread::Halves(_, right) if is_right => right,
            Spread::Halves(left, _) | Spread::MirrorAround(left, _) => left,
        };
        edit.apply(items);
        (!items.is_empty()).then_some(edited)
    }
}

impl ItemEdit {
    fn apply(self, items: &mut Vec<(u64, ThreadId)>) {
        match self {
            Self::Count(index, count) => items[index].0 = count,
            Self::Thread(index, thread) => items[index].1 = thread,
            Self::PutIn(index, count, thread) => items.insert(index, (count, thread)),
            Self::Split(index, thread) => {
                let count = std::mem::replace(&mut items[index].0, 1);
                items.insert(index, (count, thread));
            }
            Self::LeftOut(index) => drop(items.remove(index)),
            Self::Swapped(index) => items.swap(index, index + 1),
            Self::Mirror | Self::HalfMirrored => {}
        }
    }
}
