//! `take left (fin)`: the promise is read as the number that is missing before it.

use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::{Span, TokenKind};

/// The highest number that is tried.
const MOST: usize = 8;

/// The `left` or `right` before a thread in parentheses, if that is what a fact is about.
pub(crate) fn side_without_number(fact: &Fact, source: &Source) -> Option<Span> {
    let FactKind::NotANumber { given: None, .. } = fact.kind else { return None };
    let tokens = &source.parsed.tokens;
    let name = tokens.partition_point(|token| token.span.start < fact.place.span.start);
    let (side, open, close) = (tokens.get(name.checked_sub(2)?)?, tokens[name - 1], tokens.get(name + 1)?);
    let is_alone = open.kind == TokenKind::OpenParen && close.kind == TokenKind::CloseParen;
    let is_side = matches!(side.span.of(&source.text), "left" | "right");
    (fact.place.file == FileId::CHECKED && is_alone && is_side).then_some(side.span)
}

/// Each number put in: with which of them all holds, is found out by trying.
pub(crate) fn put_in_number(fact: &Fact, source: &Source) -> Vec<Mend> {
    let Some(side) = side_without_number(fact, source) else { return Vec::new() };
    let place = Place { file: FileId::CHECKED, span: Span { start: side.end, end: side.end } };
    let mend = |number: usize| {
        let title = format!("write `{} {number}`", side.of(&source.text));
        Mend::new(title, vec![Edit { place, text: format!(" {number}") }], false)
    };
    (1..=MOST).map(mend).collect()
}
