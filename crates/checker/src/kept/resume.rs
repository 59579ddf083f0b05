//! An edit within an opening, a set or a closing: tied again is what stands around it, from one mark to another. If the
//! colors hang there as they did, all that comes after is as it was, only elsewhere in the text, and perhaps tied by other
//! strands of the same colors.

use super::band::{Band, same_steps};
use crate::facts::Facts;
use crate::resolve::{Known, Script, ThreadId, names_in, salvage_names_in};
use crate::tie::{
    Amount, BegunPart, HangingStrands, Limits, MOST_BYTES, MOST_IDLE, Mark, Stretch, StretchRange, Tied,
    TiedBefore, picks_by_color, tie_rest, tie_stretch,
};
use crate::{FileId, GivenUp, PartKind, Place, Source, Step};
use knotwright_band::MOST_KNOTS;
use knotwright_band::orders::OtherStrands;
use knotwright_grammar::Splice;
use knotwright_grammar::tree::Block;
use knotwright_numbers::ToNumber;
use std::ops::Range;
use std::sync::Arc;

/// An edit, and the number of the statement at the top in which it lies.
#[derive(Debug, Clone, Copy)]
pub(super) struct EditedPart<'a> {
    pub(super) at: usize,
    pub(super) edit: Splice,
    pub(super) given_up: &'a GivenUp,
}

/// What was tied again.
pub(super) struct Retied {
    pub(super) script: Script,
    which: PartKind,
    /// Between which marks.
    between: Range<usize>,
    stretch: Stretch,
    /// Where the first statement of the part begins now.
    start: u32,
    edit: Splice,
}

/// Where an edit lies.
struct EditMarks<'b> {
    which: PartKind,
    block: &'b Block,
    /// Those of the part, and between which of them the edit is.
    marks: &'b [Mark],
    between: Range<usize>,
}

impl<'b> EditMarks<'b> {
    /// Of an edit in the statement of that number. `None` if it is in no part, or strands are joined somewhere.
    fn of(band: &'b Band, source: &'b Source, at: usize, edit: Splice) -> Option<Self> {
        if band.parts.iter().flatten().any(|part| !part.joins.is_empty()) {
            return None;
        }
        let statement = source.parsed.tree.statements.get(at)?;
        let (which, block) = (PartKind::of(statement)?, statement.node.block()?);
        let marks = &band.marks[which as usize];
        Some(Self { which, block, marks, between: between(marks, block, edit)? })
    }
}

/// Ties again what is around the `edit`. `None` if all must be tied again.
pub(super) fn tie_around(
    known: &Known,
    band: &Band,
    source: &Arc<Source>,
    edit: EditedPart<'_>,
) -> Option<Retied> {
    let EditedPart { at, edit, given_up } = edit;
    let EditMarks { which, block, marks, between } = EditMarks::of(band, source, at, edit)?;
    let (from, to) = (&marks[between.start], &marks[between.end]);
    if from.names > 0 || to.names > 0 {
        return None;
    }
    let script = known.script(Arc::clone(source));
    let last = now(to, marks.last()?, block);
    let threads = band.threads(which);
    let before = HangingStrands { threads: threads.clone(), order: &from.order };
    let range = StretchRange { statements: from.statement..last, overlay: None, given_up };
    let stretch = tie_stretch(&script, which, before, range)?;
    // No strand has a label there: a step knows it by its place and its color alone.
    let colors = |order: &[u8]| -> Vec<ThreadId> {
        order.iter().filter_map(|&strand| threads.get(usize::from(strand)).copied()).collect()
    };
    if colors(stretch.part.piece.order()) != colors(&to.order)
        || !fits([from, stretch.marks.last()?, to, marks.last()?])
    {
        return None;
    }
    let start = block.statements.first().map(|first| first.span.start).or(Some(block.close?.start))?;
    Some(Retied { script, which, between, stretch, start, edit })
}

/// What is tied again from a mark before the edit to the end, because something is wrong with it, or the colors hang otherwise
/// after it.
pub(crate) struct RestTied {
    pub(crate) script: Script,
    pub(crate) tied: Tied,
    /// What is wrong with names, then what is wrong with the tie.
    pub(crate) facts: Facts,
    /// How many of them are about names.
    pub(crate) named: usize,
}

