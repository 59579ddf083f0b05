//! A text that was read before is read again after an edit: only the statements that it touches, with what can be
//! touched through them. What is behind them moves along.
//!
//! What comes of it is always what [`parse`](crate::parse) says of the whole text. Where that cannot be
//! known, everything is read again: braces that do not pair up, and a newer edition, concern the whole file.

mod difference;
mod region;

use crate::parse::{LARGEST_TEXT, comments, newer_edition, parse, read};
use crate::tree::{Shift, Statement};
use crate::{Parsed, Problem, Token, blocks, lexer};
pub use difference::Difference;
use region::{Lines, Region};
use std::ops::Range;

/// Reads `text`, of which `before` was read as `old`. The same as [`parse`](crate::parse) of `text`, sooner.
pub fn reparse(old: Parsed, before: &str, text: &str) -> Parsed {
    let Some(difference) = Difference::of(before, text) else { return old };
    if !old.paired || text.len() > LARGEST_TEXT {
        return parse(text);
    }
    Edited { old, before, text, difference }.read()
}

struct Edited<'t> {
    old: Parsed,
    before: &'t str,
    text: &'t str,
    difference: Difference,
}

impl Edited<'_> {
    fn read(mut self) -> Parsed {
        let lines = self.lines();
        let found = self.region(&lines);
        if self.lex(lines).is_none() {
            return parse(self.text);
        }
        let Some(region) = found.filter(|_| newer_edition(self.text, &self.old.tokens).is_none()) else {
            return read(self.text, self.old.tokens);
        };
        match self.statements(&region) {
            Some((statements, problems)) => self.join(&region, statements, problems),
            None => read(self.text, self.old.tokens),
        }
    }

    /// The lines of the text before in which something was edited. A line break before them that the edit touches may
    /// have become half of one, so the line above belongs to them.
    fn lines(&self) -> Range<usize> {
        let lines = self.old_lines();
        lines.start(self.difference.start.saturating_sub(1))..lines.end(self.difference.before)
    }

    fn old_lines(&self) -> Lines<'_> {
        Lines { tokens: &self.old.tokens, length: self.before.len() }
    }

    fn region(&self, lines: &Range<usize>) -> Option<Region> {
        region::find(&self.old.tree.statements, lines, &(0..self.before.len()), self.old_lines())
    }

    /// Where a place behind the edit is now.
    fn now(&self, offset: usize) -> usize {
        offset.wrapping_add_signed(self.difference.by() as isize)
    }

    /// Brings the tokens up to date. `None` if they cannot be joined.
    fn lex(&mut self, lines: Range<usize>) -> Option<()> {
        let fresh = lexer::lex_part(self.text, lines.start..self.now(lines.end))?;
        let old = self.old_lines();
        let replaced = old.token(lines.start)..old.token(lines.end);
        let behind = replaced.start + fresh.len();
        self.comments(&lines, &fresh);
        let tokens = &mut self.old.tokens;
        tokens.splice(replaced, fresh);
        shift(&mut tokens[behind..], self.difference.by());
        Some(())
    }

    /// Puts the comments of `fresh` in the place of those that stood in `lines`.
    fn comments(&mut self, lines: &Range<usize>, fresh: &[Token]) {
        let all = &mut self.old.comments;
        let before = |offset: usize| all.partition_point(|comment| (comment.start as usize) < offset);
        let replaced = before(lines.start)..before(lines.end);
        shift(&mut all[replaced.end..], self.difference.by());
        all.splice(replaced, comments(fresh));
    }

    /// What stands in a region now; `None` if it is not set apart any more from what is around it.
    fn statements(&self, region: &Region) -> Option<(Vec<Statement>, Vec<Problem>)> {
        let text = Lines { tokens: &self.old.tokens, length: self.text.len() };
        let tokens = text.token(region.bytes.start)..text.token(self.now(region.bytes.end));
        let mut around = Vec::with_capacity(region.path.len());
        let mut statements = &self.old.tree.statements;
        for &at in &region.path {
            let statement = statements.get(at)?;
            around.push(&statement.node);
            statements = &statement.node.block()?.statements;
        }
        blocks::read_part(self.text, text.tokens, (tokens, region.bytes.start), &around)
    }

    fn join(mut self, region: &Region, statements: Vec<Statement>, problems: Vec<Problem>) -> Parsed {
        let by = self.difference.by();
        let mut list = &mut self.old.tree.statements;
        for &at in &region.path {
            shift(&mut list[at + 1..], by);
            let around = &mut list[at];
            around.span.end.shift(by);
            let Some(block) = around.node.block_mut() else { return parse(self.text) };
            block.close.shift(by);
            list = &mut block.statements;
        }
        shift(&mut list[region.statements.end..], by);
        list.splice(region.statements.clone(), statements);

        self.tell(&region.bytes, problems);
        self.old
    }

    /// Tells what is wrong in a region instead of what was.
    fn tell(&mut self, region: &Range<usize>, problems: Vec<Problem>) {
        let told = &mut self.old.problems;
        let start = told.partition_point(|problem| (problem.span.start as usize) < region.start);
        // What is missing at the end of the text is told behind its last byte.
        let is_last = region.end == self.before.len();
        let end = told.partition_point(|problem| is_last || (problem.span.start as usize) < region.end);
        shift(&mut told[end..], self.difference.by());
        told.splice(start..end, problems);
    }
}

fn shift<T: Shift>(list: &mut [T], by: i32) {
    if by != 0 {
        list.iter_mut().for_each(|one| one.shift(by));
    }
}

impl Shift for Token {
    fn shift(&mut self, by: i32) {
        self.span.shift(by);
    }
}

impl Shift for Problem {
    fn shift(&mut self, by: i32) {
        self.span.shift(by);
    }
}
