//! What in a statement affects its layout.

use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, Chart, FaceChart, Motif, Node, RowsChart, Statement, Take, Then, Work,
};

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
    if let Some(take) = node.get::<Take>() {
        return Parts::Thens(&take.thens);
    }
    if let Some(chart) = node.chart() {
        let rows = node.get::<RowsChart>().map(|rows| rows.offset);
        let bricks = rows.or_else(|| node.get::<FaceChart>().map(|face| face.offset));
        let kind = bricks.map(|offset| ChartKind::Bricks { offset: offset.is_some() });
        return Parts::Chart(chart, kind.unwrap_or(ChartKind::Straight));
    }
    node.block().map_or(Parts::Line, Parts::Block)
}

/// Where the name ends after which a `(` stands close.
pub(crate) fn call(node: &Node) -> Option<u32> {
    let motif = node.get::<Motif>().map(|motif| &motif.name);
    let name = motif.or_else(|| node.get::<Work>().map(|work| &work.motif))?;
    Some(name.span.end)
}

/// The statement without what is between its braces.
pub(crate) fn own(statement: &Statement) -> Span {
    let end = match parts(&statement.node) {
        Parts::Line | Parts::Thens(_) => statement.span.end,
        Parts::Block(block) => block.open.end,
        Parts::Chart(chart, _) => chart.open.end,
    };
    Span { start: statement.span.start, end }
}