/// Ties what comes after the last mark before the `edit`. `None` if all must be tied again.
pub(super) fn tie_after(
    known: &Known,
    band: &Band,
    source: &Arc<Source>,
    (at, edit, limits): (usize, Splice, Limits),
) -> Option<RestTied> {
    let EditMarks { which, block, marks, between } = EditMarks::of(band, source, at, edit)?;
    let (from, to) = (&marks[between.start], &marks[between.end]);
    let last =
        if between.end + 1 == marks.len() { block.statements.len() } else { now(to, marks.last()?, block) };
    let read = block.statements.get(from.statement..last)?;
    // All that does not parse is among those statements; what stands elsewhere was read before.
    let begins =
        |index: usize, end: u32| block.statements.get(index).map_or(end, |statement| statement.span.start);
    let first = if from.statement == 0 { block.open.end } else { begins(from.statement, block.open.end) };
    let region = first..=begins(last, block.close?.start);
    let problems = &source.parsed.problems;
    if !problems
        .iter()
        .all(|problem| region.contains(&problem.span.start) && region.contains(&problem.span.end))
    {
        return None;
    }
    let script = known.script_with(Arc::clone(source), salvage_names_in(source, read));
    let mut facts = Facts::default();
    if names_in(&script, read, &mut facts) > 0 && last < block.statements.len() {
        // They may be taken, or called, further down.
        facts = Facts::default();
        names_in(&script, &block.statements[from.statement..], &mut facts);
    }
    let named = facts.count();
    limits.listener.iter().for_each(|listener| listener.before_tie(&script, &facts));
    let before = tied_before(band, which, between.start, edit)?;
    let tied = tie_rest(&script, before, limits, &mut facts)?;
    Some(RestTied { script, tied, facts, named })
}

/// What is tied before a mark, with its places after the edit.
fn tied_before(band: &Band, which: PartKind, mark: usize, edit: Splice) -> Option<TiedBefore> {
    let mut begun =
        BegunPart::of(which, band.parts[which as usize].as_ref()?, &band.marks[which as usize], mark)?;
    shift(begun.steps_mut(), edit);
    let parts = PartKind::ALL.into_iter().zip(&band.parts).zip(&band.marks).take(which as usize);
    let parts = parts.filter_map(|((kind, part), marks)| {
        let (mut part, mut marks) = (part.clone()?, marks.clone());
        shift(&mut part.steps, edit);
        shift_marks(&mut marks, edit);
        Some((kind, part, marks))
    });
    let is_set = which > PartKind::Set;
    Some(TiedBefore {
        parts: parts.collect(),
        closes: band.closes.filter(|_| is_set),
        picks_by_color: band.picks_by_color && is_set,
        begun,
    })
}

/// Whether the part stays within what one may cost, with its stretch between two marks tied again. Where it may not, all is
/// tied again, and says so.
fn fits([from, stretch, to, end]: [&Mark; 4]) -> bool {
    let now = |of: fn(&Mark) -> u64| of(from) + of(stretch) + (of(end) - of(to));
    now(|mark| u64::from(mark.tied.knots)) <= MOST_KNOTS.to_u64()
        && now(|mark| mark.spent) <= MOST_IDLE
        && now(|mark| mark.bytes) <= MOST_BYTES
}

/// The last mark before the edit, and the first after it at which a statement begins now as then; at neither of them a label is
/// known, unless it is the end.
fn between(marks: &[Mark], block: &Block, edit: Splice) -> Option<Range<usize>> {
    let begins = |index: usize, start: u32| {
        block.statements.get(index).is_some_and(|statement| statement.span.start == start)
    };
    // The statement before the mark ends as it did only if the one at the mark still is one.
    let is_before = |mark: &Mark| {
        mark.names == 0 && mark.start.to_usize() < edit.start && begins(mark.statement, mark.start)
    };
    let end = marks.len().checked_sub(1)?;
    let from = marks[..end].iter().rposition(is_before).unwrap_or(0);
    let is_after = |mark: &Mark| {
        mark.names == 0
            && mark.start.to_usize() > edit.old_end
            && begins(now(mark, &marks[end], block), mark.start.wrapping_add_signed(edit.by()))
    };
    let to = (from + 1..end).find(|&at| is_after(&marks[at])).unwrap_or(end);
    Some(from..to)
}

/// The number that a statement after the edit has now.
fn now(mark: &Mark, end: &Mark, block: &Block) -> usize {
    (mark.statement + block.statements.len()).wrapping_sub(end.statement)
}

