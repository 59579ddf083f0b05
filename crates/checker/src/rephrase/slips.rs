//! Slips of the hand: a word that stands there twice, and two that have changed places.

use super::{Phrase, Rewording, UnreadLine};
use crate::wording::quoted;
use knotwright_grammar::{Span, TokenKind};

/// `take take left 1`, `thickness 0.9 0.9 mm`: one of them.
pub(super) fn doubled(line: &UnreadLine) -> Option<Phrase> {
    let failing = line.failing();
    // The second of them may have been read as a name.
    let mut near = failing.saturating_sub(2)..=failing + 1;
    let cut = |first: usize| {
        let span = Span { start: line.tokens[first].span.end, end: line.tokens[first + 1].span.end };
        vec![(span, String::new())]
    };
    let is_twice = |first: &usize| first + 1 < line.tokens.len() && line.text(*first) == line.text(first + 1);
    let first = near.find(|first| is_twice(first) && line.reads(&cut(*first)))?;
    let edits = cut(first);
    let says = format!("{} stands here twice.", quoted(line.text(first)));
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// `meet center` as `center meet`: the other way about.
pub(super) fn exchanged(line: &UnreadLine) -> Option<Phrase> {
    let failing = line.failing();
    let near = [failing.checked_sub(1), Some(failing), failing.checked_sub(2)].into_iter().flatten();
    let swap = |first: usize| {
        vec![
            (line.tokens[first].span, line.text(first + 1).to_owned()),
            (line.tokens[first + 1].span, line.text(first).to_owned()),
        ]
    };
    // What stands in parentheses may be missing.
    let signs = [TokenKind::OpenBrace, TokenKind::OpenParen, TokenKind::CloseParen];
    let is_word = |at: usize| line.kind(at).is_some_and(|kind| !signs.contains(&kind));
    let may_be = |first: &usize| is_word(*first) && is_word(first + 1);
    let first = near.filter(may_be).find(|&first| line.reads(&swap(first)))?;
    let edits = swap(first);
    let (one, other) = (quoted(line.text(first)), quoted(line.text(first + 1)));
    let says = format!("{one} and {other} have changed places.");
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}
