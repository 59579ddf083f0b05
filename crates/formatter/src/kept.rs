//! The lines that stay byte for byte.

use crate::parts::{Parts, own, parts};
use knotwright_grammar::tree::{Broken, Statement};
use knotwright_grammar::{Parsed, Problem, Span, Token, TokenKind};

/// Which lines stay as they are: those of statements that do not parse.
pub(crate) struct KeptLines {
    /// Where each line but the first begins.
    starts: Vec<u32>,
    kept: Vec<bool>,
}

impl KeptLines {
    /// The lines of problems, and of statements and rows of charts that have one.
    pub(crate) fn of(parsed: &Parsed) -> Self {
        let mut lines = Self::none(&parsed.tokens);
        for problem in &parsed.problems {
            lines.keep(problem.span);
        }
        for statement in parsed.tree.walk() {
            if is_broken(statement, &parsed.problems) {
                lines.keep(own(statement));
            }
            if let Parts::Chart(chart, _) = parts(&statement.node) {
                chart.rows.iter().filter(|row| !row.whole).for_each(|row| lines.keep(row.span));
            }
        }
        lines
    }

    fn none(tokens: &[Token]) -> Self {
        let ends = tokens.iter().filter(|token| token.kind == TokenKind::Newline);
        let starts: Vec<u32> = ends.map(|token| token.span.end).collect();
        let kept = vec![false; starts.len() + 1];
        Self { starts, kept }
    }

    /// Keeps every line that `span` touches.
    pub(crate) fn keep(&mut self, span: Span) {
        let (first, last) = (self.line_of(span.start), self.line_of(span.end));
        self.kept[first..=last.max(first)].fill(true);
    }

    /// Whether `line`, from 0, stays.
    pub(crate) fn keeps(&self, line: usize) -> bool {
        self.kept.get(line).is_some_and(|&kept| kept)
    }

    /// The line of `offset`, from 0.
    pub(crate) fn line_of(&self, offset: u32) -> usize {
        self.starts.partition_point(|&start| start <= offset)
    }
}

/// Whether there is a problem in the statement itself, its block left out.
fn is_broken(statement: &Statement, problems: &[Problem]) -> bool {
    let own = own(statement);
    let first = problems.partition_point(|problem| problem.span.start < own.start);
    let problem = problems.get(first).is_some_and(|problem| problem.span.start <= own.end);
    problem || statement.is::<Broken>()
}
