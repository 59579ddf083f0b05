//! How the strands hang where a statement stands, or might stand: what an editor asks while a line is being
//! written. The part is tied again up to there; nothing is read again and no promise is tested.

use super::scope::Value;
use super::{Done, Halt, Tie};
use crate::{FileId, PartKind};
use knotwright_grammar::tree::{Block, Statement};
use knotwright_numbers::ToNumber;
use smol_str::SmolStr;

/// A place between two statements of a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// The file.
    pub file: FileId,
    /// Where the `{` of the block stands.
    pub block: u32,
    /// Before which of its statements; their number for the block's end.
    pub index: usize,
}

/// The strands at a [`Spot`] when the tie comes there for the first time.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// Which part is being tied.
    pub part: PartKind,
    /// By position of the whole band, which strand hangs there; named by their position as the part began.
    pub order: Vec<u8>,
    /// By strand, its thread in [`Pattern::threads`](crate::Pattern::threads); `u16::MAX` where it is unknown.
    pub threads: Vec<u16>,
    /// The positions that exist here, both included, from 0.
    pub within: (u8, u8),
    /// Whether left and right have changed places here.
    pub mirrored: bool,
    /// Whether it is unknown how some strands of the range hang.
    pub blind: bool,
    /// The names that are known here besides threads and motifs, the innermost last.
    pub names: Vec<(SmolStr, Known)>,
    /// How many knots of the part were tied before.
    pub knots: u64,
    /// Where the strand hangs that was taken in hand last, in `more` or before.
    pub held: Option<u8>,
    /// Whether the statements given as `more` could be tied without a complaint.
    pub fits: bool,
}

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Known {
    /// A number.
    Number(i64),
    /// A thread, in [`Pattern::threads`](crate::Pattern::threads).
    Thread(u16),
    /// A strand that was taken in hand, by its present position.
    Position(u8),
}

/// What to look out for while tying.
#[derive(Debug)]
pub(super) struct Watch<'a> {
    pub(super) spot: Spot,
    /// Statements that are tied there before the look.
    pub(super) more: &'a [Statement],
    pub(super) part: PartKind,
    pub(super) seen: Option<View>,
}

impl<'a> Tie<'a> {
    /// Looks, if this is the spot to look at; then nothing more is tied.
    pub(super) fn look(&mut self, block: &Block, index: usize) -> Done {
        let Some(watch) = &self.watch else { return Ok(()) };
        let spot = watch.spot;
        if spot.block != block.open.start || spot.index != index || spot.file != self.file {
            return Ok(());
        }
        let Some(watch) = self.watch.take() else { return Ok(()) };
        let (knots, facts) = (self.strands.tied(), self.facts.count());
        for statement in watch.more {
            self.statement(statement)?;
        }
        let view = self.view(watch.part, knots, facts);
        self.watch = Some(Watch { seen: Some(view), ..watch });
        Err(Halt::Stop)
    }

    fn view(&self, part: PartKind, knots: u64, facts: usize) -> View {
        let order = self.strands.order();
        let at = |strand: u8| order.iter().position(|&other| other == strand).map(|at| at.to_u8());
        let known = |value| match value {
            Value::Number(number) => Some(Known::Number(number)),
            Value::Thread(thread) => Some(Known::Thread(thread)),
            Value::Strand(strand) => at(strand).map(Known::Position),
            Value::Nothing => None,
        };
        let names = self.scope.names().filter_map(|(name, value)| Some((name.clone(), known(value)?)));
        View {
            part,
            order: order.to_vec(),
            threads: self.threads.clone(),
            within: (self.frame.low.to_u8(), self.frame.high.to_u8()),
            mirrored: self.frame.mirrored,
            blind: self.is_blind(),
            names: names.collect(),
            knots,
            held: self.held.and_then(at),
            fits: self.facts.count() == facts,
        }
    }
}
