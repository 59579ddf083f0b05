//! The whole way from text to tree.

use crate::tree::Tree;
use crate::{Parsed, Problem, ProblemKind, Span, Token, TokenKind, blocks, lexer};

/// The largest text that is read: 16 MiB.
pub const LARGEST_TEXT: usize = 16 << 20;
/// The newest edition of the notation that is known here.
pub const EDITION: u32 = 1;

/// Reads a text. This never fails: what does not parse is reported in [`Parsed::problems`], and the rest is read.
pub fn parse(text: &str) -> Parsed {
    if text.len() > LARGEST_TEXT {
        return only(Vec::new(), Span::default(), ProblemKind::TooLarge);
    }
    read(text, lexer::lex(text))
}

/// Reads a text whose tokens are known.
pub(crate) fn read(text: &str, tokens: Vec<Token>) -> Parsed {
    if let Some(span) = conflict_mark(text) {
        return only(tokens, span, ProblemKind::ConflictMarks);
    }
    if let Some((span, edition)) = newer_edition(text, &tokens) {
        return only(tokens, span, ProblemKind::NewerEdition { edition });
    }
    let blocks::Read { tree, problems, paired } = blocks::read(text, &tokens);
    let comments = comments(&tokens).collect();
    Parsed { tree, tokens, problems, comments, paired }
}

/// Where the comments among these tokens stand.
pub(crate) fn comments(tokens: &[Token]) -> impl Iterator<Item = Span> {
    tokens.iter().filter(|token| token.kind == TokenKind::Comment).map(|token| token.span)
}

fn only(tokens: Vec<Token>, span: Span, kind: ProblemKind) -> Parsed {
    let comments = comments(&tokens).collect();
    Parsed { tree: Tree::default(), tokens, problems: vec![Problem { span, kind }], comments, paired: false }
}

/// What git puts around the two texts of a conflict, and around the one both came from (git-merge-file, `--diff3`), each
/// at the start of a line.
const CONFLICT_MARKS: [&str; 4] = ["<<<<<<<", "|||||||", "=======", ">>>>>>>"];

/// The first line that is the mark of a conflict. No line of a pattern begins so.
pub(crate) fn conflict_mark(text: &str) -> Option<Span> {
    // Each mark is seven signs long, so one of them is every seventh byte of the text; most texts have none there.
    let mut every_seventh = text.as_bytes().iter().skip(6).step_by(7);
    if !every_seventh.any(|byte| matches!(byte, b'<' | b'|' | b'=' | b'>')) {
        return None;
    }
    let found = CONFLICT_MARKS.iter().filter_map(|mark| {
        text.match_indices(mark).map(|(at, _)| at).find(|at| {
            at.checked_sub(1).is_none_or(|before| matches!(text.as_bytes()[before], b'\n' | b'\r'))
        })
    });
    let start = found.min()?;
    let line = text[start..].lines().next().unwrap_or_default().trim_end_matches('\r');
    Some(Span::new(start, start + line.len()))
}

/// The place and number of an edition above [`EDITION`], if the file begins with `pattern "..." edition N`.
pub(crate) fn newer_edition(text: &str, tokens: &[Token]) -> Option<(Span, u32)> {
    let shown = |token: &&Token| !matches!(token.kind, TokenKind::Newline | TokenKind::Comment);
    let mut shown = tokens.iter().filter(shown);
    let (pattern, title) = (shown.next()?, shown.next()?);
    let (edition, number) = (shown.next()?, shown.next()?);
    let begins = pattern.span.of(text) == "pattern" && title.kind == TokenKind::String;
    if !begins || edition.span.of(text) != "edition" || number.kind != TokenKind::Number {
        return None;
    }
    let digits = number.span.of(text).split('.').next().unwrap_or("");
    let asked = digits.parse().unwrap_or(u32::MAX);
    (asked > EDITION).then_some((number.span, asked))
}
