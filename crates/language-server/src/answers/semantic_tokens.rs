//! What every token is, in the protocol's numbers.

use crate::documents::{EarlierColors, Snapshot, WordColors};
use crate::encoding::unsigned;
use knotwright_editor::{self as editor, Ink, Inked};
use knotwright_grammar::Span;
use std::ops::RangeInclusive;
use std::sync::Arc;
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
struct PlacedToken {
    start: Position,
    length: u32,
    token_type: u32,
    gives: bool,
}

/// The tokens of all patterns. Where there is no pattern nothing is sent, so that whoever else colors the words there can
/// do so.
pub(crate) fn semantic_tokens(snapshot: &Snapshot) -> Option<WordColors> {
    if !snapshot.text.is_page() {
        return Some(snapshot.colors(|earlier| find_colors(snapshot, earlier)).clone());
    }
    let patterns = snapshot.patterns();
    let tokens = tokens_of(&patterns, |pattern| Span::new(0, pattern.source().text.len()));
    let colors = WordColors { tokens: Arc::new(tokens), lines: snapshot.text.lines() };
    (!patterns.is_empty()).then_some(colors)
}

/// Those within a range.
pub(crate) fn semantic_tokens_within(snapshot: &Snapshot, range: Range) -> Option<Vec<SemanticToken>> {
    let patterns = snapshot.patterns_in(range);
    (!patterns.is_empty()).then(|| tokens_of(&patterns, |pattern| pattern.span(range)))
}

/// The tokens of these patterns, each counted from where the one before begins.
fn tokens_of(patterns: &[Snapshot], span: impl Fn(&Snapshot) -> Span) -> Vec<SemanticToken> {
    let placed = patterns.iter().flat_map(|pattern| placed(pattern, span(pattern)));
    counted(Position::default(), placed)
}

/// Tokens counted each from where the one before begins, the first from `last`.
fn counted(mut last: Position, tokens: impl Iterator<Item = PlacedToken>) -> Vec<SemanticToken> {
    let one = |PlacedToken { start, length, token_type, gives }: PlacedToken| {
        let delta_line = start.line - last.line;
        let delta_start = if delta_line == 0 { start.character - last.character } else { start.character };
        last = start;
        SemanticToken {
            delta_line,
            delta_start,
            length,
            token_type,
            token_modifiers_bitset: u32::from(gives),
        }
    };
    tokens.map(one).collect()
}

/// The tokens of a pattern that is a whole document; if some of an earlier version are known, only those in the lines that
/// were read again are looked up.
fn find_colors(pattern: &Snapshot, earlier: Option<&EarlierColors>) -> WordColors {
    let lines = pattern.text.lines();
    let tokens = match earlier {
        Some(EarlierColors { colors, read }) if read.is_empty() => return colors.clone(),
        Some(EarlierColors { colors, read }) => {
            let line = |byte| pattern.position(unsigned(byte)).line;
            join_colors(pattern, colors, line(read.start)..=line(read.new_end))
        }
        None => tokens_of(std::slice::from_ref(pattern), |pattern| Span::new(0, pattern.source().text.len())),
    };
    WordColors { tokens: Arc::new(tokens), lines }
}

/// The tokens of an earlier version, but those in `lines` looked up again.
fn join_colors(pattern: &Snapshot, old: &WordColors, lines: RangeInclusive<u32>) -> Vec<SemanticToken> {
    let (first, last) = lines.into_inner();
    let come = i64::from(pattern.text.lines()) - i64::from(old.lines);
    let mut line = 0;
    let mut until = |from: usize, end: i64| {
        let more = old.tokens[from..].iter().take_while(|token| {
            let is_before = i64::from(line + token.delta_line) < end;
            line += if is_before { token.delta_line } else { 0 };
            is_before
        });
        (from + more.count(), line)
    };
    let (head, head_line) = until(0, i64::from(first));
    let (tail, tail_line) = until(head, i64::from(last) + 1 - come);

    let start = |line| Position { line, character: 0 };
    let span = pattern.span(Range { start: start(first), end: start(last + 1) });
    let fresh = counted(start(head_line), placed(pattern, span).into_iter());
    let mut tokens = Vec::with_capacity(old.tokens.len() + fresh.len());
    tokens.extend_from_slice(&old.tokens[..head]);
    tokens.extend_from_slice(&fresh);
    if let Some((next, rest)) = old.tokens[tail..].split_first() {
        // It begins a line, and counts that from the last token before.
        let fresh_line = fresh.iter().fold(head_line, |line, token| line + token.delta_line);
        let line = i64::from(tail_line + next.delta_line) + come;
        let delta_line = u32::try_from(line - i64::from(fresh_line)).unwrap_or_default();
        tokens.push(SemanticToken { delta_line, ..*next });
        tokens.extend_from_slice(rest);
    }
    tokens
}

fn placed(pattern: &Snapshot, span: Span) -> Vec<PlacedToken> {
    let text = &pattern.source().text;
    let found = editor::tokens_within(pattern.source(), span).into_iter();
    let mut walk = PositionWalk { pattern, text, last: None };
    let one = |Inked { span, ink, gives }| {
        let length = pattern.encoding().length(span.of(text));
        Some(PlacedToken { start: walk.to(span.start), length, token_type: number(ink)?, gives })
    };
    found.filter_map(one).collect()
}

/// Positions one after another: counted on from the one before, which takes less than to look each up in the whole text.
struct PositionWalk<'s> {
    pattern: &'s Snapshot,
    text: &'s str,
    last: Option<(u32, Position)>,
}

