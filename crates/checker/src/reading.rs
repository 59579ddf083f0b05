//! The words of a file as they stand, for rules about names: a name counts as used wherever its word stands, in a
//! statement that does not parse too, so that nobody is told to delete what is only misspelled around it.

use crate::Source;
use knotwright_grammar::tree::{Node, Statement};
use knotwright_grammar::{Span, TokenKind};
use std::borrow::Cow;
use unicode_normalization::UnicodeNormalization;

/// Every word of a file with its place, a name in NFC.
pub(crate) fn words(source: &Source) -> impl Iterator<Item = (Span, Cow<'_, str>)> {
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word);
    words.map(|token| (token.span, in_nfc(token.span.of(&source.text))))
}

fn in_nfc(word: &str) -> Cow<'_, str> {
    if word.is_ascii() { Cow::Borrowed(word) } else { Cow::Owned(word.nfc().collect()) }
}

/// Whether a file lends its motifs and ties nothing itself.
pub(crate) fn is_library(source: &Source) -> bool {
    let ties = |statement: &Statement| {
        matches!(statement.node, Node::Strands(_) | Node::Opening(_) | Node::Set(_) | Node::Closing(_))
    };
    !source.parsed.tree.statements.iter().any(ties)
}
