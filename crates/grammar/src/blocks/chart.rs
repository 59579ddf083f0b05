//! The lines of a chart.

use super::line::LineWatch;
use super::place::belongs;
use super::reader::Reader;
use crate::near::near;
use crate::tree::{ChartRow, Declaration, Mark, Sign, Zone};
use crate::{Belongs, ProblemKind, Span, Token, TokenKind, syntax, words};
use knotwright_numbers::ToNumber;

/// The word with which a line of a leader begins that stands for letters.
pub(super) const LETTERS: &str = "letters";

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
        let mut row = ChartRow { span: first.span, marks: Vec::new(), whole: !within_braces, letters: None };
        if self.place() == Zone::Leader && row.whole && first.span.of(self.text) == LETTERS {
            self.read_letters(&mut row);
        } else {
            if let Some(kind) = self.no_row(first, statement) {
                self.problem(first.span, kind);
                row.whole = false;
            }
            while let Some(token) = self.peek().filter(|token| self.is_in_row(token)) {
                self.read_marks(token, &mut row);
                self.advance();
            }
        }
        if let Some(frame) = self.frames.last_mut() {
            frame.rows.push(row);
        }
        self.ended();
    }

    fn statement_in_chart(&self, first: Token) -> Option<&'static Declaration> {
        words::find_statement(first.span.of(self.text))
            .filter(|_| first.kind == TokenKind::Word && self.at_line_start())
    }

    /// Why a line that begins so is no row, where its first word says it.
    fn no_row(&self, first: Token, statement: Option<&Declaration>) -> Option<ProblemKind> {
        // In a face, a word is letters, whatever it says.
        if self.place() == Zone::Face {
            return None;
        }
        if let Some(known) = statement {
            return Some(ProblemKind::Misplaced { statement: known.word.text, belongs: belongs(known) });
        }
        let word = first.span.of(self.text);
        match self.place() {
            Zone::Leader => {
                let meant = near(word, [LETTERS].into_iter()).first().map(|(_, meant)| *meant);
                Some(ProblemKind::Misspelled { meant: meant? })
            }
            _ if word == LETTERS => {
                Some(ProblemKind::Misplaced { statement: LETTERS, belongs: Belongs::Leader })
            }
            _ => None,
        }
    }

    /// Reads a line that stands for letters.
    fn read_letters(&mut self, row: &mut ChartRow) {
        let (known_problems, mut watch) = (self.known_problems(), LineWatch::default());
        self.words.clear();
        while let Some(token) = self.peek().filter(|token| self.is_in_row(token)) {
            self.count_stray_brace(token.kind);
            self.push(token, &mut watch);
            row.span = row.span.to(token.span);
            self.advance();
        }
        if watch.hopeless {
            self.keep_first(known_problems, None);
        } else {
            match syntax::parse_letters(&self.words) {
                Ok(letters) => row.letters = Some(Box::new(letters)),
                Err(account) => {
                    let problem = syntax::problem(account, &self.words, Zone::Leader);
                    self.keep_first(known_problems, Some(problem));
                }
            }
        }
        row.whole = row.letters.is_some();
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

    /// The marks of one token, until one is unknown; only the first unknown one of a row is reported.
    fn read_marks(&mut self, token: Token, row: &mut ChartRow) {
        self.count_stray_brace(token.kind);
        row.span = row.span.to(token.span);
        let place = self.place();
        for (at, character) in token.span.of(self.text).char_indices() {
            let offset = token.span.start + at.to_u32();
            match sign(character, place).filter(|_| row.whole) {
                Some(sign) => row.marks.push(Mark { offset, sign }),
                None if row.whole => {
                    row.whole = false;
                    let unknown = Span { start: offset, end: offset + character.len_utf8().to_u32() };
                    self.problem(unknown, ProblemKind::UnknownMark { chart: place });
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

fn sign(character: char, place: Zone) -> Option<Sign> {
    Some(match (character, place) {
        ('.', _) => Sign::Dot,
        ('?', Zone::Face) => Sign::Any,
        (letter, Zone::Face) => return letter.is_alphabetic().then_some(Sign::Letter(letter)),
        ('#', Zone::Leader) => Sign::Hash,
        (_, Zone::Leader) => return None,
        ('\\', _) => Sign::Forward,
        ('/', _) => Sign::Backward,
        ('>', _) => Sign::ForwardBackward,
        ('<', _) => Sign::BackwardForward,
        ('x', _) => Sign::Same,
        _ => return None,
    })
}
