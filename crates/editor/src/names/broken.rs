//! Names in a statement that does not parse: words that have a meaning where it stands.

use super::scope::Walk;
use knotwright_grammar::tree::{Name, Statement};
use knotwright_grammar::{TokenKind, words};
use unicode_normalization::UnicodeNormalization;

/// Mentions the known names among the words of a broken statement, its first word and its block left out.
pub(super) fn words(walk: &mut Walk, statement: &Statement) {
    let tokens = &walk.source.parsed.tokens;
    let first = tokens.partition_point(|token| token.span.start <= statement.span.start);
    let own = tokens[first..].iter().take_while(|token| token.span.end <= statement.head.end);
    let names: Vec<Name> = own
        .filter(|token| token.kind == TokenKind::Word)
        .map(|token| (token.span, token.span.of(&walk.source.text)))
        .filter(|(_, text)| !words::is_reserved(text))
        .map(|(span, text)| Name { span, text: text.nfc().collect() })
        .collect();
    names.iter().for_each(|name| walk.guess(name));
}
