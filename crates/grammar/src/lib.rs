//! Pattern text in, a syntax tree with comments and problems out.
//!
//! Parsing never fails and never panics. There is no name lookup, no knot and no file here, and no
//! type of the parser library leaves the crate.
//!
//! # What holds for every answer
//!
//! - No problems: the text is a sentence of `docs/grammar.ebnf`. A test holds the two to each other.
//! - A statement is [`Broken`](tree::Node::Broken) if its words do not parse or it stands where it may not. Of
//!   such a statement one problem is reported. Small slips (`15cm`, `n -1`, an unknown escape, a `{` below its line) are
//!   reported and leave the statement as it was meant.
//! - Head statements are at the top alone, body statements in `opening`, `set`, `closing` and motifs, threads also
//!   in a colorway, swatches in a gauge. Only the block of a broken statement of no known word may hold anything.
//! - Blocks are at most 64 deep, and so is the tree; it can be walked by calls.
//! - Between two tokens is nothing but spaces and tabs, and a byte-order mark before the first.
//! - Spaces between words change nothing but places. The indentation of lines is asked only where a brace is missing
//!   or too many.
//! - `pattern` first, statements that stand once, names, and `then` or a series after a color or a label are the
//!   checker's to judge.

mod apply;
mod blocks;
mod expected;
mod lexer;
mod line_index;
mod near;
mod parse;
mod problem;
mod reparse;
mod span;
mod splice;
mod syntax;
mod token;
pub mod tree;
pub mod words;

pub use apply::apply_edits;
pub use expected::{Expected, NameFor, TextFor};
pub use lexer::lex;
pub use line_index::{Columns, LineIndex, Position};
pub use parse::{EDITION, LARGEST_TEXT, parse};
pub use problem::{Belongs, Problem, ProblemKind};
pub use reparse::{Reparsed, reparse};
pub use span::{Span, to_offset};
pub use splice::Splice;
pub use token::{Token, TokenKind};

/// All that was read from one file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Parsed {
    /// The statements.
    pub tree: tree::Tree,
    /// Every token in order, comments and line ends too.
    pub tokens: Vec<Token>,
    /// What does not parse, in order of place.
    pub problems: Vec<Problem>,
    /// The comments among the tokens, in order.
    pub comments: Vec<Span>,
    /// Whether each `{` has its `}`.
    pub paired: bool,
}