impl PositionWalk<'_> {
    /// The position of a byte that does not lie before the one asked about last.
    fn to(&mut self, offset: u32) -> Position {
        let counted = self.last.and_then(|(from, position)| {
            let between = Span { start: from, end: offset }.of(self.text);
            let length = |text| self.pattern.encoding().length(text);
            match between.rsplit_once('\n') {
                // A line may end with this alone, and in a quote it begins with what is not of the pattern.
                _ if between.contains('\r') => None,
                Some(_) if self.pattern.text.is_fenced() => None,
                Some((before, line)) => {
                    let lines = unsigned(before.bytes().filter(|&byte| byte == b'\n').count());
                    Some(Position { line: position.line + 1 + lines, character: length(line) })
                }
                None => Some(Position { character: position.character + length(between), ..position }),
            }
        });
        let position = counted.unwrap_or_else(|| self.pattern.position(offset));
        debug_assert_eq!(position, self.pattern.position(offset), "counted as looked up");
        self.last = Some((offset, position));
        position
    }
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
    let (start, delete_count) = (unsigned(5 * same), unsigned(5 * gone.len()));
    vec![SemanticTokensEdit { start, delete_count, data: (!come.is_empty()).then(|| come.to_vec()) }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::{DocumentText, Documents, Setting, Version};
    use crate::encoding::Encoding;
    use knotwright_numbers::ToNumber;
    use proptest::prelude::*;
    use serde_json::{from_value, json};
    use tower_lsp::ls_types::{TextDocumentItem, Uri};

    const SAMPLE: &str = "pattern \"Pier\"\nthread kelp navy\nthread foam #f4f1e8\nstrands kelp 3 foam\n\n\
                          motif fan(n, shade) {\n  take left n (shade): forward 1\n}\n\nset {\n  \
                          take left 1 (kelp) as lead: forward 2\n  both {\n    take lead: backward to edge\n  }\n  \
                          work fan(2, foam) -- again\n  rows {\n    \\ \\\n     x\n  }\n}\n";

    fn typed() -> impl Strategy<Value = &'static str> {
        prop::sample::select(vec![
            "",
            "k",
            "foam",
            "1",
            " ",
            "\n",
            "\r",
            "\r\n",
            "{",
            "}",
            "both {\n",
            "thread rope red\n",
            " as lead",
            "meet center\n",
            "-- tide\n",
            "work fan(1, kelp)\n",
            "\"",
        ])
    }

    fn document(uri: &Uri, text: &str) -> TextDocumentItem {
        from_value(json!({ "uri": uri.as_str(), "languageId": "knotwright", "version": 1, "text": text }))
            .unwrap()
    }

    /// Types over the text between two bytes. Where that was, as a client can say it: not within a line break.
    fn change(documents: &mut Documents, uri: &Uri, text: &str, span: (usize, usize), typed: &str) -> Span {
        let rope = ropey::Rope::from_str(text);
        let range = Encoding::Utf16.range(&rope, Span::new(span.0, span.1));
        let change = json!({
            "textDocument": { "uri": uri.as_str(), "version": 2 },
            "contentChanges": [{ "range": range, "text": typed }],
        });
        documents.change(from_value(change).unwrap(), Encoding::Utf16);
        Encoding::Utf16.span(&rope, range)
    }

    fn token(length: u32) -> SemanticToken {
        SemanticToken { delta_line: 0, delta_start: 1, length, token_type: 0, token_modifiers_bitset: 0 }
    }

    proptest! {
        /// Typed at random, with threads, labels and braces among what comes and goes, and asked about now and then.
        #[test]
        fn colors_that_were_handed_on_are_those_of_the_text(
            edits in prop::collection::vec((any::<prop::sample::Index>(), 0..5usize, typed(), any::<bool>()), 1..9),
        ) {
            let uri: Uri = "untitled:band".parse().unwrap();
            let mut documents = Documents::default();
            documents.open(document(&uri, SAMPLE));
            semantic_tokens(&documents.snapshot(&uri, Setting::default()).unwrap());
            let mut text = SAMPLE.to_owned();
            for (at, deleted, typed, asks) in edits {
                let at = at.index(text.len() + 1);
                let end = (at + deleted).min(text.len());
                let Span { start, end } = change(&mut documents, &uri, &text, (at, end), typed);
                text.replace_range(start.to_usize()..end.to_usize(), typed);
                if asks {
                    let now = documents.snapshot(&uri, Setting::default()).unwrap();
                    let fresh = Snapshot::new(Version::new(DocumentText::opened(document(&uri, &text))), Setting::default());
                    let (now, fresh) = (semantic_tokens(&now).unwrap(), semantic_tokens(&fresh).unwrap());
                    prop_assert_eq!(now.lines, fresh.lines);
                    prop_assert_eq!(now.tokens, fresh.tokens, "{:?}", text);
                }
            }
        }

        #[test]
        fn the_edit_makes_the_new_out_of_the_old(
            old in prop::collection::vec(0..3u32, 0..8), new in prop::collection::vec(0..3u32, 0..8),
        ) {
            let tokens = |lengths: &[u32]| lengths.iter().copied().map(token).collect::<Vec<_>>();
            let (old, new) = (tokens(&old), tokens(&new));
            let mut made = old.clone();
            for edit in delta(&old, &new) {
                let (start, gone) = (edit.start.to_usize() / 5, edit.delete_count.to_usize() / 5);
                made.splice(start..start + gone, edit.data.unwrap_or_default());
            }
            prop_assert_eq!(made, new);
        }
    }
}
