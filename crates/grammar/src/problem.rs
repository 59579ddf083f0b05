//! What a text says that the notation does not: typed facts. The words for them stand in the checker's rules.

use crate::Span;

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
        /// What could have stood here, in the words of the notation: "a number", "`from`".
        expected: Vec<&'static str>,
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
        /// Where it may stand: "at the top of the file", "in `set`, `opening`, `closing` or a motif".
        belongs: &'static str,
    },
    /// A reserved word where a name was due.
    ReservedName,
    /// A `"` without its partner on the same line.
    UnclosedString,
    /// `\` with something other than `"` or `\` behind it, in a string.
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
    UnknownMark,
    /// A `{` without its `}`; the span is the `{`.
    MissingClose,
    /// A `}` too many.
    StrayClose,
    /// More than 64 blocks or parentheses in one another.
    TooDeep,
    /// `edition N` of a notation newer than this program. Nothing else is said of the file.
    NewerEdition {
        /// The edition asked for.
        edition: u32,
    },
    /// The file is larger than can be read (16 MiB). Nothing else is said of it.
    TooLarge,
}
