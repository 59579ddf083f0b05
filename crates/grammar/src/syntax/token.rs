//! One statement as the parsers see it: its words and signs, without comments and line breaks.

use crate::{Span, TokenKind};

/// One token of a statement, with its text at hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Tok<'t> {
    pub(crate) kind: TokenKind,
    pub(crate) span: Span,
    pub(crate) text: &'t str,
}

impl Tok<'_> {
    /// Whether it is this word.
    pub(crate) fn is(&self, word: &str) -> bool {
        self.kind == TokenKind::Word && self.text == word
    }
}

/// What the parsers read.
pub(crate) type In<'t> = &'t [Tok<'t>];
