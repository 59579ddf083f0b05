//! The lines of a chart.

use super::place::{Place, belongs};
use super::reader::Reader;
use crate::tree::{ChartRow, Mark, Sign};
use crate::{ProblemKind, Span, Token, TokenKind, words};

impl Reader<'_> {
    /// Reads one row, or ends a chart whose `}` is missing. There is a token ahead that is no comment, no line's end
    /// and not the chart's own `}`.
    pub(crate) fn chart_row(&mut self) {
        let Some(first) = self.peek() else { return };
        let statement = self.statement_in_chart(first);
        if statement.is_some() && self.close_unclosed_chart() {
            return;
        }
        self.begin_in_block();
        let within_braces = self.frames.last().is_some_and(|frame| frame.stray > 0);
        let mut row = ChartRow { span: first.span, marks: Vec::new(), whole: !within_braces };
        if let Some(word) = statement {
            let kind = ProblemKind::Misplaced { statement: word.text, belongs: belongs(word) };
            self.problem(first.span, kind);
            row.whole = false;
        }
        while let Some(token) = self.peek().filter(|token| self.is_in_row(token)) {
            self.read_marks(token, &mut row);
            self.advance();
        }
        if let Some(frame) = self.frames.last_mut() {
            frame.rows.push(row);
        }
        self.ended();
    }

    fn statement_in_chart(&self, first: Token) -> Option<&'static words::Word> {
        words::statement(first.span.of(self.text))
            .filter(|_| first.kind == TokenKind::Word && self.at_line_start())
    }

    fn close_unclosed_chart(&mut self) -> bool {
        let lacks = self.frames.last().is_some_and(|frame| self.balance.lacks_close(frame.open));
        if lacks {
            self.close_missing();
        }
        lacks
    }

    fn is_in_row(&self, token: &Token) -> bool {
        match token.kind {
            TokenKind::Newline | TokenKind::Comment => false,
            TokenKind::CloseBrace => self.frames.last().is_some_and(|frame| frame.stray > 0),
            _ => true,
        }
    }

    /// The marks of one token, until one is unknown; only the first unknown one of a row is told.
    fn read_marks(&mut self, token: Token, row: &mut ChartRow) {
        self.count_stray_brace(token.kind);
        row.span = row.span.to(token.span);
        let place = self.place();
        for (at, character) in token.span.of(self.text).char_indices() {
            let offset = token.span.start + at as u32;
            match sign(character, place).filter(|_| row.whole) {
                Some(sign) => row.marks.push(Mark { offset, sign }),
                None if row.whole => {
                    row.whole = false;
                    let unknown = Span { start: offset, end: offset + character.len_utf8() as u32 };
                    self.problem(unknown, ProblemKind::UnknownMark);
                }
                None => return,
            }
        }
    }

    fn count_stray_brace(&mut self, kind: TokenKind) {
        if let Some(frame) = self.frames.last_mut() {
            match kind {
                TokenKind::OpenBrace => frame.stray += 1,
                TokenKind::CloseBrace => frame.stray = frame.stray.saturating_sub(1),
                _ => {}
            }
        }
    }
}

fn sign(character: char, place: Place) -> Option<Sign> {
    Some(match (character, place) {
        ('.', _) => Sign::Dot,
        ('#', Place::Leader) => Sign::Hash,
        (_, Place::Leader) => return None,
        ('\\', _) => Sign::Forward,
        ('/', _) => Sign::Backward,
        ('>', _) => Sign::ForwardBackward,
        ('<', _) => Sign::BackwardForward,
        ('x', _) => Sign::Same,
        _ => return None,
    })
}
