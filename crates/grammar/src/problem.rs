//! What a text says that the notation does not: typed facts. The words for them are in the checker's rules.

use crate::tree::Zone;
use crate::{Expected, Span};

/// One thing that does not parse.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Where.
    pub span: Span,
    /// What.
    pub kind: ProblemKind,
}

/// What does not parse.
#[derive(Debug, Clone, PartialEq)]
pub enum ProblemKind {
    /// Something else was due here. The span is what was found, empty at the end of a statement.
    Unexpected {
        /// What could have stood here.
        expected: Vec<Expected>,
    },
    /// A word within a statement that is nearly one of the notation, and with that one the statement reads on.
    Misspelled {
        /// The word that was surely meant.
        meant: &'static str,
    },
    /// A line begins with a word that begins no statement.
    UnknownStatement {
        /// The statement word most like it, if one is.
        nearest: Option<&'static str>,
    },
    /// A statement that the notation knows, but not in this block.
    Misplaced {
        /// Its first word.
        statement: &'static str,
        /// Where it may stand.
        belongs: Belongs,
    },
    /// A reserved word where a name was due.
    ReservedName,
    /// A `"` without its partner on the same line.
    UnclosedString,
    /// `\` with something other than `"` or `\` after it, in a string.
    UnknownEscape,
    /// `{` or `}` in a string.
    BraceInString,
    /// A sign that the notation does not know.
    UnknownSign,
    /// A number above 1,000,000,000, or a length that is no number.
    NumberTooLarge,
    /// A number and a word with no space between: `15cm`.
    NumberTouchesWord,
    /// A decimal number where a whole one is due.
    NotWhole,
    /// A sign that this kind of chart does not know.
    UnknownMark {
        /// Where it stands: `rows`, `leader` or `face`.
        chart: Zone,
    },
    /// A `{` without its `}`; the span is the `{`.
    MissingClose,
    /// The text ends within blocks. The span is its end.
    OpenAtEnd {
        /// Their `{`, outermost first.
        opened: Vec<Span>,
    },
    /// A `}` too many.
    StrayClose,
    /// More than 64 blocks or parentheses in one another.
    TooDeep,
    /// The marks that a merge leaves around two texts for one place: nobody chose between them yet. The span is the first
    /// mark. Nothing else is said of the file.
    ConflictMarks,
    /// `edition N` of a notation newer than this program. Nothing else is said of the file.
    NewerEdition {
        /// The edition asked for.
        edition: u32,
    },
    /// The file is larger than can be read (16 MiB). Nothing else is said of it.
    TooLarge,
}

impl ProblemKind {
    /// Whether the file was not read at all for this, so that nothing else is said of it.
    pub fn is_of_whole_file(&self) -> bool {
        matches!(self, Self::ConflictMarks | Self::NewerEdition { .. } | Self::TooLarge)
    }
}

/// Where a statement belongs that is elsewhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Belongs {
    /// At the top of the file.
    Top,
    /// In `opening`, `set`, `closing` or a motif.
    Body,
    /// In `gauge`.
    Gauge,
    /// Below a `take`.
    BelowTake,
    /// In `leader`.
    Leader,
    /// In `begin` or `finish`.
    Ends,
}
