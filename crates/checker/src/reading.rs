//! The words of a file as they stand, for rules about names: a name counts as used wherever its word stands, in a
//! statement that does not parse too, so that nobody is told to delete what is only misspelled around it.

use crate::Source;
use knotwright_grammar::tree::{Node, Statement};
use knotwright_grammar::{Span, TokenKind};
use unicode_normalization::UnicodeNormalization;

/// The words from byte `start` to byte `end`, with their places.
pub(crate) fn words(source: &Source, within: Span) -> impl Iterator<Item = (Span, &str)> {
    let tokens = &source.parsed.tokens;
    let first = tokens.partition_point(|token| token.span.start < within.start);
    tokens[first..]
        .iter()
        .take_while(move |token| token.span.end <= within.end)
        .filter(|token| token.kind == TokenKind::Word)
        .map(|token| (token.span, token.span.of(&source.text)))
}

/// The whole of a file.
pub(crate) fn whole(source: &Source) -> Span {
    Span::new(0, source.text.len())
}

/// Whether a word as written is that name (names are compared in NFC).
pub(crate) fn is_name(word: &str, name: &str) -> bool {
    word == name || (!word.is_ascii() && word.nfc().eq(name.chars()))
}

/// Whether `name` stands anywhere in a span.
pub(crate) fn stands_in(source: &Source, within: Span, name: &str) -> bool {
    words(source, within).any(|(_, word)| is_name(word, name))
}

/// Whether a file lends its motifs and ties nothing itself.
pub(crate) fn is_library(source: &Source) -> bool {
    let ties = |statement: &Statement| {
        matches!(statement.node, Node::Strands(_) | Node::Opening(_) | Node::Set(_) | Node::Closing(_))
    };
    !source.parsed.tree.statements.iter().any(ties)
}
