//! The words of a file as they stand, for rules about names: a name counts as used wherever its word stands, in a
//! statement that does not parse too, so that no message asks to delete what is only misspelled around it.

use crate::Source;
use knotwright_grammar::tree::{
    ClosingBlock, ColorwayBlock, GaugeBlock, OpeningBlock, SetBlock, Statement, Strands,
};
use knotwright_grammar::{Span, TokenKind};
use std::borrow::Cow;
use unicode_normalization::UnicodeNormalization;

/// Every word of a file with its place, a name in NFC.
pub(crate) fn words(source: &Source) -> impl Iterator<Item = (Span, Cow<'_, str>)> {
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word);
    let is_plain = source.text.is_ascii();
    words.map(move |token| {
        let word = token.span.of(&source.text);
        (token.span, if is_plain { Cow::Borrowed(word) } else { in_nfc(word) })
    })
}

fn in_nfc(word: &str) -> Cow<'_, str> {
    if word.is_ascii() { Cow::Borrowed(word) } else { Cow::Owned(word.nfc().collect()) }
}

/// Whether there is something below the head that could use what the head names: a motif, or what is tied. Until then a
/// file is being begun.
pub(crate) fn is_begun(source: &Source) -> bool {
    source.parsed.tree.statements.iter().any(|statement| {
        statement
            .node
            .block()
            .is_some_and(|_| !statement.is::<GaugeBlock>() && !statement.is::<ColorwayBlock>())
    })
}

/// Whether a file lends its motifs and ties nothing itself.
pub(crate) fn is_library(source: &Source) -> bool {
    let ties = |statement: &Statement| {
        statement.is::<Strands>()
            || statement.is::<OpeningBlock>()
            || statement.is::<SetBlock>()
            || statement.is::<ClosingBlock>()
    };
    !source.parsed.tree.statements.iter().any(ties)
}
