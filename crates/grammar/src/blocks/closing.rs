//! Where blocks end: at their `}`, and where it is missing or too many.

use super::reader::{Before, Reader};
use crate::{Expected, ProblemKind, Span, Token, TokenKind};

impl Reader<'_> {
    pub(super) fn end_line(&mut self) {
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
            self.unexpected(Span { start: end, end }, Expected::CloseBrace);
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
    pub(super) fn closes(&self) -> bool {
        self.frames.last().is_none_or(|frame| frame.stray == 0)
    }

    pub(super) fn close(&mut self, token: Token) {
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
            self.unexpected(close, Expected::LineEnd);
        }
        self.stray = false;
        self.pop(Some(close));
    }
}