impl Retied {
    /// Whether the same knots are tied by the same steps.
    pub(super) fn is_the_same(&self, band: &Band) -> bool {
        let Some(old) = &band.parts[self.which as usize] else { return false };
        let (from, to) = self.amounts(band);
        let shifted = |step: &Step| {
            let mut step = step.clone();
            from.before_step(&mut step);
            step
        };
        let new: Vec<Step> = self.stretch.part.steps.iter().map(shifted).collect();
        old.piece.has_stretch(from.knots..to.knots, &self.stretch.part.piece)
            && same_steps(&old.steps[from.steps.to_usize()..to.steps.to_usize()], &new, Some(self.edit))
            && band.picks_by_color == self.picks_by_color(band)
    }

    /// How many steps.
    #[cfg(test)]
    pub(super) fn steps(&self) -> usize {
        self.stretch.part.steps.len()
    }

    fn amounts(&self, band: &Band) -> (Amount, Amount) {
        let marks = &band.marks[self.which as usize];
        (marks[self.between.start].tied, marks[self.between.end].tied)
    }

    fn picks_by_color(&self, band: &Band) -> bool {
        if self.which != PartKind::Set {
            return band.picks_by_color;
        }
        let marks = &band.marks[self.which as usize];
        let Range { start, end } = self.between;
        picks_by_color(&marks[..=start])
            || picks_by_color(&self.stretch.marks)
            || picks_by_color(&marks[end + 1..])
    }

    /// The whole pattern, tied.
    pub(super) fn join(self, mut band: Band) -> (Script, Tied) {
        let picks_by_color = self.picks_by_color(&band);
        let (from, to) = self.amounts(&band);
        let Self { script, which, between, stretch, start, edit } = self;
        let hung = band.marks[which as usize][between.end].order.clone();
        let hangs = stretch.part.piece.order().to_vec();
        if edit.by() != 0 {
            band.parts.iter_mut().flatten().for_each(|part| shift(&mut part.steps, edit));
        }
        if let Some(part) = &mut band.parts[which as usize] {
            if hung[..] != hangs[..] {
                let others = OtherStrands::hang(&hung, &hangs);
                let later = &mut band.marks[which as usize][between.end + 1..];
                later.iter_mut().for_each(|mark| others.take_over(&mut mark.order));
            }
            part.exchange(from..to, &hung, stretch.part);
        }
        band.marks.iter_mut().for_each(|marks| shift_marks(marks, edit));
        band.marks[which as usize][0].start = start;
        join_marks(&mut band.marks[which as usize], between, stretch.marks);
        band.picks_by_color = picks_by_color;
        (script, band.into_tied())
    }
}

/// What comes after the edit has moved.
fn shift(steps: &mut [Step], edit: Splice) {
    let by = edit.by();
    for step in steps {
        let Place { file, span } = &mut step.place;
        if *file == FileId::CHECKED && span.start.to_usize() > edit.old_end {
            span.start = span.start.wrapping_add_signed(by);
            span.end = span.end.wrapping_add_signed(by);
        }
    }
}

fn shift_marks(marks: &mut [Mark], edit: Splice) {
    for mark in marks.iter_mut().filter(|mark| mark.start.to_usize() > edit.old_end) {
        mark.start = mark.start.wrapping_add_signed(edit.by());
    }
}

/// Puts the marks of a stretch in the place of those that lay in it.
fn join_marks(marks: &mut Vec<Mark>, between: Range<usize>, mut new: Vec<Mark>) {
    let (from, to) = (&marks[between.start], &marks[between.end]);
    for mark in &mut new {
        mark.tied = mark.tied.plus(from.tied);
        mark.spent += from.spent;
        mark.bytes += from.bytes;
    }
    let Some(end) = new.last() else { return };
    let (more, statements) = (end.tied.minus(to.tied), end.statement.wrapping_sub(to.statement));
    let (spent, bytes) = (end.spent.wrapping_sub(to.spent), end.bytes.wrapping_sub(to.bytes));
    for mark in &mut marks[between.end + 1..] {
        mark.tied = mark.tied.plus(more);
        mark.statement = mark.statement.wrapping_add(statements);
        mark.spent = mark.spent.wrapping_add(spent);
        mark.bytes = mark.bytes.wrapping_add(bytes);
    }
    marks.splice(between.start + 1..=between.end, new);
}
