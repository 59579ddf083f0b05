//! Goes through the tokens of a file once, with the open blocks on a stack of its own: no depth of text is a depth
//! of calls.

use super::balance::Balance;
use super::frame::Frame;
use crate::syntax::Tok;
use crate::tree::{Statement, Tree, Zone};
use crate::{Belongs, Expected, Problem, ProblemKind, Span, Token, TokenKind};
use knotwright_numbers::ToNumber;

/// What was read from a text.
pub(crate) struct Read {
    pub(crate) tree: Tree,
    /// What does not parse, in order of place.
    pub(crate) problems: Vec<Problem>,
    /// Whether each `{` has its `}`.
    pub(crate) paired: bool,
}

/// The statements of a text.
pub(crate) fn read(text: &str, tokens: &[Token]) -> Read {
    let mut reader = Reader::new(text, tokens);
    reader.balance = Balance::of(tokens);
    let paired = reader.balance.is_whole();
    reader.read_all();
    let (statements, problems) = reader.finish();
    Read { tree: Tree { statements }, problems, paired }
}

/// What is before the next token on its line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Before {
    /// Nothing.
    Nothing,
    /// A `{`: one statement may follow.
    Open,
    /// A statement or a `}`.
    Statement,
}

pub(crate) struct Reader<'t> {
    pub(crate) text: &'t str,
    pub(crate) tokens: &'t [Token],
    /// The next token.
    pub(crate) at: usize,
    /// The words of the statement in hand; kept to be used again.
    pub(crate) words: Vec<Tok<'t>>,
    pub(crate) frames: Vec<Frame>,
    pub(crate) balance: Balance,
    /// Where the statement before in this block belongs, if it was misplaced.
    pub(crate) misplaced: Option<Belongs>,
    top: Vec<Statement>,
    problems: Vec<Problem>,
    pub(super) line_start: u32,
    indent: u32,
    pub(super) before: Before,
    /// Whether a `}` too many was just reported.
    pub(super) stray: bool,
    /// Whether the text ended within blocks too deep to be read.
    pub(super) lost: bool,
}

impl<'t> Reader<'t> {
    /// A reader that takes all braces for paired.
    pub(super) fn new(text: &'t str, tokens: &'t [Token]) -> Self {
        let line_start = if text.starts_with('\u{feff}') { 3 } else { 0 };
        let mut reader = Self {
            text,
            tokens,
            at: 0,
            words: Vec::with_capacity(16),
            frames: Vec::new(),
            balance: Balance::default(),
            misplaced: None,
            top: Vec::new(),
            problems: Vec::new(),
            line_start,
            indent: 0,
            before: Before::Nothing,
            stray: false,
            lost: false,
        };
        reader.indent = reader.white_from(line_start);
        reader
    }

    /// How many spaces and tabs stand from `start`.
    fn white_from(&self, start: u32) -> u32 {
        let line = self.text.get(start.to_usize()..).unwrap_or("");
        line.bytes().take_while(|byte| matches!(byte, b' ' | b'\t')).count().to_u32()
    }

    /// Goes on to what begins at this byte, the start of a line; it is the token of that number.
    pub(super) fn begin_at(&mut self, line_start: usize, token: usize) {
        self.at = token;
        if line_start > 0 {
            self.line_start = line_start.to_u32();
            self.indent = self.white_from(self.line_start);
        }
    }

    /// The statements at the top and the problems, in order of place.
    pub(super) fn finish(mut self) -> (Vec<Statement>, Vec<Problem>) {
        self.problems.sort_by_key(|problem| (problem.span.start, problem.span.end));
        (self.top, self.problems)
    }

    fn read_all(&mut self) {
        while let Some(token) = self.peek() {
            self.read_next(token);
        }
        self.end_text();
    }

    /// Ends the blocks that are still open: one problem for all, as one place is where they were to end.
    fn end_text(&mut self) {
        let opened = self.frames.iter().filter_map(|frame| self.tokens.get(frame.open));
        let opened: Vec<Span> = opened.map(|open| open.span).collect();
        if !opened.is_empty() && !self.lost {
            let end = crate::to_offset(self.text.len());
            self.problem(Span { start: end, end }, ProblemKind::OpenAtEnd { opened });
        }
        while !self.frames.is_empty() {
            self.pop(None);
        }
    }

