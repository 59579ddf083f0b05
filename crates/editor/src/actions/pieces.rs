//! Statements that stand side by side, and what they tie as a piece by itself.

use crate::Checked;
use crate::site::{Site, holds};
use crate::views;
use knotwright_band::{Kind, Piece};
use knotwright_checker::{FileId, Spot, View};
use knotwright_grammar::tree::{Block, Statement};
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;

/// Neighbors in one block.
#[derive(Debug, Clone, Copy)]
pub(super) struct Siblings<'c> {
    pub(super) block: &'c Block,
    /// The number of the first, and the one after the last.
    pub(super) first: usize,
    pub(super) last: usize,
}

impl<'c> Siblings<'c> {
    /// The statements that `range` touches, as deep within blocks as they still are neighbors; for a cursor, the
    /// statement it is in.
    pub(super) fn of(checked: &'c Checked, range: Span) -> Option<Self> {
        let site = Site::at(checked.source(), range.start);
        let around = |statement: &&Statement| {
            let block = statement.node.block();
            block.is_some_and(|block| {
                holds(block, statement, range.start) && holds(block, statement, range.end)
            })
        };
        let block = site.path.iter().rev().copied().find(|statement| around(statement))?.node.block()?;
        let touches = |statement: &Statement| statement.span.meets(range);
        let first = block.statements.iter().position(touches)?;
        let count = block.statements[first..].iter().take_while(|statement| touches(statement)).count();
        Some(Self { block, first, last: first + count })
    }

    /// The statements.
    pub(super) fn statements(&self) -> &'c [Statement] {
        &self.block.statements[self.first..self.last]
    }

    /// From the first to the last.
    pub(super) fn span(&self) -> Span {
        let all = self.statements();
        match (all.first(), all.last()) {
            (Some(first), Some(last)) => first.span.to(last.span),
            _ => Span::default(),
        }
    }

    fn spot(&self, index: usize) -> Spot {
        Spot { file: FileId::CHECKED, block: self.block.open.start, index }
    }

    /// How the strands hang before them, and the piece that they tie there, on the strands of the range, as the text
    /// counts; `None` if they are never tied, or not in one go.
    pub(super) fn piece(&self, checked: &Checked) -> Option<(View, Piece)> {
        let before = checked.look(self.spot(self.first), &[]).filter(|view| !view.blind)?;
        let after = checked.look(self.spot(self.last), &[]).filter(|view| !view.blind)?;
        let part = checked.part(before.part).filter(|_| before.part == after.part)?;
        let (start, end) = (usize::try_from(before.knots).ok()?, usize::try_from(after.knots).ok()?);
        let knots = part.piece.knots().get(start..end)?;
        let straight = part
            .piece
            .straight()
            .iter()
            .any(|rows| rows.start.to_usize() < end && start < rows.end.to_usize());
        if straight || knots.is_empty() {
            return None;
        }
        let (low, width) = (before.within.0, views::width(&before));
        let steps: Option<Vec<(u8, Kind)>> =
            knots.iter().map(|knot| Some((knot.gap.checked_sub(low)?, knot.kind))).collect();
        let piece = Piece::tie(width, steps?).ok()?;
        let piece = if before.mirrored { piece.mirrored() } else { piece };
        Some((before, piece))
    }

    /// Whether comments stand among them; those would be lost.
    pub(super) fn has_comments(&self, checked: &Checked) -> bool {
        let span = self.span();
        let within = |at: Span| span.start <= at.start && at.end <= span.end;
        checked
            .source()
            .parsed
            .tokens
            .iter()
            .any(|token| token.kind == TokenKind::Comment && within(token.span))
    }
}

/// The line of `offset`, without its line break.
pub(super) fn line_of(text: &str, offset: u32) -> Span {
    Span { start: offset, end: offset }.whole_lines(text)
}

/// The white space before the first word of the line of `offset`.
pub(super) fn indent(text: &str, offset: u32) -> &str {
    let line = line_of(text, offset).of(text);
    &line[..line.len() - line.trim_start_matches([' ', '\t']).len()]
}

/// A line without that indent, where it has it.
pub(super) fn dedented<'l>(line: &'l str, indent: &str) -> &'l str {
    line.strip_prefix(indent).unwrap_or(line)
}

/// Whether nothing but white space is before `offset` on its line.
pub(super) fn begins_line(text: &str, offset: u32) -> bool {
    Span { end: offset, ..line_of(text, offset) }.of(text).trim().is_empty()
}
