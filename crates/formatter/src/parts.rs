//! What of a statement bears on its layout.

use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Chart, Node, Statement, Then};

/// How a statement is built.
pub(crate) enum Parts<'a> {
    /// Words alone.
    Line,
    /// A head and a block.
    Block(&'a Block),
    /// A head and the lines of a chart.
    Chart(&'a Chart, ChartKind),
    /// A `take` and its `then`s.
    Thens(&'a [Then]),
}

/// How the lines of a chart lie.
#[derive(Clone, Copy)]
pub(crate) enum ChartKind {
    /// In bricks; `offset` if the first row pairs strands 2-3.
    Bricks { offset: bool },
    /// Straight, one below the other.
    Straight,
}

impl ChartKind {
    /// How far row `index`, counted from 0, is moved to the right.
    pub(crate) fn shift(self, index: usize) -> usize {
        match self {
            Self::Bricks { offset } => (index + usize::from(offset)) % 2,
            Self::Straight => 0,
        }
    }
}

/// How `node` is built.
pub(crate) fn parts(node: &Node) -> Parts<'_> {
    match node {
        Node::Take(take) => Parts::Thens(&take.thens),
        Node::Rows { offset, chart } => Parts::Chart(chart, ChartKind::Bricks { offset: offset.is_some() }),
        Node::Leader { chart, .. } => Parts::Chart(chart, ChartKind::Straight),
        _ => node.block().map_or(Parts::Line, Parts::Block),
    }
}

/// Where the name ends behind which a `(` stands close.
pub(crate) fn call(node: &Node) -> Option<u32> {
    match node {
        Node::Motif(motif) => Some(motif.name.span.end),
        Node::Work(work) => Some(work.motif.span.end),
        _ => None,
    }
}

/// The statement without what stands between its braces.
pub(crate) fn own(statement: &Statement) -> Span {
    let end = match parts(&statement.node) {
        Parts::Line | Parts::Thens(_) => statement.span.end,
        Parts::Block(block) => block.open.end,
        Parts::Chart(chart, _) => chart.open.end,
    };
    Span { start: statement.span.start, end }
}
