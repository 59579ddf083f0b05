//! Walks the tree and its tokens side by side and says of each where it stands.

use crate::kept::KeptLines;
use crate::parts::{ChartKind, Parts, call, parts};
use crate::piece::{LineStart, Piece};
use knotwright_grammar::tree::{Block, Chart, ChartRow, Statement, Then};
use knotwright_grammar::{Parsed, Span, Token, TokenKind};
use knotwright_numbers::ToNumber;

/// Spaces to an indent.
const INDENT: usize = 2;

/// All that is known of a text before it is set.
pub(crate) struct Plan {
    /// What stands in it, in order.
    pub(crate) pieces: Vec<Piece>,
    /// The lines that stay byte for byte.
    pub(crate) kept: KeptLines,
    /// Whether lines keep their indentation and no line is broken in two: while a brace is missing or left over,
    /// the indentation says where it belongs.
    pub(crate) held: bool,
}

/// Plans `text`.
pub(crate) fn plan(text: &str, parsed: &Parsed) -> Plan {
    let mut planner = Planner::new(text, parsed);
    for statement in &parsed.tree.statements {
        planner.statement(statement, 0, LineStart::AsWritten);
    }
    planner.between(text.len().to_u32(), 0);
    let held = !braces_pair(&parsed.tokens);
    Plan { pieces: planner.pieces, kept: planner.kept, held }
}

/// Whether each `{` has its `}`.
fn braces_pair(tokens: &[Token]) -> bool {
    let mut open = 0_usize;
    for token in tokens {
        match token.kind {
            TokenKind::OpenBrace => open += 1,
            TokenKind::CloseBrace if open == 0 => return false,
            TokenKind::CloseBrace => open -= 1,
            _ => {}
        }
    }
    open == 0
}

/// Whether a token says nothing to the notation.
fn is_blank(kind: TokenKind) -> bool {
    matches!(kind, TokenKind::Comment | TokenKind::Newline)
}

struct Planner<'a> {
    text: &'a str,
    parsed: &'a Parsed,
    /// The next token.
    at: usize,
    /// The line of the next token.
    line: usize,
    /// Where the name ends that the next `(` stands close to.
    call: Option<u32>,
    pieces: Vec<Piece>,
    kept: KeptLines,
}

impl<'a> Planner<'a> {
    fn new(text: &'a str, parsed: &'a Parsed) -> Self {
        let kept = KeptLines::of(parsed);
        let pieces = Vec::with_capacity(parsed.tokens.len());
        Self { text, parsed, at: 0, line: 0, call: None, pieces, kept }
    }

    fn statement(&mut self, statement: &Statement, depth: usize, start: LineStart) {
        self.between(statement.span.start, depth);
        self.call = call(&statement.node);
        self.token(depth, start);
        match parts(&statement.node) {
            Parts::Line => {}
            Parts::Block(block) => self.block(block, depth),
            Parts::Chart(chart, kind) => self.chart(chart, kind, depth),
            Parts::Thens(thens) => self.thens(thens, statement.span.end, depth),
        }
        self.words(statement.span.end, depth + 1);
    }

    fn block(&mut self, block: &Block, depth: usize) {
        self.words(block.open.end, depth + 1);
        let start = self.line_starts(block);
        for statement in &block.statements {
            self.statement(statement, depth + 1, start);
        }
        self.close(block.close, depth, start);
    }

    fn chart(&mut self, chart: &Chart, kind: ChartKind, depth: usize) {
        self.words(chart.open.end, depth + 1);
        for (index, row) in chart.rows.iter().enumerate() {
            self.between(row.span.start, depth + 1);
            if row.whole && row.letters.is_none() {
                self.row(row, (depth + 1) * INDENT + kind.shift(index));
            }
            self.words(row.span.end, depth + 1);
        }
        self.close(chart.close, depth, LineStart::AsWritten);
    }

