//! Folded threads whose ends do not agree: the mirror of `strands` was forgotten, or `start` says otherwise than was meant.

use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::tree::{ListShape, Pairs, Start, Strands};
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
    forgotten_mirror(source).into_iter().chain(start.map(guess)).collect()
}

fn forgotten_mirror(source: &Source) -> Option<Mend> {
    let mut statements = source.parsed.tree.statements.iter();
    let list = statements.find_map(|statement| match statement.get() {
        Some(Strands::Across(list)) => Some(list),
        _ => None,
    })?;
    let ListShape::Plain(_) = list.shape else { return None };
    let at = Span { start: list.span.end, end: list.span.end };
    let edits = vec![Edit { place: Place { file: FileId::CHECKED, span: at }, text: " | mirror".to_owned() }];
    Some(Mend::new("write `| mirror` at the end of `strands`", edits, false))
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
