//! Edits of `strands`: one left out, put in, exchanged with its neighbor, of another thread; the mirror forgotten.

use super::plain_list::{ItemEdit, PlainList};
use super::strands_words::ListWords;
use super::words::Written;
use crate::resolve::{Script, Spread, ThreadId, is_uneven, spread_list};
use crate::{PatternThread, Source, StartForm};
use knotwright_grammar::tree::{Expr, List, ListItem, ListShape, Statement, Strands};
use knotwright_grammar::{Span, apply_edits};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashSet as HashSet;

/// `strands` written otherwise.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StrandsEdit {
    /// By position, which thread hangs there then.
    pub(super) threads: Vec<ThreadId>,
    pub(super) size: u8,
    /// The byte where the statement starts.
    statement: u32,
    of: PartEdit,
}

/// An edit of one list of a `strands` statement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PartEdit {
    /// Whether it is the right half, or what is listed from the right.
    pub(super) is_right: bool,
    pub(super) item: ItemEdit,
}

impl StrandsEdit {
    /// There are hundreds of edits, and few are offered: so only then it is put into words.
    pub(super) fn written(&self, script: &Script) -> Written {
        let statement = script.source().parsed.tree.statement_at(self.statement);
        let strands = statement.and_then(|statement| statement.get::<Strands>());
        strands.map_or_else(Written::default, |strands| ListWords { script, strands }.of(self.of))
    }
}

/// Strands that would be listed at once are no slip.
const MOST_ITEMS: usize = 100;

/// Which lists are wanted. Most are not: so that is asked before anything is kept of them.
pub(super) trait ListSieve {
    /// Of as many strands.
    fn may_fit(&mut self, width: usize) -> bool;

    /// Of strands of these threads, by position.
    fn may_hang(&mut self, threads: &[ThreadId]) -> bool;
}

/// All are wanted.
struct Any;

impl ListSieve for Any {
    fn may_fit(&mut self, _: usize) -> bool {
        true
    }

    fn may_hang(&mut self, _: &[ThreadId]) -> bool {
        true
    }
}

/// All such edits, each list once.
pub(super) fn list_hangings(script: &Script) -> Vec<StrandsEdit> {
    list_fitting(script, &mut Any)
}

/// Those that are wanted.
pub(super) fn list_fitting(script: &Script, sieve: &mut dyn ListSieve) -> Vec<StrandsEdit> {
    let mut lister = Lister::new(script, sieve);
    for statement in &script.source().parsed.tree.statements {
        if let Some(strands) = statement.get::<Strands>() {
            lister.plain = PlainList::of(script, statement.span, strands);
            lister.all(statement, strands);
        }
    }
    if let StartForm::Folded(pairs) | StartForm::Loop(_, pairs) = &script.head.start {
        lister.found.retain(|hung| agree(pairs, &hung.threads));
    }
    lister.found
}

/// Whether strands that are one thread in pairs like these are of one color.
fn agree(pairs: &[(u8, u8)], threads: &[ThreadId]) -> bool {
    let side_by_side = pairs.first().is_some_and(|pair| pair.1 == pair.0 + 1 && pairs.len() > 1);
    let mirrored = threads.iter().eq(threads.iter().rev());
    threads.len().is_multiple_of(2)
        && if side_by_side { threads.chunks(2).all(|two| two[0] == two[1]) } else { mirrored }
}

/// The lists of a statement: the whole, or its left half and its right one.
pub(super) fn lists(strands: &Strands) -> Vec<&[ListItem]> {
    match strands {
        Strands::Across(list) => match &list.shape {
            ListShape::Plain(all) | ListShape::Mirror(all) => vec![all],
            ListShape::Halves(left, right) => vec![left, right],
            ListShape::MirrorAround(half, middle) => vec![half, std::slice::from_ref(middle)],
        },
        Strands::FromEdges { left, right } => vec![left, right],
    }
}

struct Lister<'s> {
    script: &'s Script,
    /// The list as it is read, if it can be edited without being read again.
    plain: Option<PlainList>,
    sieve: &'s mut dyn ListSieve,
    /// Which threads hang where with the edit that is looked at.
    threads: Vec<ThreadId>,
    found: Vec<StrandsEdit>,
    /// Which threads hang where with those that were found, and as it is.
    seen: HashSet<Vec<ThreadId>>,
}

