//! A text that was read before is read again after an edit: only the statements that it touches, with what can be
//! touched through them. What is after them moves along.
//!
//! The invariant: what comes of it is always what [`parse`](crate::parse) says of the whole text, to the last span. The
//! tests of this crate hold it, over random edits one after another.
//!
//! How it goes:
//! 1. The lines that the edit touches are lexed. No token reaches over the end of a line, so all others stay; those
//!    after it move.
//! 2. The innermost block is found between whose braces these lines lie, and in it the region: the statements on these
//!    lines, the one before (it may run on), and neighbors until nothing else is on the same lines and nothing
//!    broken is next to it, as several broken lines have one problem ([`region`]).
//! 3. The region is parsed as if the blocks around it were open. It is good only if each brace in it finds its partner
//!    in it; then its statements and problems take the place of the old ones, and all places after them move.
//!
//! Where that cannot be, everything is read again from the tokens: braces that do not pair up, marks of a conflict,
//! and a newer edition concern the whole file. A parser that begins at the edit and goes on until it agrees with the old tree
//! was not taken: a missing brace changes what all lines after it mean, so it would read to the end in the same cases, and it
//! would have to know the state of the parser at each statement.
//!
//! Moving all places after the edit is the price of spans that count from the start of the file; in 10,000 lines it
//! is a tenth of what an edit costs (docs/performance.md), and all who read spans are simpler for it.

mod region;

use crate::blocks::{self, BlockPart};
use crate::parse::{LARGEST_TEXT, comments, conflict_mark, newer_edition, parse, read};
use crate::tree::{Child, Field, Gives, Statement};
use crate::{Parsed, Problem, Splice, Token, lexer};
use knotwright_numbers::ToNumber;
use region::{Lines, Region};
use smol_str::SmolStr;
use std::ops::Range;

/// A text that was read again.
#[derive(Debug, Clone)]
pub struct Reparsed {
    /// What [`parse`](crate::parse) says of it.
    pub parsed: Parsed,
    /// The lines that were read again; all, if it was read from the start. Outside of these, each token and each
    /// statement is what it was, and each name stands for what it stood for.
    pub lines: Splice,
}

/// Reads `text`, which came of one that was read as `old` by this `splice`; sooner than [`parse`](crate::parse) does.
pub fn reparse(old: Parsed, splice: Splice, text: &str) -> Reparsed {
    if splice.is_empty() {
        return Reparsed { parsed: old, lines: splice };
    }
    let length_before = text.len() - splice.new_end + splice.old_end;
    if !old.paired || text.len() > LARGEST_TEXT {
        return Reparsed { parsed: parse(text), lines: whole(length_before, text) };
    }
    Edited { old, length_before, text, splice }.read()
}

fn whole(length_before: usize, text: &str) -> Splice {
    Splice { start: 0, old_end: length_before, new_end: text.len() }
}

struct Edited<'t> {
    old: Parsed,
    /// How long the text was before.
    length_before: usize,
    text: &'t str,
    splice: Splice,
}

