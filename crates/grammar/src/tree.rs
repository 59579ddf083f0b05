//! The syntax tree: what was written, with every place kept, before anything is looked up.

use crate::Span;
use smol_str::SmolStr;

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
        series: Series,
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

/// A string: its place with the quotes, its value without.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where, quotes included.
    pub span: Span,
    /// What it says, escapes resolved.
    pub value: String,
}

/// A name, in NFC.
#[derive(Debug, Clone, PartialEq)]
pub struct Name {
    /// Where.
    pub span: Span,
    /// The name in NFC; two names are one if these are equal.
    pub text: SmolStr,
}

/// A whole number as written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number {
    /// Where.
    pub span: Span,
    /// Its value, at most 1,000,000,000.
    pub value: u32,
}

/// `15 cm`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Length {
    /// Where, the unit included.
    pub span: Span,
    /// In millimeters.
    pub millimeters: f64,
    /// As written.
    pub unit: Unit,
}

/// The units of length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// `mm`
    Millimeter,
    /// `cm`
    Centimeter,
    /// `m`
    Meter,
    /// `in`: 25.4 mm
    Inch,
}

/// A number that may have to be reckoned.
#[derive(Debug, Clone, PartialEq)]
pub enum Expr {
    /// `4`
    Number(Number),
    /// `size`
    Name(Name),
    /// `size - 1`
    Operation(Box<Operation>),
    /// `( ... )`
    Group {
        /// With the parentheses.
        span: Span,
        /// What stands between.
        inner: Box<Expr>,
    },
}

/// Two numbers and a sign between.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// The left hand.
    pub left: Expr,
    /// The sign.
    pub operator: Operator,
    /// The right hand.
    pub right: Expr,
}

/// `*` binds more tightly than `+` and `-`; equals bind from the left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `*`
    Times,
}

impl Expr {
    /// Where it stands.
    pub fn span(&self) -> Span {
        match self {
            Self::Number(number) => number.span,
            Self::Name(name) => name.span,
            Self::Operation(operation) => operation.left.span().to(operation.right.span()),
            Self::Group { span, .. } => *span,
        }
    }
}

/// `thread NAME COLOR ["label"]`
#[derive(Debug, Clone, PartialEq)]
pub struct Thread {
    /// Its name.
    pub name: Name,
    /// Its color as written, `#1f5d50`, `#fff` or a CSS name; looked up later.
    pub color: Text,
    /// What people call it.
    pub label: Option<Text>,
}

/// Who hangs where.
#[derive(Debug, Clone, PartialEq)]
pub enum Strands {
    /// `strands LIST`
    Across(List),
    /// `strands from left LIST, from right LIST`: each from its edge to the center.
    FromEdges {
        /// From the left edge inward.
        left: Vec<ListItem>,
        /// From the right edge inward.
        right: Vec<ListItem>,
    },
}

/// Strands by color, from left to right.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Where.
    pub span: Span,
    /// How it is put together.
    pub shape: ListShape,
}

/// How a list is put together. No part is empty.
#[derive(Debug, Clone, PartialEq)]
pub enum ListShape {
    /// `a 2 b c`
    Plain(Vec<ListItem>),
    /// `a b | c d`: a center mark; the halves must be equal in number.
    Halves(Vec<ListItem>, Vec<ListItem>),
    /// `a b | mirror`
    Mirror(Vec<ListItem>),
    /// `a b | c | mirror`: `c` is one strand alone in the middle.
    MirrorAround(Vec<ListItem>, ListItem),
}

/// `3 kelp`, `kelp` or `(size - 1) kelp`
#[derive(Debug, Clone, PartialEq)]
pub struct ListItem {
    /// How many, if written: a number, or an expression in parentheses.
    pub count: Option<Expr>,
    /// The thread, or a parameter that stands for one.
    pub thread: Name,
}

/// One line of a gauge.
#[derive(Debug, Clone, PartialEq)]
pub enum Swatch {
    /// `thickness LENGTH`
    Thickness(Length),
    /// `N knots use LENGTH`
    Knots(Number, Length),
    /// `N rows measure LENGTH`
    Rows(Number, Length),
}

/// How the strands hang at the start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Start {
    /// `start loose`
    Loose,
    /// `start folded pairs ...`
    Folded(Pairs),
    /// `start loop LENGTH pairs ...`
    Loop(Length, Pairs),
}

/// Which two strands are one thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pairs {
    /// 1 with 2, 3 with 4, ...
    SideBySide,
    /// 1 with n, 2 with n - 1, ...
    Mirrored,
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
    pub label: Option<Name>,
    /// What it ties.
    pub runs: Vec<Run>,
    /// What the strands that hang there afterwards tie.
    pub thens: Vec<Then>,
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
        color: Name,
        /// Which of them.
        number: Expr,
        /// Counted how.
        from: Counting,
    },
    /// A label.
    Label(Name),
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
    Series(Series),
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

/// `A down to B [by S]`, `A up to B [by S]`
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// The first number.
    pub first: Expr,
    /// Which way.
    pub direction: Direction,
    /// The last number, reached or not passed.
    pub last: Expr,
    /// The step; 1 if not written.
    pub by: Option<Expr>,
}

/// Which way a series counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// `down to`
    Down,
    /// `up to`
    Up,
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

/// The lines of a chart and its braces.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// The `{`.
    pub open: Span,
    /// The `}`, if it is there.
    pub close: Option<Span>,
    /// One a line; a line that does not parse is kept with the marks that could be read.
    pub rows: Vec<ChartRow>,
}

/// One line of a chart.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartRow {
    /// From its first mark to its last.
    pub span: Span,
    /// Its marks.
    pub marks: Vec<Mark>,
    /// Whether the whole line could be read.
    pub whole: bool,
}

/// One mark of a chart and its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Where.
    pub offset: u32,
    /// Which.
    pub sign: Sign,
}

/// The signs of a chart. `rows` know all but `#`; `leader` rows know `.` and `#`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sign {
    /// `\`
    Forward,
    /// `/`
    Backward,
    /// `>`
    ForwardBackward,
    /// `<`
    BackwardForward,
    /// `x`
    Same,
    /// `.`
    Dot,
    /// `#`
    Hash,
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
