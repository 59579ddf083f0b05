//! Edits of `strands`, as a person reads and makes them.

use super::plain_list::ItemEdit;
use super::strands::{PartEdit, lists};
use super::words::Written;
use crate::resolve::{Script, ThreadId};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expr, ListItem, ListShape, Strands};

/// Puts edits of a `strands` statement into words.
pub(super) struct ListWords<'s> {
    pub(super) script: &'s Script,
    pub(super) strands: &'s Strands,
}

fn at(offset: u32) -> Span {
    Span { start: offset, end: offset }
}

/// An item with its count.
fn whole(item: &ListItem) -> Span {
    match &item.count {
        Some(count) => count.span().to(item.thread.span),
        None => item.thread.span,
    }
}

impl<'s> ListWords<'s> {
    pub(super) fn of(&self, PartEdit { is_right, item }: PartEdit) -> Written {
        let lists = lists(self.strands);
        let items = lists.get(usize::from(is_right)).copied().unwrap_or_default();
        let (says, edits) = match item {
            ItemEdit::Count(index, count) => self.count(&items[index], count),
            ItemEdit::Split(index, thread) => {
                let (word, name) = (items[index].thread.text.as_str(), self.name(thread));
                let start = at(items[index].thread.span.start);
                (format!("put `{name}` before `{word}` in `strands`"), vec![(start, format!("{name} "))])
            }
            ItemEdit::LeftOut(index) => self.leave_out(items, index),
            ItemEdit::Swapped(index) => self.exchange(&items[index], &items[index + 1]),
            ItemEdit::Thread(index, thread) => {
                let (own, name) = (&items[index].thread, self.name(thread));
                let says = format!("write `{name}` instead of `{}` in `strands`", own.text);
                (says, vec![(own.span, name.to_owned())])
            }
            ItemEdit::PutIn(index, count, thread) => {
                let name = self.name(thread);
                let put = if count == 1 { name.to_owned() } else { format!("{count} {name}") };
                self.put_in(items, index, &put)
            }
            ItemEdit::Mirror | ItemEdit::HalfMirrored => self.mirror(items, item),
        };
        Written { says, edits }
    }

    fn name(&self, thread: ThreadId) -> &'s str {
        &self.script.head.threads[usize::from(thread)].name
    }

    fn text(&self, span: Span) -> &'s str {
        span.of(&self.script.source().text)
    }

    fn count(&self, item: &ListItem, count: u64) -> (String, Vec<(Span, String)>) {
        if let Some(Expr::Number(number)) = &item.count {
            let says = format!("write `{count}` instead of `{}` in `strands`", number.value);
            return (says, vec![(number.span, count.to_string())]);
        }
        let word = item.thread.text.as_str();
        let says = format!("write `{count} {word}` instead of `{word}` in `strands`");
        (says, vec![(at(whole(item).start), format!("{count} "))])
    }

    fn leave_out(&self, items: &[ListItem], index: usize) -> (String, Vec<(Span, String)>) {
        let span = whole(&items[index]);
        let cut = match index {
            0 => Span { start: span.start, end: items.get(1).map_or(span.end, |next| whole(next).start) },
            _ => Span { start: whole(&items[index - 1]).end, end: span.end },
        };
        (format!("leave out `{}` in `strands`", self.text(span)), vec![(cut, String::new())])
    }

    fn exchange(&self, item: &ListItem, next: &ListItem) -> (String, Vec<(Span, String)>) {
        let (span, next) = (whole(item), whole(next));
        let (one, other) = (self.text(span), self.text(next));
        let says = format!("write `{other} {one}` instead of `{one} {other}` in `strands`");
        (says, vec![(span, other.to_owned()), (next, one.to_owned())])
    }

    /// Before the item of that number, or behind the last one.
    fn put_in(&self, items: &[ListItem], index: usize, put: &str) -> (String, Vec<(Span, String)>) {
        match items.get(index).map(whole) {
            Some(next) => {
                let says = format!("put `{put}` before `{}` in `strands`", self.text(next));
                (says, vec![(at(next.start), format!("{put} "))])
            }
            None => {
                let last = whole(&items[items.len() - 1]);
                let says = format!("put `{put}` after `{}` in `strands`", self.text(last));
                (says, vec![(at(last.end), format!(" {put}"))])
            }
        }
    }

    /// `| mirror` is put in or left out. Of `2 kelp 2 foam`, each color may be to hang on both sides: `kelp foam | mirror`.
    fn mirror(&self, items: &[ListItem], edit: ItemEdit) -> (String, Vec<(Span, String)>) {
        let Strands::Across(list) = self.strands else { return (String::new(), Vec::new()) };
        if let (ListShape::Mirror(_), Some(last)) = (&list.shape, items.last()) {
            let cut = Span { start: last.thread.span.end, end: list.span.end };
            return ("leave out `| mirror`".to_owned(), vec![(cut, String::new())]);
        }
        let put_in = (at(list.span.end), " | mirror".to_owned());
        if matches!(edit, ItemEdit::Mirror) {
            return ("write `| mirror` at the end of `strands`".to_owned(), vec![put_in]);
        }
        let half = |item: &ListItem| match &item.count {
            Some(Expr::Number(number)) => {
                let count = Span { start: number.span.start, end: item.thread.span.start };
                let half = number.value / 2;
                Some((count, if half == 1 { String::new() } else { format!("{half} ") }))
            }
            _ => None,
        };
        let says = "count each thread for one half of `strands`, and write `| mirror` at the end".to_owned();
        (says, items.iter().filter_map(half).chain([put_in]).collect())
    }
}
