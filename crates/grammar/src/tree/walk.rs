//! Over all statements, and into their blocks.

use super::{Block, Node, Statement, Tree};

impl Tree {
    /// All statements, blocks included, each before those in its block.
    pub fn walk(&self) -> Walk<'_> {
        Walk::over(&self.statements)
    }
}

impl Block {
    /// All statements in this block, each before those in its own block.
    pub fn walk(&self) -> Walk<'_> {
        Walk::over(&self.statements)
    }
}

/// An iterator over statements, depth first; see [`Tree::walk`].
#[derive(Debug, Clone)]
pub struct Walk<'t> {
    rest: Vec<std::slice::Iter<'t, Statement>>,
    depth: usize,
}

impl<'t> Walk<'t> {
    fn over(statements: &'t [Statement]) -> Self {
        Self { rest: vec![statements.iter()], depth: 0 }
    }

    /// In how many of the blocks gone through the statement that came last stands.
    pub fn depth(&self) -> usize {
        self.depth
    }
}

impl<'t> Iterator for Walk<'t> {
    type Item = &'t Statement;

    fn next(&mut self) -> Option<&'t Statement> {
        loop {
            match self.rest.last_mut()?.next() {
                None => drop(self.rest.pop()),
                Some(statement) => {
                    self.depth = self.rest.len() - 1;
                    self.rest.extend(statement.node.block().map(|block| block.statements.iter()));
                    return Some(statement);
                }
            }
        }
    }
}

impl Node {
    /// The statements in its braces; `None` for a statement without, and for a chart.
    pub fn block(&self) -> Option<&Block> {
        match self {
            Self::Colorway { block, .. }
            | Self::Gauge(block)
            | Self::Opening(block)
            | Self::Set(block)
            | Self::Closing(block)
            | Self::On { block, .. }
            | Self::Both(block)
            | Self::Mirrored(block)
            | Self::Repeat { block, .. }
            | Self::For { block, .. }
            | Self::Section { block, .. } => Some(block),
            Self::Motif(motif) => Some(&motif.block),
            Self::Broken { block } => block.as_ref(),
            _ => None,
        }
    }

    /// As [`block`](Self::block), to be changed.
    pub fn block_mut(&mut self) -> Option<&mut Block> {
        match self {
            Self::Colorway { block, .. }
            | Self::Gauge(block)
            | Self::Opening(block)
            | Self::Set(block)
            | Self::Closing(block)
            | Self::On { block, .. }
            | Self::Both(block)
            | Self::Mirrored(block)
            | Self::Repeat { block, .. }
            | Self::For { block, .. }
            | Self::Section { block, .. } => Some(block),
            Self::Motif(motif) => Some(&mut motif.block),
            Self::Broken { block } => block.as_mut(),
            _ => None,
        }
    }
}
