//! What is to be written.

use crate::Heading;
use knotwright_band::Piece;

/// How a part is rewritten.
#[derive(Debug, Clone, PartialEq)]
pub enum NewBody {
    /// One `take` for every series of knots that one strand ties, in the order of the piece.
    Steps {
        /// What is to be tied. Its straight rows are written in bricks, like all else.
        piece: Piece,
        /// Sections around knots of the piece, ascending and apart (see [`find_headings`](crate::find_headings)).
        headings: Vec<Heading>,
    },
    /// A chart.
    Rows {
        /// What is to be tied.
        piece: Piece,
    },
}

impl NewBody {
    /// What is to be tied.
    pub fn piece(&self) -> &Piece {
        match self {
            Self::Steps { piece, .. } | Self::Rows { piece } => piece,
        }
    }
}
