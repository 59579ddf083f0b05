//! An edit within an opening, a set or a closing: tied again is what stands around it, from one mark to another. If the
//! strands hang there as they did, all that comes after is as it was, only elsewhere in the text.

use super::band::{Band, same_steps};
use crate::resolve::{Known, Script};
use crate::tie::{Amount, Mark, Stretch, Tied, Which, picks_by_color, tie_stretch};
use crate::{FileId, Part, Place, Source, Step};
use knotwright_band::MOST_KNOTS;
use knotwright_grammar::Difference;
use knotwright_grammar::tree::{Block, Node};
use std::ops::Range;
use std::sync::Arc;

/// What was tied again.
pub(super) struct Retied {
    pub(super) script: Script,
    which: Which,
    /// Between which marks.
    between: Range<usize>,
    stretch: Stretch,
    /// Where the first statement of the part begins now.
    start: u32,
    difference: Difference,
}

/// Ties again what stands around the `difference`, which lies within the top statement of number `at`. `None` if all must
/// be tied again.
pub(super) fn retie(
    (known, band): (&Known, &Band),
    source: &Arc<Source>,
    (at, difference): (usize, Difference),
) -> Option<Retied> {
    let (which, block) = match &source.parsed.tree.statements.get(at)?.node {
        Node::Opening(block) => (Which::Opening, block),
        Node::Set(block) => (Which::Set, block),
        Node::Closing(block) => (Which::Closing, block),
        _ => return None,
    };
    let marks = &band.marks[which as usize];
    let between = between(marks, block, difference)?;
    let (from, to) = (&marks[between.start], &marks[between.end]);
    if from.names > 0 || to.names > 0 {
        return None;
    }
    let script = known.script(Arc::clone(source));
    let last = now(to, marks.last()?, block);
    let stretch = tie_stretch(&script, which, (band.threads(which), &from.order), from.statement..last)?;
    let tied = from.tied.plus(stretch.marks.last()?.tied).knots + (marks.last()?.tied.knots - to.tied.knots);
    if stretch.part.order[..] != to.order[..] || tied as usize > MOST_KNOTS {
        return None;
    }
    let start = block.statements.first().map(|first| first.span.start).or(Some(block.close?.start))?;
    Some(Retied { script, which, between, stretch, start, difference })
}

/// The last mark before the difference, and the first behind it at which a statement begins now as then.
fn between(marks: &[Mark], block: &Block, difference: Difference) -> Option<Range<usize>> {
    let begins = |index: usize, start: u32| {
        block.statements.get(index).is_some_and(|statement| statement.span.start == start)
    };
    // The statement before the mark ends as it did only if the one at the mark still is one.
    let is_before =
        |mark: &Mark| (mark.start as usize) < difference.start && begins(mark.statement, mark.start);
    let end = marks.len().checked_sub(1)?;
    let from = marks[..end].iter().rposition(is_before).unwrap_or(0);
    let is_behind = |mark: &Mark| {
        mark.start as usize > difference.before
            && begins(now(mark, &marks[end], block), mark.start.wrapping_add_signed(difference.by()))
    };
    let to = (from + 1..end).find(|&at| is_behind(&marks[at])).unwrap_or(end);
    Some(from..to)
}

/// The number that a statement behind the difference has now.
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
        let straight = old.straight[from.straight as usize..to.straight as usize].iter().cloned();
        let mut now = self.stretch.part.straight.clone();
        now.iter_mut().for_each(|range| from.before_straight(range));
        old.knots[from.knots as usize..to.knots as usize] == self.stretch.part.knots
            && straight.eq(now)
            && same_steps(&old.steps[from.steps as usize..to.steps as usize], &new, Some(self.difference))
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
        if self.which != Which::Set {
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
        let Self { script, which, between, stretch, start, difference } = self;
        if difference.by() != 0 {
            band.parts.iter_mut().flatten().for_each(|part| shift(&mut part.steps, difference));
        }
        if let Some(part) = &mut band.parts[which as usize] {
            splice(part, (from, to), stretch.part);
        }
        band.marks.iter_mut().for_each(|marks| shift_marks(marks, difference));
        band.marks[which as usize][0].start = start;
        join_marks(&mut band.marks[which as usize], between, stretch.marks);
        let ends = band.marks.iter().filter_map(|marks| marks.last());
        let cost = ends.map(|end| end.spent + u64::from(end.tied.knots)).sum();
        let Band { parts: [opening, set, closing], marks, closes, .. } = band;
        (script, Tied { opening, set, closing, closes, picks_by_color, whole: true, cost, marks })
    }
}

/// What stands behind the difference has moved.
fn shift(steps: &mut [Step], difference: Difference) {
    let by = difference.by();
    for step in steps {
        let Place { file, span } = &mut step.place;
        if *file == FileId(0) && span.start as usize > difference.before {
            span.start = span.start.wrapping_add_signed(by);
            span.end = span.end.wrapping_add_signed(by);
        }
    }
}

fn shift_marks(marks: &mut [Mark], difference: Difference) {
    for mark in marks.iter_mut().filter(|mark| mark.start as usize > difference.before) {
        mark.start = mark.start.wrapping_add_signed(difference.by());
    }
}

/// Puts `new` in the place of what lies between two marks.
fn splice(part: &mut Part, (from, to): (Amount, Amount), mut new: Part) {
    let more = from.plus(Amount::of(&new)).minus(to);
    if more != Amount::default() {
        part.steps[to.steps as usize..].iter_mut().for_each(|step| more.before_step(step));
        part.straight[to.straight as usize..].iter_mut().for_each(|range| more.before_straight(range));
        part.events[to.events as usize..].iter_mut().for_each(|event| more.before_event(event));
    }
    new.steps.iter_mut().for_each(|step| from.before_step(step));
    new.straight.iter_mut().for_each(|range| from.before_straight(range));
    new.events.iter_mut().for_each(|event| from.before_event(event));
    part.knots.splice(from.knots as usize..to.knots as usize, new.knots);
    part.steps.splice(from.steps as usize..to.steps as usize, new.steps);
    part.runs.splice(from.runs as usize..to.runs as usize, new.runs);
    part.straight.splice(from.straight as usize..to.straight as usize, new.straight);
    part.events.splice(from.events as usize..to.events as usize, new.events);
}

/// Puts the marks of a stretch in the place of those that lay in it.
fn join_marks(marks: &mut Vec<Mark>, between: Range<usize>, mut new: Vec<Mark>) {
    let (from, to) = (&marks[between.start], &marks[between.end]);
    for mark in &mut new {
        mark.tied = mark.tied.plus(from.tied);
        mark.spent += from.spent;
    }
    let Some(end) = new.last() else { return };
    let (more, statements) = (end.tied.minus(to.tied), end.statement.wrapping_sub(to.statement));
    let spent = end.spent.wrapping_sub(to.spent);
    for mark in &mut marks[between.end + 1..] {
        mark.tied = mark.tied.plus(more);
        mark.statement = mark.statement.wrapping_add(statements);
        mark.spent = mark.spent.wrapping_add(spent);
    }
    marks.splice(between.start + 1..=between.end, new);
}
