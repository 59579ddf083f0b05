//! Some statements of a block whose surroundings were read before.

use super::frame::Frame;
use super::place::Place;
use super::reader::{Before, Reader};
use crate::tree::{Node, Statement};
use crate::{Problem, ProblemKind, Span, Token};
use std::ops::Range;

/// The statements among those tokens, which begin at that byte, the start of a line. They stand in the innermost of the
/// blocks of `around`; every brace outside them is paired. `None` if they do not end where the tokens do, or if a
/// brace among them is not paired.
pub(crate) fn read_part(
    text: &str,
    tokens: &[Token],
    (part, start): (Range<usize>, usize),
    around: &[&Node],
) -> Option<(Vec<Statement>, Vec<Problem>)> {
    let mut reader = Reader::new(text, tokens);
    reader.frames.extend(around.iter().map(|node| Frame { place: holds(node), ..Frame::new(stand_in()) }));
    reader.begin_at(start, part.start);
    while let Some(token) = reader.peek().filter(|_| reader.at < part.end)
        && reader.frames.len() >= around.len()
    {
        reader.read_next(token);
    }
    let is_apart = reader.before == Before::Nothing || part.end == tokens.len();
    if reader.at != part.end || reader.frames.len() != around.len() || reader.lost || !is_apart {
        return None;
    }
    let inner = reader.frames.pop().map(|frame| frame.statements);
    let (top, problems) = reader.finish();
    let unpaired =
        |problem: &Problem| matches!(problem.kind, ProblemKind::StrayClose | ProblemKind::MissingClose);
    (!problems.iter().any(unpaired)).then(|| (inner.unwrap_or(top), problems))
}

/// What the block of a statement holds that was read whole.
fn holds(node: &Node) -> Place {
    match node {
        Node::Colorway { .. } => Place::Colorway,
        Node::Gauge(_) => Place::Gauge,
        _ => Place::Body,
    }
}

/// Stands for the statement of a block, of which only the block is asked.
fn stand_in() -> Statement {
    Statement { span: Span::default(), head: Span::default(), node: Node::Meet }
}
