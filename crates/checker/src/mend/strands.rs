//! Edits of `strands`: one left out, put in, exchanged with its neighbor, of another thread; the mirror forgotten.

use super::plain_list::{ItemEdit, PlainList};
use super::words::Written;
use crate::resolve::{Script, Spread, ThreadId, is_uneven, spread_list};
use crate::{Source, StartForm};
use knotwright_grammar::tree::{Expr, ListItem, ListShape, Strands};
use knotwright_grammar::{Span, apply_edits};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashSet as HashSet;

/// `strands` written otherwise.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StrandsEdit {
    /// By position, which thread hangs there then.
    pub(super) threads: Vec<ThreadId>,
    pub(super) says: String,
    pub(super) edits: Vec<(Span, String)>,
    pub(super) size: u8,
}

impl StrandsEdit {
    pub(super) fn written(&self) -> Written {
        Written { says: self.says.clone(), edits: self.edits.clone() }
    }
}

/// Strands that would be listed at once are no slip.
const MOST_ITEMS: usize = 100;

/// All such edits, each list once.
pub(super) fn list_hangings(script: &Script) -> Vec<StrandsEdit> {
    let source = script.source();
    let mut lister = Lister::new(script);
    for statement in &source.parsed.tree.statements {
        if let Some(strands) = statement.get::<Strands>() {
            lister.span = statement.span;
            lister.plain = PlainList::of(script, statement.span, strands);
            lister.all(strands);
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

struct Lister<'s> {
    script: &'s Script,
    span: Span,
    /// The list as it is read, if it can be edited without being read again.
    plain: Option<PlainList>,
    /// Whether the right half is edited, or what is listed from the right.
    is_right: bool,
    found: Vec<StrandsEdit>,
    /// Which threads hang where with those that were found, and as it is.
    seen: HashSet<Vec<ThreadId>>,
}

/// An edit of the text, and what it makes of a list.
struct ListEdit {
    says: String,
    edits: Vec<(Span, String)>,
    size: u8,
    of_item: ItemEdit,
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

impl<'s> Lister<'s> {
    fn new(script: &'s Script) -> Self {
        let seen = script.head.strands.iter().cloned().collect();
        Self { script, span: Span::default(), plain: None, is_right: false, found: Vec::new(), seen }
    }

    fn all(&mut self, strands: &Strands) {
        let lists: Vec<&[ListItem]> = match strands {
            Strands::Across(list) => match &list.shape {
                ListShape::Plain(all) | ListShape::Mirror(all) => vec![all],
                ListShape::Halves(left, right) => vec![left, right],
                ListShape::MirrorAround(half, middle) => vec![half, std::slice::from_ref(middle)],
            },
            Strands::FromEdges { left, right } => vec![left, right],
        };
        if lists.iter().map(|list| list.len()).sum::<usize>() > MOST_ITEMS {
            return;
        }
        for (number, list) in lists.into_iter().enumerate() {
            self.is_right = number > 0;
            self.list(list);
        }
        if let Strands::Across(list) = strands {
            self.mirror(&list.shape, list.span);
        }
    }

    fn mirror(&mut self, shape: &ListShape, span: Span) {
        let of_item = ItemEdit::Mirror;
        match shape {
            ListShape::Plain(items) => {
                let says = "write `| mirror` at the end of `strands`".to_owned();
                let edits = vec![(at(span.end), " | mirror".to_owned())];
                self.add(ListEdit { says, edits, size: 2, of_item });
                self.half_mirrored(items, span);
            }
            ListShape::Mirror(half) => {
                let Some(last) = half.last() else { return };
                let cut = Span { start: last.thread.span.end, end: span.end };
                let says = "leave out `| mirror`".to_owned();
                self.add(ListEdit { says, edits: vec![(cut, String::new())], size: 3, of_item });
            }
            _ => {}
        }
    }

    /// `2 kelp 2 foam`, where each color is to hang on both sides: `kelp foam | mirror`.
    fn half_mirrored(&mut self, items: &[ListItem], span: Span) {
        let half = |item: &ListItem| match &item.count {
            Some(Expr::Number(number)) if number.value.is_multiple_of(2) => {
                let count = Span { start: number.span.start, end: item.thread.span.start };
                let half = number.value / 2;
                Some((count, if half == 1 { String::new() } else { format!("{half} ") }))
            }
            _ => None,
        };
        let Some(mut edits) = items.iter().map(half).collect::<Option<Vec<_>>>() else { return };
        edits.push((at(span.end), " | mirror".to_owned()));
        let says = "count each thread for one half of `strands`, and write `| mirror` at the end".to_owned();
        self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::HalfMirrored });
    }

    /// By thread, its name, and whether it hangs nowhere.
    fn names(&self) -> Vec<(ThreadId, &'s str, bool)> {
        let hung = self.script.head.strands.as_deref().unwrap_or_default();
        let threads = (0..).zip(&self.script.head.threads);
        threads.map(|(thread, own)| (thread, own.name.as_str(), !hung.contains(&thread))).collect()
    }

    fn list(&mut self, items: &[ListItem]) {
        let names = self.names();
        for index in 0..items.len() {
            self.count(items, index, &names);
            self.exchange(items, index);
            self.rename(items, index, &names);
            self.put_in(items, index, &names);
        }
    }

    fn text(&self, span: Span) -> &'s str {
        span.of(&self.script.source().text)
    }

    /// Another number of an item; one without a number is left out.
    fn count(&mut self, items: &[ListItem], index: usize, names: &[(ThreadId, &str, bool)]) {
        let item = &items[index];
        let word = item.thread.text.as_str();
        let Some(Expr::Number(number)) = &item.count else { return self.leave_out(items, index) };
        for by in 1..=2_u8 {
            let (less, more) =
                (number.value.saturating_sub(by.into()), number.value.saturating_add(by.into()));
            for read in [less, more].into_iter().filter(|&read| read > 0) {
                let says = format!("write `{read}` instead of `{}` in `strands`", number.value);
                let edits = vec![(number.span, read.to_string())];
                self.add(ListEdit { says, edits, size: by, of_item: ItemEdit::Count(index, read.into()) });
            }
        }
        // The name of a thread that was lost after its number.
        for &(thread, name, _) in names.iter().filter(|name| name.1 != word) {
            let says = format!("put `{name}` before `{word}` in `strands`");
            let edits = vec![(at(item.thread.span.start), format!("{name} "))];
            self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::Split(index, thread) });
        }
    }

    fn leave_out(&mut self, items: &[ListItem], index: usize) {
        let span = whole(&items[index]);
        let cut = match index {
            0 => Span { start: span.start, end: items.get(1).map_or(span.end, |next| whole(next).start) },
            _ => Span { start: whole(&items[index - 1]).end, end: span.end },
        };
        let says = format!("leave out `{}` in `strands`", self.text(span));
        let edits = vec![(cut, String::new())];
        self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::LeftOut(index) });
    }

    fn exchange(&mut self, items: &[ListItem], index: usize) {
        let Some(next) = items.get(index + 1).map(whole) else { return };
        let span = whole(&items[index]);
        let (one, other) = (self.text(span), self.text(next));
        let says = format!("write `{other} {one}` instead of `{one} {other}` in `strands`");
        let edits = vec![(span, other.to_owned()), (next, one.to_owned())];
        self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::Swapped(index) });
    }

    /// Another thread, or several of the same.
    fn rename(&mut self, items: &[ListItem], index: usize, names: &[(ThreadId, &str, bool)]) {
        let item = &items[index];
        let word = item.thread.text.as_str();
        for &(thread, name, _) in names.iter().filter(|name| name.1 != word) {
            let says = format!("write `{name}` instead of `{word}` in `strands`");
            let edits = vec![(item.thread.span, name.to_owned())];
            self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::Thread(index, thread) });
        }
        if item.count.is_none() {
            for count in 2..=4 {
                let says = format!("write `{count} {word}` instead of `{word}` in `strands`");
                let edits = vec![(at(whole(item).start), format!("{count} "))];
                self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::Count(index, count) });
            }
        }
    }

    fn put_in(&mut self, items: &[ListItem], index: usize, names: &[(ThreadId, &str, bool)]) {
        let span = whole(&items[index]);
        let text = self.text(span);
        for &(thread, name, _) in names {
            let says = format!("put `{name}` before `{text}` in `strands`");
            let edits = vec![(at(span.start), format!("{name} "))];
            self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::PutIn(index, 1, thread) });
            if index + 1 == items.len() {
                let says = format!("put `{name}` after `{text}` in `strands`");
                let edits = vec![(at(span.end), format!(" {name}"))];
                self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::PutIn(index + 1, 1, thread) });
            }
        }
        let unhung =
            names.iter().filter(|name| name.2).flat_map(|name| (2..=4).map(move |count| (name, count)));
        for (&(thread, name, _), count) in unhung {
            let says = format!("put `{count} {name}` before `{text}` in `strands`");
            let edits = vec![(at(span.start), format!("{count} {name} "))];
            self.add(ListEdit { says, edits, size: 2, of_item: ItemEdit::PutIn(index, count, thread) });
        }
    }

    /// Keeps an edit, if strands can be listed so, and are not yet.
    fn add(&mut self, ListEdit { says, edits, size, of_item }: ListEdit) {
        let list = match &self.plain {
            Some(plain) => plain.edited(self.is_right, of_item),
            None => self.read_again(&edits),
        };
        let count = |list: &Spread<ThreadId>| list.count();
        let most = knotwright_band::MOST_STRANDS.to_u64();
        let is_fit = |list: &Spread<ThreadId>| is_uneven(list).is_none() && (2..=most).contains(&count(list));
        let Some(list) = list.filter(is_fit) else { return };
        let threads = list.strands();
        if self.seen.insert(threads.clone()) {
            self.found.push(StrandsEdit { threads, says, edits, size });
        }
    }

    /// The list that a `strands` statement has after some edits.
    fn read_again(&self, edits: &[(Span, String)]) -> Option<Spread<ThreadId>> {
        let from = self.span.start;
        let own = |span: &Span| Span { start: span.start - from, end: span.end - from };
        let moved = edits.iter().map(|(span, new)| (own(span), new.as_str()));
        let alone = Source::new("strands", apply_edits(self.text(self.span), moved)?);
        if !alone.parsed.problems.is_empty() {
            return None;
        }
        let strands = alone.parsed.tree.statements.first()?.get::<Strands>()?;
        list_of(self.script, strands)
    }
}