    /// One piece a mark: marks written close together are one token.
    fn row(&mut self, row: &ChartRow, column: usize) {
        for mark in &row.marks {
            let start = LineStart::AsWritten;
            self.pieces.push(Piece {
                span: mark.span(),
                kind: TokenKind::Mark,
                line: self.line,
                column,
                start,
                call: false,
            });
        }
        while self.next_before(row.span.end).is_some() {
            self.at += 1;
        }
    }

    /// Each `then` one indent in from its `take`, and what runs on one more.
    fn thens(&mut self, thens: &[Then], end: u32, depth: usize) {
        let mut run_on = depth + 1;
        for then in thens {
            self.words(then.word.start, run_on);
            self.lead_to_then(depth + 1);
            self.token(depth + 1, LineStart::AsWritten);
            run_on = depth + 2;
        }
        self.words(end, run_on);
    }

    /// Comments above a `then` are in its column; the comma before it goes.
    fn lead_to_then(&mut self, depth: usize) {
        let comments = self.pieces.iter().rev().take_while(|piece| piece.kind == TokenKind::Comment).count();
        let first = self.pieces.len() - comments;
        for comment in &mut self.pieces[first..] {
            comment.column = depth * INDENT;
        }
        if first > 0 && self.pieces[first - 1].kind == TokenKind::Comma {
            self.pieces.remove(first - 1);
        }
    }

    fn close(&mut self, close: Option<Span>, depth: usize, start: LineStart) {
        if let Some(close) = close {
            self.between(close.start, depth + 1);
            self.token(depth, start);
        }
    }

    /// Whether what is in a block must begin lines: if its one statement begins on the line of the `{`, ends on that
    /// of the `}`, and these are two. If either stays as it is, so does the other.
    fn line_starts(&self, block: &Block) -> LineStart {
        let ([only], Some(close)) = (&block.statements[..], block.close) else { return LineStart::AsWritten };
        let first = self.kept.line_of(block.open.start);
        let last = self.kept.line_of(close.start);
        let hugged = first == self.kept.line_of(only.span.start) && self.kept.line_of(only.span.end) == last;
        let stays = self.kept.keeps(first) || self.kept.keeps(last);
        if hugged && first != last && !stays { LineStart::Always } else { LineStart::AsWritten }
    }

    /// The comments up to `offset`. Any other token here is in no statement: the parser went past it, and its line
    /// stays.
    fn between(&mut self, offset: u32, depth: usize) {
        while let Some(token) = self.next_before(offset) {
            if !is_blank(token.kind) {
                self.kept.keep(token.span);
            }
            self.token(depth, LineStart::AsWritten);
        }
    }

    /// The tokens up to `offset`, all of one statement.
    fn words(&mut self, offset: u32, depth: usize) {
        while self.next_before(offset).is_some() {
            self.token(depth, LineStart::AsWritten);
        }
    }

    fn next_before(&self, offset: u32) -> Option<Token> {
        self.parsed.tokens.get(self.at).copied().filter(|token| token.span.start < offset)
    }

    /// The next token, whatever it is.
    fn token(&mut self, depth: usize, start: LineStart) {
        let Some(&Token { kind, span }) = self.parsed.tokens.get(self.at) else { return };
        self.at += 1;
        if kind == TokenKind::Newline {
            self.line += 1;
            return;
        }
        let call = kind == TokenKind::OpenParen
            && self.pieces.last().is_some_and(|before| Some(before.span.end) == self.call);
        let span = if kind == TokenKind::Comment { self.trimmed(span) } else { span };
        self.pieces.push(Piece { span, kind, line: self.line, column: depth * INDENT, start, call });
    }

    /// A comment without the white space at its end.
    fn trimmed(&self, span: Span) -> Span {
        let written = span.of(self.text).trim_end_matches([' ', '\t']);
        Span { start: span.start, end: span.start + written.len().to_u32() }
    }
}
