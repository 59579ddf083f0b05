//! The list of `strands`, edited without its text being read again: a search for mends tries some hundred edits of it.

use super::strands::list_of;
use super::structure::is_line;
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
pub(super) struct PlainList {
    list: Spread<ThreadId>,
    /// Those items among which something was edited last: they are edited one way after the other.
    edited: Vec<(u64, ThreadId)>,
}

impl PlainList {
    /// `None` if it has more lines, is listed from both edges, or has one strand alone in the middle.
    pub(super) fn of(script: &Script, span: Span, strands: &Strands) -> Option<Self> {
        let Strands::Across(List { shape, .. }) = strands else { return None };
        let is_plain = is_line(span.of(&script.source().text));
        let is_around = matches!(shape, ListShape::MirrorAround(..));
        let list = list_of(script, strands).filter(|_| is_plain && !is_around)?;
        Some(Self { list, edited: Vec::new() })
    }

    /// With an edit, of the right half if there is one and `is_right`.
    pub(super) fn edited(&mut self, is_right: bool, edit: ItemEdit) -> Spread<ThreadId, &[(u64, ThreadId)]> {
        let Self { list, edited } = self;
        let items = match list {
            Spread::Halves(_, right) if is_right => right,
            Spread::Plain(items) | Spread::Mirror(items) => items,
            Spread::Halves(left, _) | Spread::MirrorAround(left, _) => left,
        };
        edited.clone_from(items);
        edit.apply(edited);
        match (&*list, edit) {
            (Spread::Plain(_), ItemEdit::Mirror | ItemEdit::HalfMirrored) => Spread::Mirror(edited),
            (Spread::Plain(_), _) | (Spread::Mirror(_), ItemEdit::Mirror) => Spread::Plain(edited),
            (Spread::Mirror(_), _) => Spread::Mirror(edited),
            (Spread::Halves(left, _), _) if is_right => Spread::Halves(left, edited),
            (Spread::Halves(_, right), _) => Spread::Halves(edited, right),
            (Spread::MirrorAround(_, middle), _) => Spread::MirrorAround(edited, *middle),
        }
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
            Self::HalfMirrored => items.iter_mut().for_each(|item| item.0 /= 2),
            Self::Mirror => {}
        }
    }
}
