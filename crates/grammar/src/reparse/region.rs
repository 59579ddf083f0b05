//! Which statements an edit touches.

use crate::tree::{Block, Broken, Statement};
use crate::{Token, TokenKind};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// Whole statements of one block, to be read again. Everything here is as it was before the edit.
#[derive(Debug)]
pub(super) struct Region {
    /// Where the block is: the number of a statement at the top, of one in its block, and so on.
    pub(super) path: Vec<usize>,
    /// The statements.
    pub(super) statements: Range<usize>,
    /// Their lines, to the byte; nothing else is in these.
    pub(super) bytes: Range<usize>,
}

/// The lines of a text, by its tokens.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lines<'t> {
    pub(super) tokens: &'t [Token],
    /// How long the text is.
    pub(super) length: usize,
}

impl Lines<'_> {
    /// The number of the first token that begins at or after `offset`.
    pub(super) fn token(&self, offset: usize) -> usize {
        self.tokens.partition_point(|token| token.span.start.to_usize() < offset)
    }

    /// Where the line begins in which `offset` lies.
    pub(super) fn start(&self, offset: usize) -> usize {
        let ended = self.tokens.partition_point(|token| token.span.end.to_usize() <= offset);
        let breaks = self.tokens[..ended].iter().rev().find(|token| token.kind == TokenKind::Newline);
        breaks.map_or(0, |token| token.span.end.to_usize())
    }

    /// Where the line after the one begins in which `offset` lies; the end of the text if there is none.
    pub(super) fn end(&self, offset: usize) -> usize {
        let breaks = self.tokens[self.token(offset)..].iter().find(|token| token.kind == TokenKind::Newline);
        breaks.map_or(self.length, |token| token.span.end.to_usize())
    }

    /// The lines between the braces of a block; `None` if something comes after its `{` or before its `}`.
    fn between(&self, block: &Block) -> Option<Range<usize>> {
        let close = block.close?;
        let after = self.token(block.open.end.to_usize());
        let first = self.tokens[after..].iter().find(|token| token.kind != TokenKind::Comment)?;
        let before = self.tokens[..self.token(close.start.to_usize())].last()?;
        let is_break = |token: &Token| token.kind == TokenKind::Newline;
        (is_break(first) && is_break(before)).then_some(first.span.end.to_usize()..before.span.end.to_usize())
    }
}

/// The innermost block in which the edited `lines` lie, and what must be read again there. `within`: the lines of the
/// block that has these `statements`.
pub(super) fn find(
    statements: &[Statement],
    lines: &Range<usize>,
    within: &Range<usize>,
    text: Lines,
) -> Option<Region> {
    if lines.start < within.start || lines.end > within.end {
        return None;
    }
    let around = statements.partition_point(|statement| statement.span.end.to_usize() < lines.end);
    let inner = statements.get(around).and_then(|statement| {
        let block = statement.node.block().filter(|_| !is_broken(statement))?;
        find(&block.statements, lines, &text.between(block)?, text)
    });
    match inner {
        Some(mut region) => {
            region.path.insert(0, around);
            Some(region)
        }
        None => touched(statements, lines, within, text),
    }
}

fn is_broken(statement: &Statement) -> bool {
    statement.is::<Broken>()
}

/// The statements on the edited lines, the one before them, which may run on into them, and more around them until they
/// are set apart: by line breaks, and from what does not parse, whose neighbors are reported together.
fn touched(
    statements: &[Statement],
    lines: &Range<usize>,
    within: &Range<usize>,
    text: Lines,
) -> Option<Region> {
    let mut first = statements.partition_point(|statement| statement.span.end.to_usize() < lines.start);
    let mut last = statements.partition_point(|statement| statement.span.start.to_usize() < lines.end);
    first = first.saturating_sub(1);
    let mut bytes = lines.clone();
    loop {
        while first > 0 && is_broken(&statements[first - 1]) {
            first -= 1;
        }
        while statements.get(last).is_some_and(is_broken) {
            last += 1;
        }
        bytes.start = match first {
            0 => within.start,
            _ => bytes.start.min(text.start(statements[first].span.start.to_usize())),
        };
        if let Some(last) = last.checked_sub(1).and_then(|last| statements.get(last)) {
            bytes.end = bytes.end.max(text.end(last.span.end.to_usize()));
        }
        let before = first.checked_sub(1).filter(|at| statements[*at].span.end.to_usize() > bytes.start);
        let after = statements.get(last).filter(|next| next.span.start.to_usize() < bytes.end);
        match (before, after) {
            (None, None) => break,
            (before, after) => {
                first = before.unwrap_or(first);
                last += usize::from(after.is_some());
            }
        }
    }
    (bytes.end <= within.end).then_some(Region { path: Vec::new(), statements: first..last, bytes })
}
