//! Edits of `strands`: one left out, put in, exchanged with its neighbor, of another thread; the mirror forgotten.

use super::words::Written;
use crate::resolve::{Script, ThreadId, spread_list};
use crate::{Source, StartForm};
use knotwright_grammar::tree::{Expr, ListItem, ListShape, Strands};
use knotwright_grammar::{Span, apply_edits};
use knotwright_numbers::ToNumber;

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
    let mut lister = Lister { script, span: Span::default(), found: Vec::new() };
    for statement in &source.parsed.tree.statements {
        if let Some(strands) = statement.get::<Strands>() {
            lister.span = statement.span;
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
    found: Vec<StrandsEdit>,
}

fn at(offset: u32) -> Span {
    Span { start: offset, end: offset }
}

impl Lister<'_> {
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
        for list in lists {
            self.list(list);
        }
        if let Strands::Across(list) = strands {
            self.mirror(&list.shape, list.span);
        }
    }

    fn mirror(&mut self, shape: &ListShape, span: Span) {
        match shape {
            ListShape::Plain(_) => {
                self.add(
                    "write `| mirror` at the end of `strands`",
                    vec![(at(span.end), " | mirror".to_owned())],
                    2,
                );
            }
            ListShape::Mirror(half) => {
                let Some(last) = half.last() else { return };
                let cut = Span { start: last.thread.span.end, end: span.end };
                self.add("leave out `| mirror`", vec![(cut, String::new())], 3);
            }
            _ => {}
        }
    }

    /// Threads that hang nowhere.
    fn unhung(&self) -> impl Iterator<Item = usize> + use<> {
        let hung = self.script.head.strands.clone().unwrap_or_default();
        (0..self.script.head.threads.len()).filter(move |thread| !hung.contains(&thread.to_u16()))
    }

    fn list(&mut self, items: &[ListItem]) {
        let text = |span: Span| span.of(&self.script.source().text).to_owned();
        let whole = |item: &ListItem| match &item.count {
            Some(count) => count.span().to(item.thread.span),
            None => item.thread.span,
        };
        let names: Vec<String> =
            self.script.head.threads.iter().map(|thread| thread.name.to_string()).collect();
        let unhung: Vec<&String> = self.unhung().map(|thread| &names[thread]).collect();
        for (index, item) in items.iter().enumerate() {
            let span = whole(item);
            if let Some(Expr::Number(number)) = &item.count {
                for by in 1..=2_u8 {
                    let (less, more) =
                        (number.value.saturating_sub(by.into()), number.value.saturating_add(by.into()));
                    for read in [less, more].into_iter().filter(|&read| read > 0) {
                        let says = format!("write `{read}` instead of `{}` in `strands`", number.value);
                        self.add(&says, vec![(number.span, read.to_string())], by);
                    }
                }
                // The name of a thread that was lost after its number.
                for name in names.iter().filter(|name| **name != item.thread.text.as_str()) {
                    let says = format!("put `{name}` before `{}` in `strands`", item.thread.text);
                    self.add(&says, vec![(at(item.thread.span.start), format!("{name} "))], 2);
                }
            } else {
                let cut = match index {
                    0 => Span {
                        start: span.start,
                        end: items.get(1).map_or(span.end, |next| whole(next).start),
                    },
                    _ => Span { start: whole(&items[index - 1]).end, end: span.end },
                };
                let says = format!("leave out `{}` in `strands`", text(span));
                self.add(&says, vec![(cut, String::new())], 2);
            }
            if let Some(next) = items.get(index + 1) {
                let (one, other) = (text(span), text(whole(next)));
                let says = format!("write `{other} {one}` instead of `{one} {other}` in `strands`");
                self.add(&says, vec![(span, other), (whole(next), one)], 2);
            }
            for name in names.iter().filter(|name| **name != item.thread.text.as_str()) {
                let says = format!("write `{name}` instead of `{}` in `strands`", item.thread.text);
                self.add(&says, vec![(item.thread.span, name.clone())], 2);
            }
            if item.count.is_none() {
                for count in 2..=4 {
                    let says = format!("write `{count} {0}` instead of `{0}` in `strands`", item.thread.text);
                    self.add(&says, vec![(at(span.start), format!("{count} "))], 2);
                }
            }
            for name in &names {
                let says = format!("put `{name}` before `{}` in `strands`", text(span));
                self.add(&says, vec![(at(span.start), format!("{name} "))], 2);
                if index + 1 == items.len() {
                    let says = format!("put `{name}` after `{}` in `strands`", text(span));
                    self.add(&says, vec![(at(span.end), format!(" {name}"))], 2);
                }
            }
            for (name, count) in unhung.iter().flat_map(|name| (2..=4).map(move |count| (name, count))) {
                let says = format!("put `{count} {name}` before `{}` in `strands`", text(span));
                self.add(&says, vec![(at(span.start), format!("{count} {name} "))], 2);
            }
        }
    }

    /// Keeps an edit, if strands can be listed so, and are not yet.
    fn add(&mut self, says: &str, edits: Vec<(Span, String)>, size: u8) {
        let source = self.script.source();
        let from = self.span.start;
        let own = |span: &Span| Span { start: span.start - from, end: span.end - from };
        let moved = edits.iter().map(|(span, new)| (own(span), new.as_str()));
        let edited = apply_edits(self.span.of(&source.text), moved);
        let Some(threads) = edited.and_then(|text| self.listed(&text)) else { return };
        let is_new = self.script.head.strands.as_ref() != Some(&threads)
            && self.found.iter().all(|other| other.threads != threads);
        if is_new {
            self.found.push(StrandsEdit { threads, says: says.to_owned(), edits, size });
        }
    }

    /// The threads that a `strands` statement hangs.
    fn listed(&self, text: &str) -> Option<Vec<ThreadId>> {
        let alone = Source::new("strands", text);
        if !alone.parsed.problems.is_empty() {
            return None;
        }
        let item = |item: &ListItem| -> Result<(u64, ThreadId), ()> {
            let thread = self.script.thread(crate::FileId::CHECKED, &item.thread.text).ok_or(())?;
            match &item.count {
                None => Ok((1, thread)),
                Some(Expr::Number(number)) if number.value > 0 => Ok((u64::from(number.value), thread)),
                Some(_) => Err(()),
            }
        };
        let list = match alone.parsed.tree.statements.first()?.get::<Strands>()? {
            Strands::Across(list) => spread_list(&list.shape, item).ok()?,
            Strands::FromEdges { left, right } => crate::resolve::Spread::Halves(
                left.iter().map(item).collect::<Result<_, _>>().ok()?,
                right.iter().rev().map(item).collect::<Result<_, _>>().ok()?,
            ),
        };
        let is_fit = crate::resolve::is_uneven(&list).is_none();
        let count = list.count();
        (is_fit && (2..=knotwright_band::MOST_STRANDS.to_u64()).contains(&count)).then(|| list.strands())
    }
}
