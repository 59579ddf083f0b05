//! The parts of a band by other names.

use super::{BlockSort, Phrase, Rewording, UnreadLine};
use knotwright_grammar::TokenKind;
use knotwright_grammar::words::find_end_piece;

/// `intro {`, `end {`: the part to which the first thing in its block belongs.
pub(super) fn part(line: &UnreadLine) -> Option<Phrase> {
    let is_block = line.around == BlockSort::Top && line.tokens.len() == 2 && line.text(1) == "{";
    let is_first = match line.text(0) {
        "open" | "intro" | "start" | "beginning" | "before" if is_block => true,
        "close" | "outro" | "end" | "ends" | "ending" | "finishing" | "after" if is_block => false,
        _ => return None,
    };
    let behind = line.source.parsed.tokens.iter().skip_while(|token| token.span.start < line.whole().end);
    let mut words = behind.filter(|token| token.kind == TokenKind::Word);
    let first = words.next().map_or("", |token| token.span.of(&line.source.text));
    let (word, says) = match (is_first, find_end_piece(first).is_some()) {
        (true, false) => ("opening", "What is tied once before the set stands in `opening`."),
        (true, true) => ("begin", "How the ends begin before the knots stands in `begin`."),
        (false, false) => ("closing", "What is tied once after the set stands in `closing`."),
        (false, true) => ("finish", "How the ends go on after the knots stands in `finish`."),
    };
    Some(Phrase::new(says, vec![Rewording::instead(line.tokens[0].span, word)]))
}
