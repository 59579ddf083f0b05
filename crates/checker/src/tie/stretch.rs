//! Some statements of a part tied by themselves, from a [`Mark`] on.

use super::log::MOST_EVENTS;
use super::part::{Between, Run, begin, block_of, end};
use super::strands::Strands;
use super::{Limits, Mark, Which};
use crate::Part;
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId, names_in};
use std::ops::Range;

/// What came of it. All counts begin anew with it.
#[derive(Debug)]
pub(crate) struct Stretch {
    pub(crate) part: Part,
    /// Those on the way, and one at the end.
    pub(crate) marks: Vec<Mark>,
}

/// Looks up and ties `statements` of a part. `threads`: by strand, its thread; `order`: how they hang before. `None` if
/// there is anything to complain of, or a label for the statements behind them.
pub(crate) fn tie_stretch(
    script: &Script,
    which: Which,
    (threads, order): (Vec<ThreadId>, &[u8]),
    statements: Range<usize>,
) -> Option<Stretch> {
    let block = block_of(script, which)?;
    let list = block.statements.get(statements.clone())?;
    let mut facts = Facts::default();
    names_in(script, list, &mut facts);
    if facts.count() > 0 {
        return None;
    }
    let mut between = Between::plain(threads);
    let run = Run { script, overlay: None, limits: Limits::WHOLE };
    let mut tie = begin(&run, &mut facts, &between);
    (tie.strands, tie.depth) = (Strands::hanging(order), 1);
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
    let part = end(tie, &mut between, false);
    (is_whole && !gives_labels).then_some(Stretch { part, marks })
}
