//! A line that opens a block, and stands there twice: one `}` is missing then, and most likely one line is too many.

use super::braces::line;
use crate::{Edit, FileId, Mend, Place, Source};
use knotwright_grammar::{Problem, ProblemKind, Span, Token, TokenKind};

/// How many of a file are proposed to be left out.
const MOST: usize = 2;

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
        let is_theirs = |twins: &Twins| [twins.first.end, twins.second.end].contains(&open.end);
        all(source).into_iter().find(is_theirs)
    }
}

/// The second line left out, of the twins nearest to `open`.
pub(super) fn leave_out_twin(open: Span, source: &Source, file: FileId) -> Vec<Mend> {
    let mut all = all(source);
    all.sort_by_key(|twins| twins.first.end.abs_diff(open.end));
    let mend = |twins: Twins| {
        let (text, span) = (twins.second.of(&source.text), line(source, twins.second));
        let edits = vec![Edit { place: Place { file, span }, text: String::new() }];
        Mend::new(format!("leave out the second `{text}`"), edits, false)
    };
    all.into_iter().take(MOST).map(mend).collect()
}

fn all(source: &Source) -> Vec<Twins> {
    let lines: Vec<&[Token]> = lines(source).collect();
    let words =
        |line: &[Token]| -> Vec<&str> { line.iter().map(|token| token.span.of(&source.text)).collect() };
    let opens = |line: &[Token]| line.last().is_some_and(|last| last.kind == TokenKind::OpenBrace);
    let twins = lines.windows(2).filter(|two| opens(two[0]) && words(two[0]) == words(two[1]));
    let span = |line: &[Token]| line[0].span.to(line[line.len() - 1].span);
    twins.map(|two| Twins { first: span(two[0]), second: span(two[1]) }).collect()
}

/// The words of each line in which something stands, without remarks.
fn lines(source: &Source) -> impl Iterator<Item = &[Token]> {
    let lines = source.parsed.tokens.split(|token| token.kind == TokenKind::Newline);
    let code = lines.map(|line| {
        let is_remark = line.last().is_some_and(|last| last.kind == TokenKind::Comment);
        &line[..line.len() - usize::from(is_remark)]
    });
    code.filter(|line| !line.is_empty())
}