impl Edited<'_> {
    fn read(mut self) -> Reparsed {
        let whole = whole(self.length_before, self.text);
        let from_start = |parsed| Reparsed { parsed, lines: whole };
        let lines = self.lines();
        let touched = self.text.get(lines.start..self.now(lines.end));
        if touched.is_none_or(|touched| conflict_mark(touched).is_some()) {
            return from_start(parse(self.text));
        }
        let found = self.region(&lines);
        if self.lex(lines).is_none() {
            return from_start(parse(self.text));
        }
        let Some(region) = found.filter(|_| newer_edition(self.text, &self.old.tokens).is_none()) else {
            return from_start(read(self.text, self.old.tokens));
        };
        match self.statements(&region) {
            Some((statements, problems)) => match self.join(&region, statements) {
                Some(has_same_names) => {
                    self.tell(&region.bytes, problems);
                    let lines = if has_same_names { self.reread(&region.bytes) } else { whole };
                    Reparsed { parsed: self.old, lines }
                }
                None => from_start(parse(self.text)),
            },
            None => from_start(read(self.text, self.old.tokens)),
        }
    }

    /// What is there now in the place of these lines of the text before.
    fn reread(&self, lines: &Range<usize>) -> Splice {
        Splice { start: lines.start, old_end: lines.end, new_end: self.now(lines.end) }
    }

    /// The lines of the text before in which something was edited. A line break before them that the edit touches may
    /// have become half of one, so the line above belongs to them.
    fn lines(&self) -> Range<usize> {
        let lines = self.old_lines();
        lines.start(self.splice.start.saturating_sub(1))..lines.end(self.splice.old_end)
    }

    fn old_lines(&self) -> Lines<'_> {
        Lines { tokens: &self.old.tokens, length: self.length_before }
    }

    fn region(&self, lines: &Range<usize>) -> Option<Region> {
        region::find(&self.old.tree.statements, lines, &(0..self.length_before), self.old_lines())
    }

    /// Where a place after the edit is now.
    fn now(&self, offset: usize) -> usize {
        offset.wrapping_add_signed(self.splice.by() as isize)
    }

    /// Brings the tokens up to date. `None` if they cannot be joined.
    fn lex(&mut self, lines: Range<usize>) -> Option<()> {
        let fresh = lexer::lex_part(self.text, lines.start..self.now(lines.end))?;
        let old = self.old_lines();
        let replaced = old.token(lines.start)..old.token(lines.end);
        let after = replaced.start + fresh.len();
        self.comments(&lines, &fresh);
        let tokens = &mut self.old.tokens;
        tokens.splice(replaced, fresh);
        shift(&mut tokens[after..], self.splice.by());
        Some(())
    }

    /// Puts the comments of `fresh` in the place of those that stood in `lines`.
    fn comments(&mut self, lines: &Range<usize>, fresh: &[Token]) {
        let all = &mut self.old.comments;
        let before = |offset: usize| all.partition_point(|comment| comment.start.to_usize() < offset);
        let replaced = before(lines.start)..before(lines.end);
        shift(&mut all[replaced.end..], self.splice.by());
        all.splice(replaced, comments(fresh));
    }

    /// What is in a region now; `None` if it is not set apart any more from what is around it.
    fn statements(&self, region: &Region) -> Option<(Vec<Statement>, Vec<Problem>)> {
        let text = Lines { tokens: &self.old.tokens, length: self.text.len() };
        let start = region.bytes.start;
        let part = BlockPart { tokens: text.token(start)..text.token(self.now(region.bytes.end)), start };
        let mut around = Vec::with_capacity(region.path.len());
        let mut statements = &self.old.tree.statements;
        for &at in &region.path {
            let statement = statements.get(at)?;
            around.push(&statement.node);
            statements = &statement.node.block()?.statements;
        }
        blocks::read_part(self.text, text.tokens, part, &around)
    }

    /// Puts statements in the place of those of a region. Whether they give the same names to what is outside; `None` if
    /// they cannot be put there.
    fn join(&mut self, region: &Region, statements: Vec<Statement>) -> Option<bool> {
        let by = self.splice.by();
        let mut list = &mut self.old.tree.statements;
        for &at in &region.path {
            shift(&mut list[at + 1..], by);
            let around = &mut list[at];
            around.span.end.shift(by);
            let block = around.node.block_mut()?;
            block.close.shift(by);
            list = &mut block.statements;
        }
        shift(&mut list[region.statements.end..], by);
        let now = given(&statements);
        let before: Vec<Statement> = list.splice(region.statements.clone(), statements).collect();
        Some(given(&before) == now)
    }

    /// Reports what is wrong in a region instead of what was.
    fn tell(&mut self, region: &Range<usize>, problems: Vec<Problem>) {
        let shown = &mut self.old.problems;
        let start = shown.partition_point(|problem| problem.span.start.to_usize() < region.start);
        // What is missing at the end of the text is reported after its last byte.
        let is_last = region.end == self.length_before;
        let end = shown.partition_point(|problem| is_last || problem.span.start.to_usize() < region.end);
        shift(&mut shown[end..], self.splice.by());
        shown.splice(start..end, problems);
    }
}

impl Parsed {
    /// What was read, as a part of a longer text in which it stands behind that many bytes.
    pub fn behind(mut self, bytes: usize) -> Self {
        let by = i32::try_from(bytes).unwrap_or(i32::MAX);
        shift(&mut self.tree.statements, by);
        shift(&mut self.tokens, by);
        shift(&mut self.problems, by);
        shift(&mut self.comments, by);
        self
    }
}

/// The names that statements give, those in their blocks left out: these are not known outside.
fn given(statements: &[Statement]) -> Vec<(Gives, SmolStr)> {
    let mut names = Vec::new();
    for statement in statements {
        statement.node.children(&mut |child| {
            if let Child::Gives(what, name) = child {
                names.push((what, name.text.clone()));
            }
        });
    }
    names
}

fn shift<T: Field>(list: &mut [T], by: i32) {
    if by != 0 {
        list.iter_mut().for_each(|one| one.shift(by));
    }
}

impl Field for Token {
    fn shift(&mut self, by: i32) {
        self.span.shift(by);
    }
}

impl Field for Problem {
    fn shift(&mut self, by: i32) {
        self.span.shift(by);
    }
}
