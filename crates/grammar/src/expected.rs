//! What a parser could have read where it found something else. The words for it are made last, by the checker's rule.

/// What could have stood there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Expected {
    /// A statement.
    Statement,
    /// A statement, and no `{`: that one belongs at the end of the line above.
    StatementNoBrace,
    /// The end of the line.
    LineEnd,
    /// The end of the line: a `take` with a series has no `then`.
    LineEndNoThen,
    /// A space on each side of a sign between numbers.
    Space,
    /// A space before the `--` of a comment.
    SpaceBeforeComment,
    /// This word of the notation.
    Word(&'static str),
    /// `{`
    OpenBrace,
    /// `}`
    CloseBrace,
    /// `(`
    OpenParen,
    /// `)`
    CloseParen,
    /// `,`
    Comma,
    /// `:`
    Colon,
    /// `|`
    Pipe,
    /// The number of the first edition.
    FirstEdition,
    /// A number.
    Number,
    /// A plain number: a `take` has one series at most.
    NumberNoSeries,
    /// A plain number: such a knot stays on one neighbor.
    NumberOfTurns,
    /// A length.
    Length,
    /// A unit of length.
    Unit,
    /// A color.
    Color,
    /// A kind of knot.
    Kind,
    /// The tag of a language.
    Language,
    /// A text in quotes.
    Text(TextFor),
    /// The name of a thread.
    Thread,
    /// The name of a thread or of a label.
    Strand,
    /// The name of a bead.
    Bead,
    /// The name of a motif.
    Motif,
    /// A name that is given.
    NewName(NameFor),
}

/// What a text in quotes is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TextFor {
    /// People, for no purpose of its own.
    Reading,
    /// The title of a pattern or a section.
    Title,
    /// What people call a thread.
    Label,
    /// What people call a bead.
    BeadLabel,
    /// The name of a colorway.
    Colorway,
    /// The path of a file.
    Path,
    /// Letters made of knots.
    Letters,
}

/// What a name is given to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NameFor {
    /// A thread.
    Thread,
    /// A bead.
    Bead,
    /// A motif.
    Motif,
    /// A parameter.
    Parameter,
    /// The number that a `for` counts.
    Counter,
    /// A strand.
    Label,
    /// A thread, for the rows of a face.
    Letter,
}
