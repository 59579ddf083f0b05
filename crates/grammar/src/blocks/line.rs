//! The tokens of one statement: to the end of its line, over its run-ons and `then` lines.

use super::reader::Reader;
use crate::syntax::Tok;
use crate::{Expected, ProblemKind, Span, Token, TokenKind, words};
use knotwright_numbers::ToNumber;

/// What was gathered; the words themselves are in [`Reader::words`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Line {
    /// From the first word to the last.
    pub(crate) span: Span,
    /// From the first word to the last, without `then` lines.
    pub(crate) head: Span,
    /// The `{` it ends in, in the list of tokens.
    pub(crate) brace: Option<usize>,
    /// Whether it holds something that no parser need look at.
    pub(crate) hopeless: bool,
}

/// More signs between numbers than this in one statement are too deep: the tree of `1 + 1 + 1 ...` is as deep as
/// the sum is long.
const MOST_OPERATORS: usize = 256;
/// As many parentheses, and blocks, may be in one another.
pub(crate) const DEEPEST: usize = 64;

/// What to watch for while gathering.
#[derive(Default)]
pub(super) struct LineWatch {
    parentheses: usize,
    operators: usize,
    pub(super) hopeless: bool,
    head_end: Option<u32>,
}

impl Reader<'_> {
    /// Gathers a statement. There is at least one token ahead, neither a comment nor a line's end nor a `}`.
    pub(crate) fn gather(&mut self) -> Line {
        self.words.clear();
        let mut watch = LineWatch::default();
        let mut brace = None;
        while let Some(token) = self.peek() {
            match token.kind {
                TokenKind::CloseBrace => break,
                TokenKind::Newline if !self.runs_on(&mut watch) => break,
                TokenKind::Newline => {
                    self.skip_blank_lines();
                    continue;
                }
                TokenKind::Comment => {}
                TokenKind::OpenBrace => {
                    self.push(token, &mut watch);
                    brace = Some(self.at);
                    self.advance();
                    break;
                }
                _ => self.push(token, &mut watch),
            }
            // It is no line's end.
            self.at += 1;
        }
        self.line(&watch, brace)
    }

    fn line(&self, watch: &LineWatch, brace: Option<usize>) -> Line {
        let first = self.words.first().map_or(Span::default(), |tok| tok.span);
        let span = self.words.last().map_or(first, |last| first.to(last.span));
        let head = Span { end: watch.head_end.unwrap_or(span.end), ..span };
        Line { span, head, brace, hopeless: watch.hopeless }
    }

    pub(super) fn push(&mut self, token: Token, watch: &mut LineWatch) {
        let text = token.span.of(self.text);
        self.check(token, text, watch);
        self.words.push(Tok { kind: token.kind, span: token.span, text });
    }

    /// Slips that are in one token or between two.
    fn check(&mut self, token: Token, text: &str, watch: &mut LineWatch) {
        match token.kind {
            TokenKind::Word => self.check_word(token),
            TokenKind::String => self.check_string(token, text),
            TokenKind::Unknown if !watch.hopeless => {
                watch.hopeless = true;
                let unclosed = text.starts_with('"');
                let kind = if unclosed { ProblemKind::UnclosedString } else { ProblemKind::UnknownSign };
                self.problem(token.span, kind);
            }
            TokenKind::Plus | TokenKind::Minus | TokenKind::Star => {
                watch.operators += 1;
                self.check_operator(token);
                self.check_depth(token, watch, watch.operators == MOST_OPERATORS + 1);
            }
            TokenKind::OpenParen => {
                watch.parentheses += 1;
                self.check_depth(token, watch, watch.parentheses == DEEPEST + 1);
            }
            TokenKind::CloseParen => watch.parentheses = watch.parentheses.saturating_sub(1),
            _ => {}
        }
    }

    fn check_depth(&mut self, token: Token, watch: &mut LineWatch, too_deep: bool) {
        if too_deep && !watch.hopeless {
            watch.hopeless = true;
            self.problem(token.span, ProblemKind::TooDeep);
        }
    }

    fn check_word(&mut self, token: Token) {
        let touching = self.words.last().filter(|last| last.span.end == token.span.start);
        if let Some(number) = touching.filter(|last| last.kind == TokenKind::Number) {
            self.problem(number.span.to(token.span), ProblemKind::NumberTouchesWord);
        }
    }

    /// A sign between numbers has a space on both sides, as `size-1` is a name.
    fn check_operator(&mut self, token: Token) {
        let before = self.at.checked_sub(1).and_then(|at| self.tokens.get(at));
        let before = before.filter(|before| before.kind != TokenKind::Newline);
        let after = self.tokens.get(self.at + 1).filter(|after| after.kind != TokenKind::Newline);
        let touches = before.is_some_and(|before| before.span.end == token.span.start)
            || after.is_some_and(|after| after.span.start == token.span.end);
        if !touches || self.words.last().is_some_and(|last| is_operator(last.kind)) {
            return;
        }
        let comment =
            token.span.of(self.text) == "-" && after.is_some_and(|after| after.kind == TokenKind::Minus);
        self.unexpected(token.span, if comment { Expected::SpaceBeforeComment } else { Expected::Space });
    }

    fn check_string(&mut self, token: Token, text: &str) {
        let start = token.span.start.to_usize() + 1;
        let inside = crate::syntax::inside(text);
        if !inside.bytes().any(|byte| matches!(byte, b'\\' | b'{' | b'}')) {
            return;
        }
        if let Some(at) = unknown_escape(inside) {
            let width = inside[at + 1..].chars().next().map_or(0, char::len_utf8);
            self.problem(Span::new(start + at, start + at + 1 + width), ProblemKind::UnknownEscape);
        }
        if let Some(at) = inside.find(['{', '}']) {
            self.problem(Span::new(start + at, start + at + 1), ProblemKind::BraceInString);
        }
    }

    fn skip_blank_lines(&mut self) {
        while self.peek().is_some_and(|token| is_blank(token.kind)) {
            self.advance();
        }
    }

    /// Whether the statement goes on in the next line with something in it.
    fn runs_on(&mut self, watch: &mut LineWatch) -> bool {
        let rest = self.tokens[self.at..].iter();
        let next = rest.into_iter().find(|token| !is_blank(token.kind));
        let (Some(next), Some(last)) = (next, self.words.last()) else { return false };
        let word = || next.span.of(self.text);
        match next.kind {
            TokenKind::CloseBrace => false,
            TokenKind::OpenBrace => self.brace_below(*next),
            _ if matches!(last.kind, TokenKind::Comma | TokenKind::Pipe) => {
                next.kind != TokenKind::Word || words::find_statement(word()).is_none()
            }
            TokenKind::Word if word() == "then" && self.takes_then() => {
                watch.head_end.get_or_insert(last.span.end);
                true
            }
            _ => false,
        }
    }

    /// `then` lines belong to `take`, and to what may have been meant as one.
    fn takes_then(&self) -> bool {
        self.words
            .first()
            .is_some_and(|first| first.is("take") || words::find_in(self.place(), first.text).is_none())
    }

    /// A `{` below the line that it should end: reported once, and taken as meant.
    fn brace_below(&mut self, brace: Token) -> bool {
        let opens =
            |first: &Tok| words::find_in(self.place(), first.text).is_some_and(|known| known.holds.is_some());
        let meant = self.words.first().is_some_and(opens);
        if meant {
            self.problem(brace.span, ProblemKind::Unexpected { expected: vec![Expected::StatementNoBrace] });
        }
        meant
    }
}

fn is_blank(kind: TokenKind) -> bool {
    matches!(kind, TokenKind::Newline | TokenKind::Comment)
}

fn is_operator(kind: TokenKind) -> bool {
    matches!(kind, TokenKind::Plus | TokenKind::Minus | TokenKind::Star)
}

/// The first `\` with neither `"` nor `\` after it.
fn unknown_escape(inside: &str) -> Option<usize> {
    let mut characters = inside.char_indices();
    while let Some((at, character)) = characters.next() {
        if character == '\\' && !matches!(characters.next(), Some((_, '"' | '\\'))) {
            return Some(at);
        }
    }
    None
}