/// A list whose edits are listed.
#[derive(Clone, Copy)]
struct Listed<'s> {
    statement: &'s Statement,
    strands: &'s Strands,
    items: &'s [ListItem],
    is_right: bool,
}

impl<'s> Lister<'s> {
    fn new(script: &'s Script, sieve: &'s mut dyn ListSieve) -> Self {
        let seen = script.head.strands.iter().cloned().collect();
        Self { script, plain: None, sieve, threads: Vec::new(), found: Vec::new(), seen }
    }

    fn all(&mut self, statement: &Statement, strands: &Strands) {
        let lists = lists(strands);
        if lists.iter().map(|list| list.len()).sum::<usize>() > MOST_ITEMS {
            return;
        }
        for (number, items) in lists.into_iter().enumerate() {
            self.list(Listed { statement, strands, items, is_right: number > 0 });
        }
        if let Strands::Across(list) = strands {
            self.mirror(&list.shape, Listed { statement, strands, items: &[], is_right: false });
        }
    }

    fn mirror(&mut self, shape: &ListShape, list: Listed) {
        match shape {
            ListShape::Plain(items) => {
                self.add(list, ItemEdit::Mirror, 2);
                let is_even = |item: &ListItem| match &item.count {
                    Some(Expr::Number(number)) => number.value.is_multiple_of(2),
                    _ => false,
                };
                if items.iter().all(is_even) {
                    self.add(list, ItemEdit::HalfMirrored, 2);
                }
            }
            ListShape::Mirror(_) => self.add(list, ItemEdit::Mirror, 3),
            _ => {}
        }
    }

    fn list(&mut self, list: Listed) {
        for index in 0..list.items.len() {
            self.count(list, index);
            if index + 1 < list.items.len() {
                self.add(list, ItemEdit::Swapped(index), 2);
            }
            self.rename(list, index);
            self.put_in(list, index);
        }
    }

    /// Those of the file.
    fn threads(&self) -> impl Iterator<Item = ThreadId> + use<> {
        0..self.script.head.threads.len().to_u16()
    }

    /// Those that are not the one of an item.
    fn others(&self, item: &ListItem) -> impl Iterator<Item = ThreadId> + use<> {
        let is_own = |own: &PatternThread| own.name == item.thread.text;
        let own = self.script.head.threads.iter().position(is_own);
        self.threads().filter(move |&thread| Some(usize::from(thread)) != own)
    }

    /// Another number of an item; one without a number is left out.
    fn count(&mut self, list: Listed, index: usize) {
        let item = &list.items[index];
        let Some(Expr::Number(number)) = &item.count else {
            return self.add(list, ItemEdit::LeftOut(index), 2);
        };
        for by in 1..=2_u8 {
            let (less, more) =
                (number.value.saturating_sub(by.into()), number.value.saturating_add(by.into()));
            for read in [less, more].into_iter().filter(|&read| read > 0) {
                self.add(list, ItemEdit::Count(index, read.into()), by);
            }
        }
        // The name of a thread that was lost after its number.
        for thread in self.others(item) {
            self.add(list, ItemEdit::Split(index, thread), 2);
        }
    }

    /// Another thread, or several of the same.
    fn rename(&mut self, list: Listed, index: usize) {
        let item = &list.items[index];
        for thread in self.others(item) {
            self.add(list, ItemEdit::Thread(index, thread), 2);
        }
        if item.count.is_none() {
            for count in 2..=4 {
                self.add(list, ItemEdit::Count(index, count), 2);
            }
        }
    }

    fn put_in(&mut self, list: Listed, index: usize) {
        for thread in self.threads() {
            self.add(list, ItemEdit::PutIn(index, 1, thread), 2);
            if index + 1 == list.items.len() {
                self.add(list, ItemEdit::PutIn(index + 1, 1, thread), 2);
            }
        }
        let hung = self.script.head.strands.as_deref().unwrap_or_default();
        for thread in self.threads().filter(|thread| !hung.contains(thread)) {
            for count in 2..=4 {
                self.add(list, ItemEdit::PutIn(index, count, thread), 2);
            }
        }
    }

