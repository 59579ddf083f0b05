//! Some statements of a part tied by themselves, from a [`Mark`] on.

use super::log::MOST_EVENTS;
use super::mark::Amount;
use super::part::{Between, Run, begin_part, block_of, end_part};
use super::{Limits, Mark, Overlay};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId, names_in};
use crate::{Event, GivenUp, Part, PartKind};
use knotwright_band::Tying;
use knotwright_band::orders::OtherStrands;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// What came of it. All counts start from zero in it.
#[derive(Debug)]
pub(crate) struct Stretch {
    pub(crate) part: Part,
    /// Those on the way, and one at the end.
    pub(crate) marks: Vec<Mark>,
}

/// The strands before a stretch.
pub(crate) struct HangingStrands<'a> {
    /// By strand, its thread.
    pub(crate) threads: Vec<ThreadId>,
    /// By position, which strand hangs there.
    pub(crate) order: &'a [u8],
}

/// Which statements of a part are tied, and how they are read, unless nobody waits for it anymore.
pub(crate) struct StretchRange<'a> {
    pub(crate) statements: Range<usize>,
    pub(crate) overlay: Option<Overlay>,
    pub(crate) given_up: &'a GivenUp,
}

/// Looks up and ties some statements of a part. `None` if there is anything to complain of, or a label for the statements
/// after them.
pub(crate) fn tie_stretch(
    script: &Script,
    which: PartKind,
    before: HangingStrands<'_>,
    range: StretchRange<'_>,
) -> Option<Stretch> {
    let StretchRange { statements, overlay, given_up } = range;
    let block = block_of(script, which)?;
    let list = block.statements.get(statements.clone())?;
    let mut facts = Facts::default();
    names_in(script, list, &mut facts);
    if facts.count() > 0 {
        return None;
    }
    let mut between = Between::plain(before.threads);
    let run = Run { script, overlay, limits: Limits { given_up, ..Limits::WHOLE }, from: None };
    let mut tie = begin_part(&run, &mut facts, &between);
    (tie.strands, tie.depth) = (Tying::hanging(before.order), 1);
    for index in statements.clone() {
        // The mark from which it begins is there already.
        if index > statements.start {
            tie.pass(block, index);
        }
        tie.statement_as_read(block, index).ok()?;
    }
    tie.mark(block, statements.end);
    let is_whole = tie.unknown.is_none() && tie.facts.count() == 0 && tie.log.events.len() < MOST_EVENTS;
    let marks = std::mem::take(&mut tie.marks);
    let gives_labels = marks.last().is_none_or(|end| end.names > 0);
    let part = end_part(tie, &mut between, false);
    (is_whole && !gives_labels).then_some(Stretch { part, marks })
}

impl Part {
    /// Puts a stretch in the place of what lies between two marks. After the second one the strands hung in the order `hung`.
    pub(crate) fn exchange(&mut self, between: Range<Amount>, hung: &[u8], mut stretch: Self) {
        let Range { start: from, end: to } = between;
        if hung != stretch.piece.order() {
            let others = OtherStrands::hang(hung, stretch.piece.order());
            for event in &mut self.events[to.events.to_usize()..] {
                if let Event::Order(order) = event {
                    others.take_over(order);
                }
            }
        }
        let more = from.plus(Amount::of(&stretch)).minus(to);
        if more != Amount::default() {
            self.steps[to.steps.to_usize()..].iter_mut().for_each(|step| more.before_step(step));
            self.events[to.events.to_usize()..].iter_mut().for_each(|event| more.before_event(event));
        }
        stretch.steps.iter_mut().for_each(|step| from.before_step(step));
        stretch.events.iter_mut().for_each(|event| from.before_event(event));
        self.piece.replace(from.knots..to.knots, hung, &stretch.piece);
        self.steps.splice(from.steps.to_usize()..to.steps.to_usize(), stretch.steps);
        self.runs.splice(from.runs.to_usize()..to.runs.to_usize(), stretch.runs);
        self.events.splice(from.events.to_usize()..to.events.to_usize(), stretch.events);
    }
}
