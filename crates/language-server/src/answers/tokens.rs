//! What every token is, in the protocol's numbers.

use crate::documents::Snapshot;
use knotwright_editor::{self as editor, Ink, Inked};
use knotwright_grammar::Span;
use tower_lsp::ls_types::{
    Position, Range, SemanticToken, SemanticTokenModifier, SemanticTokenType, SemanticTokensEdit,
    SemanticTokensLegend,
};

/// The types, in the order of their numbers. All are standard ones, so that every theme has colors for them.
const TYPES: [SemanticTokenType; 13] = [
    SemanticTokenType::COMMENT,
    SemanticTokenType::STRING,
    SemanticTokenType::NUMBER,
    SemanticTokenType::ENUM_MEMBER,
    SemanticTokenType::KEYWORD,
    SemanticTokenType::METHOD,
    SemanticTokenType::MODIFIER,
    SemanticTokenType::TYPE,
    SemanticTokenType::VARIABLE,
    SemanticTokenType::FUNCTION,
    SemanticTokenType::PARAMETER,
    SemanticTokenType::PROPERTY,
    SemanticTokenType::OPERATOR,
];

fn number(ink: Ink) -> Option<u32> {
    Some(match ink {
        Ink::Comment => 0,
        Ink::Text => 1,
        Ink::Number => 2,
        Ink::Color => 3,
        Ink::Statement => 4,
        Ink::Kind => 5,
        Ink::Place | Ink::Detail => 6,
        Ink::Unit => 7,
        Ink::Thread => 8,
        Ink::Motif => 9,
        Ink::Parameter | Ink::Counter => 10,
        Ink::Label => 11,
        Ink::Operator | Ink::Mark => 12,
        Ink::Unknown => return None,
    })
}

/// What the numbers mean.
pub(crate) fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: TYPES.to_vec(),
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    }
}

/// A token by itself.
struct Placed {
    start: Position,
    length: u32,
    token_type: u32,
    gives: bool,
}

/// The tokens of all patterns.
pub(crate) fn encode(snapshot: &Snapshot) -> Option<Vec<SemanticToken>> {
    told(snapshot.patterns(), |pattern| Span::new(0, pattern.source().text.len()))
}

/// Those within a range.
pub(crate) fn encode_within(snapshot: &Snapshot, range: Range) -> Option<Vec<SemanticToken>> {
    told(snapshot.patterns_in(range), |pattern| pattern.span(range))
}

/// The tokens of these patterns, each told from where the one before begins. Where no pattern stands nothing is told, so
/// that whoever else colors the words there can do so.
fn told(patterns: Vec<Snapshot>, span: impl Fn(&Snapshot) -> Span) -> Option<Vec<SemanticToken>> {
    let (mut line, mut column) = (0, 0);
    let one = |Placed { start, length, token_type, gives }| {
        let delta_line = start.line - line;
        let delta_start = if delta_line == 0 { start.character - column } else { start.character };
        (line, column) = (start.line, start.character);
        SemanticToken {
            delta_line,
            delta_start,
            length,
            token_type,
            token_modifiers_bitset: u32::from(gives),
        }
    };
    let tokens = patterns.iter().flat_map(|pattern| placed(pattern, span(pattern))).map(one).collect();
    (!patterns.is_empty()).then_some(tokens)
}

fn placed(pattern: &Snapshot, span: Span) -> Vec<Placed> {
    let text = &pattern.source().text;
    let found = editor::tokens_within(pattern.checked(), span).into_iter();
    let one = |Inked { span, ink, gives }| {
        let length = pattern.encoding().length(span.of(text));
        Some(Placed { start: pattern.position(span.start), length, token_type: number(ink)?, gives })
    };
    found.filter_map(one).collect()
}

/// The one edit that makes `old` to `new`: what they begin and end with alike stays.
pub(crate) fn delta(old: &[SemanticToken], new: &[SemanticToken]) -> Vec<SemanticTokensEdit> {
    let same = old.iter().zip(new).take_while(|(old, new)| old == new).count();
    let rest = old[same..].iter().rev().zip(new[same..].iter().rev());
    let end = rest.take_while(|(old, new)| old == new).count();
    let (gone, come) = (&old[same..old.len() - end], &new[same..new.len() - end]);
    if gone.is_empty() && come.is_empty() {
        return Vec::new();
    }
    // Numbers count, not tokens, and each token is five of them.
    let (start, delete_count) = (5 * same as u32, 5 * gone.len() as u32);
    vec![SemanticTokensEdit { start, delete_count, data: (!come.is_empty()).then(|| come.to_vec()) }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn token(length: u32) -> SemanticToken {
        SemanticToken { delta_line: 0, delta_start: 1, length, token_type: 0, token_modifiers_bitset: 0 }
    }

    proptest! {
        #[test]
        fn the_edit_makes_the_new_out_of_the_old(
            old in prop::collection::vec(0..3u32, 0..8), new in prop::collection::vec(0..3u32, 0..8),
        ) {
            let tokens = |lengths: &[u32]| lengths.iter().copied().map(token).collect::<Vec<_>>();
            let (old, new) = (tokens(&old), tokens(&new));
            let mut made = old.clone();
            for edit in delta(&old, &new) {
                let (start, gone) = (edit.start as usize / 5, edit.delete_count as usize / 5);
                made.splice(start..start + gone, edit.data.unwrap_or_default());
            }
            prop_assert_eq!(made, new);
        }
    }
}
