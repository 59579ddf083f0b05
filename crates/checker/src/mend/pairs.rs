//! Folded threads whose ends do not agree: the mirror of `strands` was forgotten, or `start` says otherwise than was meant.

use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::tree::{List, ListItem, ListShape, Pairs, Start, Strands};
use knotwright_grammar::{Span, TokenKind};

/// What may have been meant. How a thread is folded, the author alone knows.
pub(crate) fn mend_pairs(fact: &Fact, source: &Source) -> Vec<Mend> {
    let is_odd = match fact.kind {
        FactKind::OddPairs { .. } => true,
        FactKind::PairsDisagree { .. } => false,
        _ => return Vec::new(),
    };
    let guess = |mend: Mend| Mend { is_guess: true, ..mend };
    let start = match is_odd {
        true => Some(Mend::write("start loose", fact.place)),
        false => other_pairs(fact.place, source),
    };
    let start = start.map(guess);
    forgotten_mirror(source).or_else(|| forgotten_twin(source).map(guess)).into_iter().chain(start).collect()
}

fn forgotten_mirror(source: &Source) -> Option<Mend> {
    let (list, _) = plain_list(source).filter(|(_, items)| !is_mirrored(items))?;
    let says = "write `| mirror` at the end of `strands`".to_owned();
    Some(put_in(list.span.end, " | mirror", says))
}

/// Of strands that mirror themselves around one, that one twice.
fn forgotten_twin(source: &Source) -> Option<Mend> {
    let (_, items) = plain_list(source).filter(|(_, items)| is_mirrored(items))?;
    let ListItem { thread, .. } = items.get(items.len() / 2).filter(|item| item.count.is_none())?;
    let says = format!("write `2 {0}` instead of `{0}` in `strands`", thread.text);
    Some(put_in(thread.span.start, "2 ", says))
}

/// `strands` as they are listed one by one.
fn plain_list(source: &Source) -> Option<(&List, &[ListItem])> {
    let mut statements = source.parsed.tree.statements.iter();
    let list = statements.find_map(|statement| match statement.get() {
        Some(Strands::Across(list)) => Some(list),
        _ => None,
    })?;
    match &list.shape {
        ListShape::Plain(items) => Some((list, items)),
        _ => None,
    }
}

/// Whether the items read the same from both ends.
fn is_mirrored(items: &[ListItem]) -> bool {
    let names = || items.iter().map(|item| (item.count.is_none(), &item.thread.text));
    items.len() % 2 == 1 && names().eq(names().rev())
}

fn put_in(at: u32, text: &str, says: String) -> Mend {
    let place = Place { file: FileId::CHECKED, span: Span { start: at, end: at } };
    Mend::new(says, vec![Edit { place, text: text.to_owned() }], false)
}

/// `mirrored` for `side-by-side`, and the other way round.
fn other_pairs(at: Place, source: &Source) -> Option<Mend> {
    let mut statements = source.parsed.tree.statements.iter();
    let start = statements.find(|statement| statement.span == at.span)?;
    let (written, other) = match start.get()? {
        Start::Loose => return None,
        Start::Folded(Pairs::SideBySide) | Start::Loop(_, Pairs::SideBySide) => ("side-by-side", "mirrored"),
        Start::Folded(Pairs::Mirrored) | Start::Loop(_, Pairs::Mirrored) => ("mirrored", "side-by-side"),
    };
    let mut words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word);
    let word = words.find(|token| {
        at.span.start <= token.span.start
            && token.span.end <= at.span.end
            && token.span.of(&source.text) == written
    })?;
    Some(Mend::write(other, Place { span: word.span, ..at }))
}
