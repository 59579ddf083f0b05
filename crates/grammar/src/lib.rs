//! Pattern text in, a syntax tree with comments and problems out.
//!
//! Parsing never fails and never panics. There is no name lookup, no knot and no file here, and no
//! type of the parser library leaves the crate.

mod blocks;
mod lexer;
mod line_index;
mod parse;
mod problem;
mod span;
mod syntax;
mod token;
pub mod tree;
pub mod words;

pub use lexer::lex;
pub use line_index::{Columns, LineIndex, Position};
pub use parse::{EDITION, LARGEST_TEXT, parse};
pub use problem::{Problem, ProblemKind};
pub use span::Span;
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
}

impl Parsed {
    /// The comments, in order.
    pub fn comments(&self) -> impl Iterator<Item = &Token> {
        self.tokens.iter().filter(|token| token.kind == TokenKind::Comment)
    }
}
