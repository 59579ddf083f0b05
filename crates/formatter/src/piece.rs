//! The pieces that a text is set from.

use knotwright_grammar::{Span, TokenKind};

/// A stretch of text that moves but never changes: a token, a comment without the white space at its end, or one
/// mark of a chart.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Piece {
    pub(crate) span: Span,
    pub(crate) kind: TokenKind,
    /// The line it is on now, from 0.
    pub(crate) line: usize,
    /// How many spaces stand before it should it begin a line.
    pub(crate) column: usize,
    /// Whether it must begin one.
    pub(crate) start: LineStart,
    /// Whether it is the `(` of a motif's parameters or arguments, which stands close to the name.
    pub(crate) call: bool,
}

/// Whether a piece begins a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum LineStart {
    /// If the author wrote it so.
    AsWritten,
    /// Always.
    Always,
}
