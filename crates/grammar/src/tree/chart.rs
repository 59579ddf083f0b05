//! The lines of `rows`, `leader` and `face`.

use super::{Name, Number, Text};
use crate::Span;
use knotwright_numbers::ToNumber;

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

/// One line of a chart: a row of marks, or letters.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartRow {
    /// From its first mark or word to its last.
    pub span: Span,
    /// Its marks; letters have none.
    pub marks: Vec<Mark>,
    /// Whether the whole line could be read.
    pub whole: bool,
    /// The letters that it stands for, if it is no row of marks.
    pub letters: Option<Box<Letters>>,
}

/// `letters "TEXT" [across] [height N]`, in a leader in place of rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Letters {
    /// The text.
    pub text: Text,
    /// The word `across`, if it stands there.
    pub across: Option<Span>,
    /// How high capitals are, in knots.
    pub height: Option<Number>,
}

/// `LETTER COLOR`: what a letter stands for in a face.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceKey {
    /// The letter.
    pub letter: Name,
    /// The thread that is to be seen.
    pub thread: Name,
}

/// One mark of a chart and its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Where.
    pub offset: u32,
    /// Which.
    pub sign: Sign,
}

impl Mark {
    /// The sign as it stands in the text; a letter may be of several bytes.
    pub fn span(&self) -> Span {
        let bytes = match self.sign {
            Sign::Letter(letter) => letter.len_utf8(),
            _ => 1,
        };
        Span { start: self.offset, end: self.offset + bytes.to_u32() }
    }
}

/// The signs of a chart. `rows` know those of knots, `x` and `.`; `leader` rows know `.` and `#`; a `face` knows `.`, `?`
/// and letters.
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
    /// `?`
    Any,
    /// A letter that stands for a thread.
    Letter(char),
}
