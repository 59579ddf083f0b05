//! The syntax tree: what was written, with every place kept, before anything is looked up.

mod calls;
mod chart;
mod head;
mod shift;
mod tying;
mod values;
mod walk;

pub use calls::Due;
pub use chart::{Chart, ChartRow, Mark, Sign};
pub use head::{List, ListItem, ListShape, Pairs, Start, Strands, Swatch, Thread};
pub(crate) use shift::Shift;
pub use tying::{Counting, Extent, Goal, GoalPlace, KnotKind, Range, Run, StrandBy, StrandRef, Take, Then};
pub use values::{Direction, Expr, Group, Length, Name, Number, Operation, Operator, Series, Text, Unit};
pub use walk::Walk;

use crate::Span;

/// A whole file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tree {
    /// Head statements and `opening`, `set`, `closing`, in the order they stand.
    pub statements: Vec<Statement>,
}

/// One statement, blocks included.
#[derive(Debug, Clone, PartialEq)]
pub struct Statement {
    /// From the first word to the last byte of the statement, its block and `then` lines included.
    pub span: Span,
    /// From the first word to the end of its own line (or of its run-on), `{` included.
    pub head: Span,
    /// What it says.
    pub node: Node,
}

/// What a statement says.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// `pattern "title" [edition N]`
    Pattern {
        /// The title.
        title: Text,
        /// The edition of the notation, if given.
        edition: Option<Number>,
    },
    /// `about "..."`
    About(Text),
    /// `author "..."`
    Author(Text),
    /// `license "..."`
    License(Text),
    /// `thread NAME COLOR ["label"]`
    Thread(Thread),
    /// `colorway "name" { thread ... }`
    Colorway {
        /// Its name.
        name: Text,
        /// Its threads: only [`Node::Thread`] and [`Node::Broken`] belong here.
        block: Block,
    },
    /// `strands ...`
    Strands(Strands),
    /// `gauge { ... }`: only [`Node::Swatch`] and [`Node::Broken`] belong here.
    Gauge(Block),
    /// One line of a gauge.
    Swatch(Swatch),
    /// `length LENGTH`
    Length(Length),
    /// `sets N`
    Sets(Number),
    /// `ends LENGTH`
    Ends(Length),
    /// `start ...`
    Start(Start),
    /// `use NAME, NAME from "path"`
    Use {
        /// The motifs, at least one.
        names: Vec<Name>,
        /// The file.
        path: Text,
    },
    /// `motif NAME(params) [on N] { }`
    Motif(Motif),
    /// `opening { }`
    Opening(Block),
    /// `set { }`
    Set(Block),
    /// `closing { }`
    Closing(Block),

    /// `take ...: ...`
    Take(Take),
    /// `meet center`
    Meet,
    /// `on RANGE { }`
    On {
        /// The strands that exist in the block.
        range: Range,
        /// The block.
        block: Block,
    },
    /// `both { }`
    Both(Block),
    /// `mirrored { }`
    Mirrored(Block),
    /// `work NAME(args) [mirrored]`
    Work(Work),
    /// `repeat N { }`
    Repeat {
        /// How often.
        times: Expr,
        /// The block.
        block: Block,
    },
    /// `for K A down to B [by S] { }`
    For {
        /// The counting name.
        variable: Name,
        /// Its values.
        series: Box<Series>,
        /// The block.
        block: Block,
    },
    /// `rows [offset] { }`
    Rows {
        /// The word `offset`, if it stands there.
        offset: Option<Span>,
        /// The lines of the chart, with the place of the closing brace.
        chart: Chart,
    },
    /// `leader STRAND [(COLOR)] { }`
    Leader {
        /// The strand that leads.
        strand: StrandRef,
        /// The promised color.
        promise: Option<Name>,
        /// The lines of the chart.
        chart: Chart,
    },
    /// `section "title" { }`
    Section {
        /// The heading.
        title: Text,
        /// The block.
        block: Block,
    },
    /// `note "text"`
    Note(Text),
    /// `expect LIST`, `expect start [mirrored]`
    Expect(Expect),

    /// A statement that does not parse; the problem stands in the list of problems. Positions are unknown after it.
    Broken {
        /// The block it opens, if its line ends in `{`.
        block: Option<Block>,
    },
}

/// Braces and what stands between.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// The `{`.
    pub open: Span,
    /// The `}`; `None` if it is missing (the block then ends where the indentation says).
    pub close: Option<Span>,
    /// The statements within.
    pub statements: Vec<Statement>,
}

/// `motif NAME(params) [on N] { }`
#[derive(Debug, Clone, PartialEq)]
pub struct Motif {
    /// Its name.
    pub name: Name,
    /// Its parameters; empty where the parentheses are.
    pub params: Vec<Name>,
    /// The width it is meant for.
    pub width: Option<Number>,
    /// What it ties.
    pub block: Block,
}

/// `work NAME(args) [mirrored]`
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    /// The motif.
    pub motif: Name,
    /// Its arguments: a number, or a name that is a thread or a number.
    pub args: Vec<Expr>,
    /// The word `mirrored`, if it stands there.
    pub mirrored: Option<Span>,
}

/// What an `expect` promises.
#[derive(Debug, Clone, PartialEq)]
pub enum Expect {
    /// `expect LIST`
    List(List),
    /// `expect start [mirrored]`
    Start {
        /// The word `mirrored`, if it stands there.
        mirrored: Option<Span>,
    },
}
