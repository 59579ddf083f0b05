//! What is to be written.

use crate::Heading;
use knotwright_band::Piece;
use knotwright_checker::Pattern;

/// Which part of a pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// Tied once, at the start.
    Opening,
    /// Tied over and over.
    Set,
    /// Tied once, at the end.
    Closing,
}

impl Part {
    /// All three, in the order they are tied.
    pub const ALL: [Self; 3] = [Self::Opening, Self::Set, Self::Closing];

    /// The word it begins with in a pattern.
    pub fn word(self) -> &'static str {
        match self {
            Self::Opening => "opening",
            Self::Set => "set",
            Self::Closing => "closing",
        }
    }

    /// This part of a pattern, if there is one.
    pub fn of(self, pattern: &Pattern) -> Option<&knotwright_checker::Part> {
        match self {
            Self::Opening => pattern.opening.as_ref(),
            Self::Set => pattern.set.as_ref(),
            Self::Closing => pattern.closing.as_ref(),
        }
    }

    /// Its knots as a piece; `None` if there is no such part, or it is no whole piece (a pattern with errors).
    pub fn piece(self, pattern: &Pattern) -> Option<Piece> {
        let part = self.of(pattern)?;
        Piece::from_tied(part.knots.clone(), part.order.clone(), part.straight.clone()).ok()
    }
}

/// How a part is written anew.
#[derive(Debug, Clone, PartialEq)]
pub enum Body {
    /// One `take` for every series of knots that one strand ties, in the order of the piece.
    Steps {
        /// What is to be tied. Its straight rows are written in bricks, like all else.
        piece: Piece,
        /// Sections around knots of the piece, ascending and apart (see [`headings`](crate::headings)).
        headings: Vec<Heading>,
    },
    /// A chart.
    Rows {
        /// What is to be tied.
        piece: Piece,
    },
}

impl Body {
    /// What is to be tied.
    pub fn piece(&self) -> &Piece {
        match self {
            Self::Steps { piece, .. } | Self::Rows { piece } => piece,
        }
    }
}
