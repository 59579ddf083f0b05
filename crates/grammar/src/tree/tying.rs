//! Which strand is taken, and what it ties.

use super::children::Child;
use super::declared::{Declaration, Declared, Zone, declare};
use super::fields::{Field, fields};
use super::{Block, Chart, Expr, Name, Series, roles};
use crate::Span;
use crate::words::{Role, Word};

/// `left N`, `right N`, `center N`, `inside N`, `A to B`
#[derive(Debug, Clone, PartialEq)]
pub enum Range {
    /// The `N` at the left edge.
    Left(Expr),
    /// The `N` at the right edge.
    Right(Expr),
    /// The `N` in the middle.
    Center(Expr),
    /// All but `N` at each edge.
    Inside(Expr),
    /// From `A` to `B`, both included, counted from the left.
    Between(Expr, Expr),
}

/// `take STRAND [(COLOR)] [as LABEL]: RUNS [then RUNS]...`
#[derive(Debug, Clone, PartialEq)]
pub struct Take {
    /// Which strand.
    pub strand: StrandRef,
    /// The promised color.
    pub promise: Option<Name>,
    /// The label it gets.
    pub label: Option<Box<Name>>,
    /// What it ties.
    pub runs: Vec<Run>,
    /// What the strands that hang there afterwards tie.
    pub thens: Vec<Then>,
}

declare! {
    Body Take "take" {
        form: "take STRAND [(COLOR)] [as LABEL]: RUNS",
        help: "Take one strand in hand and tie.",
        begun: "take ${1:left 1}: ${2:forward to edge}",
        stands: [Body],
        made_of: { strand: strand(), promise: promise(), runs: runs(), thens: thens(), label: labels() },
    }
}

/// `then RUNS`
#[derive(Debug, Clone, PartialEq)]
pub struct Then {
    /// The word `then`.
    pub word: Span,
    /// What the strand ties.
    pub runs: Vec<Run>,
}

/// Which strand.
#[derive(Debug, Clone, PartialEq)]
pub struct StrandRef {
    /// Where it is named.
    pub span: Span,
    /// How it is named.
    pub by: StrandBy,
}

/// How a strand is named.
#[derive(Debug, Clone, PartialEq)]
pub enum StrandBy {
    /// `left N`
    Left(Expr),
    /// `right N`
    Right(Expr),
    /// `center left`
    CenterLeft,
    /// `center right`
    CenterRight,
    /// `center`
    Center,
    /// `COLOR N from left`, `COLOR N left of center`, ...
    Color {
        /// The color.
        color: Box<Name>,
        /// Which of them.
        number: Expr,
        /// Counted how.
        from: Counting,
    },
    /// A label.
    Label(Box<Name>),
}

/// How strands of a color are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counting {
    /// `from left`
    FromLeft,
    /// `from right`
    FromRight,
    /// `left of center`, walking outward
    LeftOfCenter,
    /// `right of center`, walking outward
    RightOfCenter,
}

/// KIND EXTENT
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Where.
    pub span: Span,
    /// The kind; `None` only for the first run after a `then`, which keeps the kind of the run before it.
    pub kind: Option<(KnotKind, Span)>,
    /// How far.
    pub extent: Extent,
}

/// The four kinds of knot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum KnotKind {
    /// `forward`
    Forward,
    /// `backward`
    Backward,
    /// `forward-backward`
    ForwardBackward,
    /// `backward-forward`
    BackwardForward,
}

/// How far a run goes.
#[derive(Debug, Clone, PartialEq)]
pub enum Extent {
    /// `4`, `4 over foam`
    Count {
        /// How many.
        count: Expr,
        /// What every base strand must be.
        over: Option<Name>,
    },
    /// `over foam`
    Over(Name),
    /// `until foam`
    Until(Name),
    /// `to left 3`, `to edge`
    To(Goal),
    /// `4 down to 1`
    Series(Box<Series>),
}

/// A place to tie to.
#[derive(Debug, Clone, PartialEq)]
pub struct Goal {
    /// Where it is named, without the `to`.
    pub span: Span,
    /// Which place.
    pub place: GoalPlace,
}

/// Which place to tie to.
#[derive(Debug, Clone, PartialEq)]
pub enum GoalPlace {
    /// `left N`
    Left(Expr),
    /// `right N`
    Right(Expr),
    /// `center left`
    CenterLeft,
    /// `center right`
    CenterRight,
    /// `center`
    Center,
    /// `edge`
    Edge,
}
