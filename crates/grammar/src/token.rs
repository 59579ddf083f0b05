//! The words of a text, its comments and line ends among them. White space is what is between.

use crate::Span;

/// One token and its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: TokenKind,
    /// Where it stands.
    pub span: Span,
}

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TokenKind {
    /// A name or a word of the notation: `take`, `kelp`, `forward-backward`.
    Word,
    /// Digits, with a decimal part if there is one: `12`, `0.9`.
    Number,
    /// `"..."`, closed on its own line.
    String,
    /// `#1f5d50`: a hash with a hexadecimal digit after it, and all letters and digits that follow.
    Color,
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
    /// `+`
    Plus,
    /// `-`, standing alone
    Minus,
    /// `*`
    Star,
    /// One sign of a chart, `\ / < > . #`; the sign `x` is a [`Word`](Self::Word), as is a run of them.
    Mark,
    /// `--` to the end of the line.
    Comment,
    /// A line's end: `\n`, `\r\n` or `\r`.
    Newline,
    /// Anything else: a sign that the notation does not know, or a string that is not closed.
    Unknown,
}