    /// Keeps an edit, if strands can be listed so, and are not yet.
    fn add(&mut self, Listed { statement, strands, is_right, .. }: Listed, item: ItemEdit, size: u8) {
        let of = PartEdit { is_right, item };
        let read;
        let edited = match &mut self.plain {
            Some(plain) => plain.edited(is_right, item),
            None => {
                read = self.read_again(statement, strands, of);
                let Some(read) = &read else { return };
                read.as_slices()
            }
        };
        let most = knotwright_band::MOST_STRANDS.to_u64();
        let width = Some(edited.count()).filter(|count| (2..=most).contains(count));
        let width = width.filter(|_| is_uneven(&edited).is_none()).map(|count| count.to_usize());
        if !width.is_some_and(|width| self.sieve.may_fit(width)) {
            return;
        }
        self.threads.clear();
        edited.lay(&mut self.threads);
        let threads = &self.threads;
        if self.sieve.may_hang(threads) && !self.seen.contains(threads) {
            self.seen.insert(threads.clone());
            self.found.push(StrandsEdit {
                threads: threads.clone(),
                size,
                statement: statement.span.start,
                of,
            });
        }
    }

    /// The list that a `strands` statement has after an edit.
    fn read_again(&self, statement: &Statement, strands: &Strands, of: PartEdit) -> Option<Spread<ThreadId>> {
        let text = statement.span.of(&self.script.source().text);
        let edits = ListWords { script: self.script, strands }.of(of).edits;
        let from = statement.span.start;
        let own = |span: &Span| Span { start: span.start - from, end: span.end - from };
        let moved = edits.iter().map(|(span, new)| (own(span), new.as_str()));
        let alone = Source::new("strands", apply_edits(text, moved)?);
        if !alone.parsed.problems.is_empty() {
            return None;
        }
        let strands = alone.parsed.tree.statements.first()?.get::<Strands>()?;
        list_of(self.script, strands)
    }
}

/// What a `strands` statement lists; `None` if a count is no plain number, or a thread is unknown.
pub(super) fn list_of(script: &Script, strands: &Strands) -> Option<Spread<ThreadId>> {
    match strands {
        Strands::Across(list) => spread_of(script, list),
        Strands::FromEdges { left, right } => Some(Spread::Halves(
            left.iter().map(|item| strands_of(script, item)).collect::<Option<_>>()?,
            right.iter().rev().map(|item| strands_of(script, item)).collect::<Option<_>>()?,
        )),
    }
}

/// The same of a list.
pub(super) fn spread_of(script: &Script, list: &List) -> Option<Spread<ThreadId>> {
    spread_list(&list.shape, |item| strands_of(script, item).ok_or(())).ok()
}

fn strands_of(script: &Script, item: &ListItem) -> Option<(u64, ThreadId)> {
    let thread = script.thread(crate::FileId::CHECKED, &item.thread.text)?;
    match &item.count {
        None => Some((1, thread)),
        Some(Expr::Number(number)) if number.value > 0 => Some((u64::from(number.value), thread)),
        Some(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{set, tied};

    #[test]
    fn a_list_edited_as_it_is_read_is_the_edited_text_read_again() {
        let lists = [
            "4 a",
            "a b | mirror",
            "2 a b | b 2 c",
            "a",
            "3 a 2 b c a",
            "a 2 b c | mirror",
            "a b | c d",
            "a, 2 b, c | mirror",
            "a, b c,2 d",
            "2 a 4 b, 2 c",
        ];
        for list in lists {
            let script = tied(&set(list, "take left 1: forward 1")).script;
            let by_list = list_hangings(&script);
            let mut any = Any;
            let mut lister = Lister::new(&script, &mut any);
            for statement in &script.source().parsed.tree.statements {
                if let Some(strands) = statement.get::<Strands>() {
                    assert!(PlainList::of(&script, statement.span, strands).is_some(), "{list}");
                    lister.all(statement, strands);
                }
            }
            assert!(by_list.len() > 20, "{list}: {}", by_list.len());
            assert_eq!(by_list, lister.found, "{list}");
        }
    }
}
