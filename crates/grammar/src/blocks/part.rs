//! Some statements of a block whose surroundings were read before.

use super::frame::Frame;
use super::reader::{Before, Reader};
use crate::tree::{Meet, Node, Statement, Zone};
use crate::{Problem, ProblemKind, Span, Token};
use std::ops::Range;

/// A part of a block.
pub(crate) struct BlockPart {
    /// Which of the tokens are in it.
    pub(crate) tokens: Range<usize>,
    /// The byte where it begins, the start of a line.
    pub(crate) start: usize,
}

/// The statements of a part. They are in the innermost of the
/// blocks of `around`; every brace outside them is paired. `None` if they do not end where the part does, or if a
/// brace among them is not paired.
pub(crate) fn read_part(
    text: &str,
    tokens: &[Token],
    part: BlockPart,
    around: &[&Node],
) -> Option<(Vec<Statement>, Vec<Problem>)> {
    let mut reader = Reader::new(text, tokens);
    reader.frames.extend(around.iter().map(|node| Frame { place: holds(node), ..Frame::new(stand_in()) }));
    let BlockPart { tokens: part, start } = part;
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
    let unpaired = |problem: &Problem| {
        matches!(
            problem.kind,
            ProblemKind::StrayClose | ProblemKind::MissingClose | ProblemKind::OpenAtEnd { .. }
        )
    };
    (!problems.iter().any(unpaired)).then(|| (inner.unwrap_or(top), problems))
}

/// What the block of a statement holds that was read whole.
fn holds(node: &Node) -> Zone {
    node.declaration().and_then(|known| known.holds).unwrap_or(Zone::Body)
}

/// Stands for the statement of a block, of which only the block is asked.
fn stand_in() -> Statement {
    Statement { span: Span::default(), head: Span::default(), node: Meet {}.into() }
}
