//! A block that is open while its lines are read.

use crate::tree::{ChartRow, Statement, Zone};
use crate::{Belongs, Span};

/// One open block.
#[derive(Debug)]
pub(crate) struct Frame {
    /// The statement it belongs to, its block still empty.
    pub(crate) statement: Statement,
    /// What it may hold.
    pub(crate) place: Zone,
    /// Its `{`, in the list of tokens.
    pub(crate) open: usize,
    /// By how many bytes the line of its statement is indented.
    pub(crate) indent: u32,
    /// By how many bytes the first line in the block is indented.
    pub(crate) inner: Option<u32>,
    /// Whether its one statement is on the line of the `{`.
    pub(crate) inline: bool,
    /// Braces opened within a chart, where none belong.
    pub(crate) stray: u32,
    /// Where its statement belongs, if it is in the wrong place.
    pub(crate) misplaced: Option<Belongs>,
    pub(crate) statements: Vec<Statement>,
    pub(crate) rows: Vec<ChartRow>,
}

impl Frame {
    pub(crate) fn new(statement: Statement) -> Self {
        Self {
            statement,
            place: Zone::Any,
            open: 0,
            indent: 0,
            inner: None,
            inline: false,
            stray: 0,
            misplaced: None,
            statements: Vec::new(),
            rows: Vec::new(),
        }
    }

    /// Whether a line with so little indentation shows that the block has ended.
    pub(crate) fn ended_before(&self, indent: u32, fits: bool) -> bool {
        indent <= self.indent && (!fits || self.inner.is_some_and(|inner| inner > self.indent))
    }

    /// The whole statement.
    pub(crate) fn close(self, close: Option<Span>) -> Statement {
        let mut statement = self.statement;
        let last = self.statements.last().map(|inner| inner.span);
        let last = last.or(self.rows.last().map(|row| row.span));
        let end = close.or(last).unwrap_or(statement.head);
        statement.span = statement.span.to(end);
        if let Some(chart) = statement.node.chart_mut() {
            chart.close = close;
            chart.rows = self.rows;
        } else if let Some(block) = statement.node.block_mut() {
            block.close = close;
            block.statements = self.statements;
        }
        statement
    }
}
