//! How many spaces are between two neighbors on a line.

use crate::piece::Piece;
use knotwright_grammar::TokenKind::{CloseParen, Colon, Comma, Comment, OpenParen};

/// How many spaces are between `before` and `after` on one line.
pub(crate) fn spaces(before: &Piece, after: &Piece) -> usize {
    match (before.kind, after.kind) {
        (_, Comment) => 2,
        (_, Comma | Colon | CloseParen) | (OpenParen, _) => 0,
        (_, OpenParen) if after.call => 0,
        _ => 1,
    }
}
