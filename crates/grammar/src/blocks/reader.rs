//! Goes through the tokens of a file once, with the open blocks on a stack of its own: no depth of text is a depth
//! of calls.

use super::balance::Balance;
use super::frame::Frame;
use super::place::Place;
use crate::syntax::Tok;
use crate::tree::{Statement, Tree};
use crate::{Problem, ProblemKind, Span, Token, TokenKind};

/// The statements of a text, and what does not parse, in order of place.
pub(crate) fn read(text: &str, tokens: &[Token]) -> (Tree, Vec<Problem>) {
    let mut reader = Reader::new(text, tokens);
    reader.read_all();
    reader.problems.sort_by_key(|problem| (problem.span.start, problem.span.end));
    (Tree { statements: reader.top }, reader.problems)
}

/// What stands before the next token on its line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Before {
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
    pub(crate) misplaced: Option<&'static str>,
    top: Vec<Statement>,
    problems: Vec<Problem>,
    line_start: u32,
    before: Before,
    /// Whether a `}` too many was just told.
    stray: bool,
    /// Whether the text ended within blocks too deep to be read.
    lost: bool,
}

impl<'t> Reader<'t> {
    fn new(text: &'t str, tokens: &'t [Token]) -> Self {
        Self {
            text,
            tokens,
            at: 0,
            words: Vec::with_capacity(16),
            frames: Vec::new(),
            balance: Balance::of(tokens),
            misplaced: None,
            top: Vec::new(),
            problems: Vec::new(),
            line_start: if text.starts_with('\u{feff}') { 3 } else { 0 },
            before: Before::Nothing,
            stray: false,
            lost: false,
        }
    }

    fn read_all(&mut self) {
        while let Some(token) = self.peek() {
            match token.kind {
                TokenKind::Comment => self.advance(),
                TokenKind::Newline => self.end_line(),
                TokenKind::CloseBrace if self.closes() => self.close(token),
                _ if self.place().is_chart() => self.chart_row(),
                _ => self.statement(),
            }
        }
        while !self.frames.is_empty() {
            if self.lost { self.pop(None) } else { self.close_missing() }
        }
    }

    pub(crate) fn peek(&self) -> Option<Token> {
        self.tokens.get(self.at).copied()
    }

    pub(crate) fn advance(&mut self) {
        if let Some(token) = self.peek().filter(|token| token.kind == TokenKind::Newline) {
            self.line_start = token.span.end;
        }
        self.at += 1;
    }

    pub(crate) fn problem(&mut self, span: Span, kind: ProblemKind) {
        self.problems.push(Problem { span, kind });
    }

    /// How many problems are told so far.
    pub(crate) fn told(&self) -> usize {
        self.problems.len()
    }

    /// Of a statement that does not parse only the first problem since `told` is kept, or `problem` if that stands
    /// before: what follows mostly follows from it.
    pub(crate) fn keep_first(&mut self, told: usize, problem: Option<Problem>) {
        let slips = self.problems.split_off(told);
        let first = slips.into_iter().chain(problem).rev().min_by_key(|problem| problem.span.start);
        self.problems.extend(first);
    }

    /// Of a statement that is refused whole nothing else is told.
    pub(crate) fn replace_since(&mut self, told: usize, problem: Option<Problem>) {
        self.problems.truncate(told);
        self.problems.extend(problem);
    }

    /// What may stand here.
    pub(crate) fn place(&self) -> Place {
        self.frames.last().map_or(Place::Top, |frame| frame.place)
    }

    pub(crate) fn at_line_start(&self) -> bool {
        self.before == Before::Nothing
    }

    /// By how many bytes the line of the token ahead is indented. What stands before the token on its line does not
    /// count, so that spaces between words mean nothing.
    pub(crate) fn indent(&self) -> u32 {
        let line = self.text.get(self.line_start as usize..).unwrap_or("");
        line.bytes().take_while(|byte| matches!(byte, b' ' | b'\t')).count() as u32
    }

    /// Takes note that a statement or a row begins here.
    pub(crate) fn begin_in_block(&mut self) {
        self.stray = false;
        let (before, indent) = (self.before, self.indent());
        if before == Before::Statement
            && let Some(token) = self.peek()
        {
            self.unexpected(token.span, "the end of the line");
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

    pub(crate) fn unexpected(&mut self, span: Span, expected: &'static str) {
        self.problem(span, ProblemKind::Unexpected { expected: vec![expected] });
    }

    /// Opens the block of a statement: what it holds, its `{` in the list of tokens, the indentation of its line.
    pub(crate) fn open(&mut self, statement: Statement, place: Place, open: usize, indent: u32) {
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

    fn pop(&mut self, close: Option<Span>) {
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

    /// Passes over a block too deep to be read, from behind its `{`.
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

    fn end_line(&mut self) {
        if self.before == Before::Statement {
            self.end_inline_block();
        }
        self.advance();
        self.before = Before::Nothing;
    }

    /// A block begun on one line ends on it.
    fn end_inline_block(&mut self) {
        while self.frames.last().is_some_and(|frame| frame.inline) {
            if self.next_line_is_outside() {
                self.close_missing();
                continue;
            }
            let end = self.tokens[..self.at].iter().rev().find(|token| token.kind != TokenKind::Comment);
            let end = end.map_or(0, |token| token.span.end);
            self.unexpected(Span { start: end, end }, "`}`");
            self.frames.iter_mut().for_each(|frame| frame.inline = false);
        }
    }

    /// Whether a `}` is missing in the file and the next line is indented no more than that of the open block.
    fn next_line_is_outside(&self) -> bool {
        let Some(frame) = self.frames.last().filter(|frame| self.balance.lacks_close(frame.open)) else {
            return false;
        };
        let mut start = self.line_start;
        for token in &self.tokens[self.at..] {
            match token.kind {
                TokenKind::Newline => start = token.span.end,
                TokenKind::Comment => {}
                TokenKind::CloseBrace => return token.span.start - start < frame.indent,
                _ => return token.span.start - start <= frame.indent,
            }
        }
        true
    }

    /// Whether a `}` is one of a block, and not one within a line of a chart that holds braces.
    fn closes(&self) -> bool {
        self.frames.last().is_none_or(|frame| frame.stray == 0)
    }

    fn close(&mut self, token: Token) {
        if self.at_line_start() {
            let indent = self.indent();
            while self
                .frames
                .last()
                .is_some_and(|frame| frame.indent > indent && self.balance.lacks_close(frame.open))
            {
                self.close_missing();
            }
        }
        if self.is_stray() {
            self.tell_stray(token.span);
        } else {
            self.close_innermost(token.span);
        }
        self.advance();
        self.before = Before::Statement;
    }

    fn is_stray(&mut self) -> bool {
        let Some(frame) = self.frames.last() else { return true };
        let deeper = self.at_line_start() && self.indent() > frame.indent;
        deeper && self.balance.take_surplus(self.at)
    }

    fn tell_stray(&mut self, span: Span) {
        if !self.stray {
            self.problem(span, ProblemKind::StrayClose);
        }
        self.stray = true;
    }

    fn close_innermost(&mut self, close: Span) {
        let inline = self.frames.last().is_some_and(|frame| frame.inline);
        if self.before == Before::Statement && !inline {
            self.unexpected(close, "the end of the line");
        }
        self.stray = false;
        self.pop(Some(close));
    }
}
