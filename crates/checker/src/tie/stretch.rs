//! Some statements of a part tied by themselves, from a [`Mark`] on.

use super::log::MOST_EVENTS;
use super::part::{Between, Run, begin_part, block_of, end_part};
use super::{Limits, Mark};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId, names_in};
use crate::{GivenUp, Part, PartKind};
use knotwright_band::Tying;
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

/// Which statements of a part are tied, unless nobody waits for it anymore.
pub(crate) struct StretchRange<'a> {
    pub(crate) statements: Range<usize>,
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
    let StretchRange { statements, given_up } = range;
    let block = block_of(script, which)?;
    let list = block.statements.get(statements.clone())?;
    let mut facts = Facts::default();
    names_in(script, list, &mut facts);
    if facts.count() > 0 {
        return None;
    }
    let mut between = Between::plain(before.threads);
    let run = Run { script, overlay: None, limits: Limits { given_up, ..Limits::WHOLE }, from: None };
    let mut tie = begin_part(&run, &mut facts, &between);
    (tie.strands, tie.depth) = (Tying::hanging(before.order), 1);
    for (index, statement) in list.iter().enumerate() {
        // The mark from which it begins is there already.
        if index > 0 {
            tie.pass(block, statements.start + index);
        }
        tie.statement(statement).ok()?;
    }
    tie.mark(block, statements.end);
    let is_whole = tie.unknown.is_none() && tie.facts.count() == 0 && tie.log.events.len() < MOST_EVENTS;
    let marks = std::mem::take(&mut tie.marks);
    let gives_labels = marks.last().is_none_or(|end| end.names > 0);
    let part = end_part(tie, &mut between, false);
    (is_whole && !gives_labels).then_some(Stretch { part, marks })
}
