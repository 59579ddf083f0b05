//! Where the tie of a part stood at some of its statements, to go on from there after an edit.

use super::Tie;
use crate::Event;
use crate::{Part, Step};
use knotwright_grammar::tree::Block;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// Statements and passes from one mark to the next, at least.
const STRETCH: u64 = 32;

/// How the strands hang, and how much is written down, before a statement of a part or at its end.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Mark {
    /// The number of the statement in the part; after the last, how many there are.
    pub(crate) statement: usize,
    /// The byte where it begins; after the last, where the part's `}` is.
    pub(crate) start: u32,
    /// By position, which strand hangs there.
    pub(crate) order: Box<[u8]>,
    /// How much was tied before.
    pub(crate) tied: Amount,
    /// Statements and passes before.
    pub(crate) spent: u64,
    /// How many bytes are written down of what was tied before.
    pub(crate) bytes: u64,
    /// How many names are known: labels that the part itself gave.
    pub(crate) names: usize,
    /// Whether a step since the mark before picks a strand by color.
    pub(crate) picks_by_color: bool,
}

/// How much of a part there is: the lengths of its lists. Differences wrap around.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Amount {
    pub(crate) knots: u32,
    pub(crate) steps: u32,
    pub(crate) runs: u32,
    pub(crate) events: u32,
}

impl Amount {
    pub(crate) fn of(part: &Part) -> Self {
        Self {
            knots: part.piece.knots().len().to_u32(),
            steps: part.steps.len().to_u32(),
            runs: part.runs.len().to_u32(),
            events: part.events.len().to_u32(),
        }
    }

    pub(crate) fn plus(self, other: Self) -> Self {
        Self {
            knots: self.knots.wrapping_add(other.knots),
            steps: self.steps.wrapping_add(other.steps),
            runs: self.runs.wrapping_add(other.runs),
            events: self.events.wrapping_add(other.events),
        }
    }

    pub(crate) fn minus(self, other: Self) -> Self {
        Self {
            knots: self.knots.wrapping_sub(other.knots),
            steps: self.steps.wrapping_sub(other.steps),
            runs: self.runs.wrapping_sub(other.runs),
            events: self.events.wrapping_sub(other.events),
        }
    }

    /// A step with this much more before it.
    pub(crate) fn before_step(self, step: &mut Step) {
        step.knots = moved(&step.knots, self.knots);
        step.runs = moved(&step.runs, self.runs);
    }

    /// An event with this much more before it.
    pub(crate) fn before_event(self, event: &mut Event) {
        if let Event::Step(step) = event {
            *step = step.wrapping_add(self.steps);
        }
    }
}

fn moved(range: &Range<u32>, more: u32) -> Range<u32> {
    range.start.wrapping_add(more)..range.end.wrapping_add(more)
}

impl Tie<'_> {
    /// Sets a mark before statement `index` of a part, if it is one of those that get one.
    #[inline]
    pub(super) fn pass(&mut self, block: &Block, index: usize) {
        if self.depth == 1 && self.keeps_steps() && self.spent >= self.due {
            self.mark(block, index);
        }
    }

    pub(super) fn mark(&mut self, block: &Block, index: usize) {
        self.due = self.spent + STRETCH;
        let end = || block.close.map_or(block.open.end, |close| close.start);
        self.marks.push(Mark {
            statement: index,
            start: block.statements.get(index).map_or_else(end, |statement| statement.span.start),
            order: self.strands.order().into(),
            tied: self.log.amount(&self.strands),
            spent: self.spent,
            bytes: self.log.bytes,
            names: self.scope.known(),
            picks_by_color: std::mem::take(&mut self.picks_by_color),
        });
    }
}