    /// Reads a statement, a row, or what is between two; `token` is ahead.
    pub(super) fn read_next(&mut self, token: Token) {
        match token.kind {
            TokenKind::Comment => self.advance(),
            TokenKind::Newline => self.end_line(),
            TokenKind::CloseBrace if self.closes() => self.close(token),
            _ if self.place().is_chart() => self.chart_row(),
            _ => self.statement(),
        }
    }

    pub(crate) fn peek(&self) -> Option<Token> {
        self.tokens.get(self.at).copied()
    }

    pub(crate) fn advance(&mut self) {
        if let Some(token) = self.peek().filter(|token| token.kind == TokenKind::Newline) {
            self.line_start = token.span.end;
            self.indent = self.white_from(token.span.end);
        }
        self.at += 1;
    }

    pub(crate) fn problem(&mut self, span: Span, kind: ProblemKind) {
        self.problems.push(Problem { span, kind });
    }

    /// How many problems are reported so far.
    pub(crate) fn known_problems(&self) -> usize {
        self.problems.len()
    }

    /// Of a statement that does not parse only the first problem since `told` is kept, or `problem` if that stands
    /// before: what follows mostly follows from it.
    pub(crate) fn keep_first(&mut self, known_problems: usize, problem: Option<Problem>) {
        let slips = self.problems.split_off(known_problems);
        let first = slips.into_iter().chain(problem).rev().min_by_key(|problem| problem.span.start);
        self.problems.extend(first);
    }

    /// Nothing else is reported of a statement that is refused as a whole.
    pub(crate) fn replace_since(&mut self, known_problems: usize, problem: Option<Problem>) {
        self.problems.truncate(known_problems);
        self.problems.extend(problem);
    }

    /// What may be here.
    pub(crate) fn place(&self) -> Zone {
        self.frames.last().map_or(Zone::Top, |frame| frame.place)
    }

    pub(crate) fn at_line_start(&self) -> bool {
        self.before == Before::Nothing
    }

    /// By how many bytes the line of the token ahead is indented. What is before the token on its line does not
    /// count, so that spaces between words mean nothing.
    pub(crate) fn indent(&self) -> u32 {
        self.indent
    }

    /// Takes note that a statement or a row begins here.
    pub(crate) fn begin_in_block(&mut self) {
        self.stray = false;
        let (before, indent) = (self.before, self.indent());
        if before == Before::Statement
            && let Some(token) = self.peek()
        {
            self.unexpected(token.span, Expected::LineEnd);
        }
        if let Some(frame) = self.frames.last_mut() {
            frame.inline |= before == Before::Open;
            if before == Before::Nothing {
                frame.inner.get_or_insert(indent);
            }
        }
    }

    /// Takes note that a statement or a row ends here.
    pub(crate) fn ended(&mut self) {
        self.before = Before::Statement;
    }

    pub(crate) fn unexpected(&mut self, span: Span, expected: Expected) {
        self.problem(span, ProblemKind::Unexpected { expected: vec![expected] });
    }

    /// Opens the block of a statement: what it holds, its `{` in the list of tokens, the indentation of its line.
    pub(crate) fn open(&mut self, statement: Statement, place: Zone, open: usize, indent: u32) {
        let misplaced = self.misplaced.take();
        self.frames.push(Frame { place, open, indent, misplaced, ..Frame::new(statement) });
        self.before = Before::Open;
    }

    pub(crate) fn add(&mut self, statement: Statement) {
        match self.frames.last_mut() {
            Some(frame) => frame.statements.push(statement),
            None => self.top.push(statement),
        }
    }

    pub(super) fn pop(&mut self, close: Option<Span>) {
        if let Some(frame) = self.frames.pop() {
            self.misplaced = frame.misplaced;
            self.add(frame.close(close));
        }
    }

    /// Ends the innermost block without its `}`.
    pub(crate) fn close_missing(&mut self) {
        if let Some(open) = self.frames.last().and_then(|frame| self.tokens.get(frame.open)) {
            self.problem(open.span, ProblemKind::MissingClose);
        }
        self.pop(None);
    }

    /// Passes over a block too deep to be read, after its `{`.
    pub(crate) fn skip_block(&mut self) {
        let mut depth = 1;
        while let Some(token) = self.peek().filter(|_| depth > 0) {
            match token.kind {
                TokenKind::OpenBrace => depth += 1,
                TokenKind::CloseBrace => depth -= 1,
                _ => {}
            }
            self.advance();
        }
        self.lost |= depth > 0;
    }
}
