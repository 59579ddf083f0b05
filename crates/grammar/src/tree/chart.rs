//! The lines of `rows` and `leader`.

use crate::Span;

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
