//! Where an offset lies: in which token, and in which statements, the outermost first.

use knotwright_checker::{FileId, Source, Spot};
use knotwright_grammar::tree::{Block, Statement};
use knotwright_grammar::{Span, Token, TokenKind};

/// The statements around an offset.
#[derive(Debug, Clone, Default)]
pub(crate) struct Site<'t> {
    /// The outermost first.
    pub(crate) path: Vec<&'t Statement>,
    /// The block that the innermost statement is in, and its number there; `None` at the top of the file.
    within: Option<(&'t Block, usize)>,
}

impl<'t> Site<'t> {
    /// The statements that touch `offset`.
    pub(crate) fn at(source: &'t Source, offset: u32) -> Self {
        let mut site = Self::default();
        let mut list: (Option<&'t Block>, &'t [Statement]) = (None, &source.parsed.tree.statements);
        while let Some(index) = touching(list.1, offset) {
            let statement = &list.1[index];
            site.path.push(statement);
            site.within = list.0.map(|block| (block, index));
            match statement.node.block() {
                Some(block) if holds(block, statement, offset) => list = (Some(block), &block.statements),
                _ => break,
            }
        }
        site
    }

    /// The innermost statement.
    pub(crate) fn inner(&self) -> Option<&'t Statement> {
        self.path.last().copied()
    }

    /// Before the innermost statement.
    pub(crate) fn spot(&self) -> Option<Spot> {
        let (block, index) = self.within?;
        Some(Spot { file: FileId::CHECKED, block: block.open.start, index })
    }
}

/// The statement that touches `offset`; of two that do, the one that begins there.
fn touching(statements: &[Statement], offset: u32) -> Option<usize> {
    let before = statements.partition_point(|statement| statement.span.start <= offset);
    let index = before.checked_sub(1)?;
    statements[index].span.touches(offset).then_some(index)
}

/// Whether `offset` is between the braces.
pub(crate) fn holds(block: &Block, statement: &Statement, offset: u32) -> bool {
    let end = block.close.map_or(statement.span.end, |close| close.start);
    block.open.end <= offset && offset <= end
}

/// The token at `offset`: the one that holds it, else the one that ends there. No line's end.
pub(crate) fn token_at(source: &Source, offset: u32) -> Option<Token> {
    let tokens = &source.parsed.tokens;
    let after = tokens.partition_point(|token| token.span.start <= offset);
    let candidates = tokens[after.saturating_sub(2)..after].iter().rev();
    candidates.copied().find(|token| token.kind != TokenKind::Newline && token.span.touches(offset))
}

/// The tokens that are within `span`.
pub(crate) fn tokens_in(source: &Source, span: Span) -> &[Token] {
    let tokens = &source.parsed.tokens;
    let first = tokens.partition_point(|token| token.span.start < span.start);
    let last = tokens.partition_point(|token| token.span.end <= span.end && token.span.start < span.end);
    &tokens[first..last.max(first)]
}
