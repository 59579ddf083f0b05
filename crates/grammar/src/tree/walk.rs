//! Over all statements, and into their blocks.

use super::{Block, Statement, Tree};

impl Tree {
    /// All statements, blocks included, each before those in its block.
    pub fn walk(&self) -> Walk<'_> {
        Walk::over(&self.statements)
    }

    /// The statement that starts at this byte.
    pub fn statement_at(&self, start: u32) -> Option<&Statement> {
        let mut among = &self.statements;
        loop {
            let begun = among.partition_point(|statement| statement.span.start <= start);
            let last = &among[begun.checked_sub(1)?];
            if last.span.start == start {
                return Some(last);
            }
            among = &last.node.block()?.statements;
        }
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
