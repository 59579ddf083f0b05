//! A tie that goes on from a [`Mark`] to the end, where all before the mark is tied already.

use super::log::{Log, Moved};
use super::part::{Between, PartsTie, Run, begin_part, block_of};
use super::{Done, Limits, Mark, Tie, Tied};
use crate::facts::Facts;
use crate::resolve::Script;
use crate::{Part, PartKind, Step};
use knotwright_band::Tying;
use knotwright_grammar::tree::Block;
use knotwright_numbers::ToNumber;

/// What is tied before some statement, without an error.
#[derive(Debug)]
pub(crate) struct TiedBefore {
    /// The parts before the one in which the statement stands, with their marks.
    pub(crate) parts: Vec<(PartKind, Part, Vec<Mark>)>,
    /// Of the set, if it is among them.
    pub(crate) closes: Option<bool>,
    pub(crate) picks_by_color: bool,
    /// What is tied of the part itself.
    pub(crate) begun: BegunPart,
}

/// A part that is tied up to a mark.
#[derive(Debug)]
pub(crate) struct BegunPart {
    which: PartKind,
    strands: Tying,
    log: Log,
    /// The marks before.
    marks: Vec<Mark>,
    at: Mark,
}

impl BegunPart {
    /// The beginning of a part, up to the mark of that number. It has no joins.
    pub(crate) fn of(which: PartKind, part: &Part, marks: &[Mark], number: usize) -> Option<Self> {
        let at = marks.get(number)?.clone();
        let (knots, tied) = (at.tied.knots.to_usize(), at.tied);
        let log = Log {
            steps: first(&part.steps, tied.steps)?,
            runs: first(&part.runs, tied.runs)?,
            events: first(&part.events, tied.events)?,
            joins: Vec::new(),
            bytes: at.bytes,
        };
        let strands = Tying::going_on(&part.piece, knots, &at.order);
        Some(Self { which, strands, log, marks: marks[..number].to_vec(), at })
    }

    /// The steps so far.
    pub(crate) fn steps_mut(&mut self) -> &mut [Step] {
        &mut self.log.steps
    }

    /// Ties the rest of the part.
    fn go_on<'a>(self, tie: &mut Tie<'a>, block: &'a Block) -> Done {
        (tie.strands, tie.log, tie.marks) = (self.strands, self.log, self.marks);
        // The mark itself is set again.
        (tie.spent, tie.picks_by_color) = (self.at.spent, self.at.picks_by_color);
        tie.block_from(block, self.at.statement)
    }
}

/// The first of a list, with room for as many as there were.
fn first<T: Clone>(list: &[T], most: u32) -> Option<Vec<T>> {
    let mut first = Vec::with_capacity(list.len());
    first.extend_from_slice(list.get(..most.to_usize())?);
    Some(first)
}

/// As [`tie_parts`](super::tie_parts), of what is tied before the edit only the rest.
pub(crate) fn tie_rest(
    script: &Script,
    before: TiedBefore,
    limits: Limits,
    facts: &mut Facts,
) -> Option<Tied> {
    let TiedBefore { parts, closes, picks_by_color, begun } = before;
    let run = Run { script, overlay: None, limits, from: None };
    let tied = Tied { whole: true, closes, picks_by_color, ..Tied::default() };
    let mut all = PartsTie { run: &run, between: Between::plain(script.head.strands.clone()?), tied };
    for (which, part, marks) in parts {
        all.pass(which, part, marks);
    }
    let first = begun.which;
    let mut begun = Some(begun);
    for which in PartKind::ALL.into_iter().filter(|which| *which >= first) {
        let Some(block) = block_of(script, which) else { continue };
        let mut tie = begin_part(&run, facts, &all.between);
        let done = match begun.take() {
            Some(begun) => begun.go_on(&mut tie, block),
            None => tie.block(block),
        };
        if !all.end(which, block, tie, done) {
            break;
        }
    }
    all.tied.whole &= facts.count() <= limits.facts;
    Some(all.tied)
}

impl PartsTie<'_> {
    /// Takes over a part that was tied already.
    fn pass(&mut self, which: PartKind, part: Part, marks: Vec<Mark>) {
        let end = marks.last().map_or((0, 0), |end| (end.spent, u64::from(end.tied.knots)));
        self.tied.cost += end.0 + end.1;
        self.tied.knots += end.1;
        self.tied.marks[which as usize] = marks;
        let moved = Moved::new(std::mem::take(&mut self.between.moved));
        let order = part.piece.order();
        self.between.moved = moved.by_position(order, part.piece.knots(), &part.steps);
        self.between.threads =
            order.iter().map(|&strand| self.between.threads[usize::from(strand)]).collect();
        self.tied.put(which, part);
    }
}
