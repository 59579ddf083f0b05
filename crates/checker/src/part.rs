//! An opening, a set or a closing as it was tied, with the marks that say how: steps, runs, and what is read aloud.

use crate::{Phrase, Place};
use knotwright_band::beads::BeadAt;
use knotwright_band::{Kind, Knot, Piece};
use knotwright_grammar::tree::{ClosingBlock, OpeningBlock, SetBlock, Statement};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// One of the three parts of a pattern, in the order in which they are tied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PartKind {
    /// Tied once, at the start.
    Opening,
    /// Tied over and over.
    Set,
    /// Tied once, at the end.
    Closing,
}

impl PartKind {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Opening, Self::Set, Self::Closing];

    /// The part that a statement is, if it is one.
    pub fn of(statement: &Statement) -> Option<Self> {
        let opening = statement.get().map(|_: &OpeningBlock| Self::Opening);
        let set = || statement.get().map(|_: &SetBlock| Self::Set);
        opening.or_else(set).or_else(|| statement.get().map(|_: &ClosingBlock| Self::Closing))
    }

    /// The word it begins with in a pattern.
    pub fn word(self) -> &'static str {
        match self {
            Self::Opening => "opening",
            Self::Set => "set",
            Self::Closing => "closing",
        }
    }
}

/// An opening, a set or a closing, tied once.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Part {
    /// Its knots in the order of the script. Where a pattern has errors its strands may have been hung otherwise by an
    /// `expect` (see [`Piece::is_rehung`]).
    pub piece: Piece,
    /// The steps, in order; their knots are consecutive.
    pub steps: Vec<Step>,
    /// The runs of all steps, one after another.
    pub runs: Vec<(Kind, u32)>,
    /// Steps, headings and remarks in the order they are read; none after the first 500,000.
    pub events: Vec<Event>,
    /// The joins of the piece, one by one, as they stand in the text.
    pub joins: Vec<JoinedStrand>,
}

/// A strand that goes on with a new piece of thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JoinedStrand {
    /// Where it is written.
    pub place: Place,
    /// Where the strand hangs then, from 0.
    pub at: u8,
    /// Its thread before.
    pub before: u16,
}

/// One strand taken in hand and what it tied; or one `meet`, one row of a chart, or a bead that is threaded.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Where it is written: the `take` up to its runs' end, the `then`, the `meet`, the chart's row.
    pub place: Place,
    /// Its knots.
    pub knots: Range<u32>,
    /// The positions that exist for it, both included, from 0.
    pub within: (u8, u8),
    /// Where the strand hung when it was taken; for a chart's row, the range's first position; for a bead, the leftmost
    /// strand's.
    pub from: u8,
    /// How the strand was named.
    pub named: Named,
    /// What was tied, run by run, as it came out (mirrored already, if it is in a mirror): a range of
    /// [`Part::runs`].
    pub runs: Range<u32>,
}

impl Part {
    /// The knots of one of its steps.
    pub fn knots_of(&self, step: &Step) -> &[Knot] {
        self.piece.knots().get(step.knots.start.to_usize()..step.knots.end.to_usize()).unwrap_or_default()
    }

    /// The step that tied the knot of that number, by its own number.
    pub fn step_of(&self, knot: u32) -> Option<usize> {
        // They come in the order they are tied, some of them without knots.
        let step = self.steps.partition_point(|step| step.knots.end <= knot);
        self.steps.get(step).filter(|step| step.knots.contains(&knot)).map(|_| step)
    }

    /// The beads that are threaded in it, in order.
    pub fn beads(&self) -> impl Iterator<Item = BeadAt> + '_ {
        let of = |(number, step): (usize, &Step)| match step.named {
            Named::Bead { bead, strands } => Some(BeadAt {
                bead,
                before: step.knots.start,
                position: step.from,
                strands,
                step: number.to_u32(),
            }),
            _ => None,
        };
        self.steps.iter().enumerate().filter_map(of)
    }

    /// The runs of one of its steps.
    pub fn runs_of(&self, step: &Step) -> &[(Kind, u32)] {
        self.runs.get(step.runs.start.to_usize()..step.runs.end.to_usize()).unwrap_or_default()
    }
}

/// How the strand of a step was named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// By its place from the left.
    FromLeft,
    /// By its place from the right.
    FromRight,
    /// As the middle one or one of the middle two.
    Center,
    /// By color.
    Color,
    /// By label.
    Label,
    /// By `then` or a series: whichever hangs there now.
    Then,
    /// `meet center`.
    Meet,
    /// A row of a chart.
    Row,
    /// A row of a leader.
    Leader,
    /// No strand is taken: a bead is threaded.
    Bead {
        /// Which, in [`Pattern::beads`](crate::Pattern::beads).
        bead: u16,
        /// How many strands go through it.
        strands: u8,
    },
}

/// What is read aloud, in order.
#[derive(Debug, Clone, PartialEq)]
pub enum Event {
    /// A heading; closed by [`Event::SectionEnd`].
    Section(Box<Phrase>),
    /// The end of a section.
    SectionEnd,
    /// A remark.
    Note(Box<Phrase>),
    /// The step of that index.
    Step(u32),
    /// A `repeat` of this many passes begins; ended by [`Event::RepeatEnd`].
    Repeat(u32),
    /// A pass of the repeat begins.
    Pass,
    /// The end of a repeat.
    RepeatEnd,
    /// The join of that index.
    Join(u32),
    /// A promise of the order was kept (by position, the strand there).
    Order(Vec<u8>),
}