/// What a `strands` statement lists; `None` if a count is no plain number, or a thread is unknown.
pub(super) fn list_of(script: &Script, strands: &Strands) -> Option<Spread<ThreadId>> {
    let item = |item: &ListItem| -> Result<(u64, ThreadId), ()> {
        let thread = script.thread(crate::FileId::CHECKED, &item.thread.text).ok_or(())?;
        match &item.count {
            None => Ok((1, thread)),
            Some(Expr::Number(number)) if number.value > 0 => Ok((u64::from(number.value), thread)),
            Some(_) => Err(()),
        }
    };
    match strands {
        Strands::Across(list) => spread_list(&list.shape, item).ok(),
        Strands::FromEdges { left, right } => Some(Spread::Halves(
            left.iter().map(item).collect::<Result<_, _>>().ok()?,
            right.iter().rev().map(item).collect::<Result<_, _>>().ok()?,
        )),
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
            let mut lister = Lister::new(&script);
            for statement in &script.source().parsed.tree.statements {
                if let Some(strands) = statement.get::<Strands>() {
                    lister.span = statement.span;
                    assert!(PlainList::of(&script, statement.span, strands).is_some(), "{list}");
                    lister.all(strands);
                }
            }
            assert!(by_list.len() > 20, "{list}: {}", by_list.len());
            assert_eq!(by_list, lister.found, "{list}");
        }
    }
}
