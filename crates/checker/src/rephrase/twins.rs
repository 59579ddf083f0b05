//! A line that opens a block, and stands there twice: one `}` is missing then, and most likely one line is too many.

use super::braces::line;
use crate::{Edit, FileId, Mend, Place, Source};
use knotwright_grammar::{Problem, ProblemKind, Span, Token, TokenKind};

/// Two lines that open a block in the same words, one below the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Twins {
    pub(crate) first: Span,
    pub(crate) second: Span,
}

impl Twins {
    /// Those because of which a `}` is missing.
    pub(crate) fn of(problem: &Problem, source: &Source) -> Option<Self> {
        match &problem.kind {
            ProblemKind::MissingClose => Self::at(problem.span, source),
            ProblemKind::OpenAtEnd { opened } => opened.iter().find_map(|open| Self::at(*open, source)),
            _ => None,
        }
    }

    /// Those to which the `{` at `open` belongs.
    pub(super) fn at(open: Span, source: &Source) -> Option<Self> {
        let tokens = &source.parsed.tokens;
        let at = tokens.partition_point(|token| token.span.start < open.start);
        let is_break = |token: &Token| token.kind == TokenKind::Newline;
        let before = tokens[..at].iter().rev().take_while(|token| !is_break(token)).count();
        let own = &tokens[at - before..(at + 1).min(tokens.len())];
        let above = tokens[..at - before].split(is_break).rev().find_map(code);
        let below = tokens.get(at + 1..)?.split(is_break).find_map(code);
        let is_same = |other: &[Token]| {
            let words = |line: &[Token]| -> Vec<&str> {
                line.iter().map(|token| token.span.of(&source.text)).collect()
            };
            other.len() == own.len() && words(other) == words(own)
        };
        let span = |line: &[Token]| Some(line.first()?.span.to(line.last()?.span));
        match (below.filter(|below| is_same(below)), above.filter(|above| is_same(above))) {
            (Some(below), _) => Some(Self { first: span(own)?, second: span(below)? }),
            (None, Some(above)) => Some(Self { first: span(above)?, second: span(own)? }),
            (None, None) => None,
        }
    }

    /// The second line left out.
    pub(super) fn leave_out_second(self, source: &Source, file: FileId) -> Mend {
        let (text, span) = (self.second.of(&source.text), line(source, self.second));
        let edits = vec![Edit { place: Place { file, span }, text: String::new() }];
        Mend::new(format!("leave out the second `{text}`"), edits, false)
    }
}

/// The words of a line without a remark, if there are any.
fn code(line: &[Token]) -> Option<&[Token]> {
    let is_remark = line.last().is_some_and(|last| last.kind == TokenKind::Comment);
    Some(&line[..line.len() - usize::from(is_remark)]).filter(|line| !line.is_empty())
}
