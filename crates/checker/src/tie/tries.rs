//! Edits of a statement are tried where it is tied: only that statement is tied again.

use super::{Done, EditTrial, Overlay, Study, Tie};
use crate::FileId;
use crate::mend::{DueEdit, Renamed, TiedEdit};
use knotwright_band::Tying;
use knotwright_grammar::tree::Block;
use knotwright_numbers::ToNumber;

/// A statement of a block.
#[derive(Debug, Clone, Copy)]
struct Nth<'a> {
    block: &'a Block,
    index: usize,
}

/// How it was before a statement.
#[derive(Debug)]
pub(super) struct Above {
    order: Vec<u8>,
    time: u32,
    /// How many knots were tied.
    knots: u64,
}

impl<'a> Tie<'a> {
    /// Ties the statement of that number; in a study, its edits are tried first. `before`: how it was before the
    /// statement that stands above it.
    pub(super) fn studied(&mut self, block: &'a Block, index: usize, before: &mut Option<Above>) -> Done {
        if self.study.is_none() {
            return self.statement_as_read(block, index);
        }
        self.study_begin(block, index);
        if !matches!(self.study, Some(Study::Search(_))) || self.file != FileId::CHECKED {
            return self.statement_as_read(block, index);
        }
        let start = block.statements[index].span.start;
        if self.is_blind() {
            *before = None;
            let done = self.statement_as_read(block, index);
            if let Some(Study::Search(search)) = &mut self.study {
                search.pass_blindly(start);
            }
            return done;
        }
        let (order, knots) = (self.strands.order().to_vec(), self.strands.tied());
        let now = Above { order, time: self.clock, knots };
        let tried = self.try_edits(Nth { block, index }, before.as_ref(), &now);
        *before = Some(now);
        self.statement_as_read(block, index)?;
        self.settle(start, &tried);
        Ok(())
    }

    /// The edits after which nothing is wrong in the statement, and how the strands hang then.
    fn try_edits(&mut self, nth: Nth<'a>, above: Option<&Above>, now: &Above) -> Vec<TiedEdit> {
        let mut tried = Vec::new();
        let Some(Study::Search(search)) = self.study.take() else { return tried };
        for candidate in search.at(nth.block.statements[nth.index].span.start) {
            let DueEdit { overlay, from_above } = search.due(candidate);
            let Some(from) = (if from_above { above } else { Some(now) }) else { continue };
            if !search.begins(candidate, from.time) {
                continue;
            }
            let (done, cost) = self.attempt(nth, overlay, &from.order, search.renamed(candidate));
            search.work += self.worked(cost);
            match done {
                Some(strands) => {
                    let (order, knots) = (strands.order().to_vec(), from.knots + strands.tied());
                    tried.push(TiedEdit { candidate, order, knots });
                }
                None => search.refuse(candidate),
            }
        }
        self.study = Some(Study::Search(search));
        tried
    }

    fn worked(&self, spent: u64) -> u64 {
        spent + self.threads.len().to_u64() / 8
    }

    /// Ties the statement with an edit, from `order`, some strands being of other colors. The strands as they hang then,
    /// unless something is wrong; and what it cost.
    fn attempt(
        &mut self,
        Nth { block, index }: Nth<'a>,
        overlay: Overlay,
        order: &[u8],
        renamed: &Renamed,
    ) -> (Option<Tying>, u64) {
        let mark = self.scope.mark();
        let (spent, unknown, frame, here) = (self.spent, self.unknown, self.frame, self.here);
        let (picks_by_color, held) = (self.picks_by_color, self.held);
        let mut strands = Tying::without_knots(order.len());
        strands.rehang(0, order);
        let raw = std::mem::replace(&mut self.strands, strands);
        let threads = renamed.swap(&mut self.threads);
        (self.overlay, self.trial) = (Some(overlay), Some(EditTrial::default()));
        let done = self.statement_as_read(block, index);
        let failed = self.trial.take().is_some_and(|trial| trial.failed);
        self.overlay = None;
        let holds = done.is_ok() && !failed && self.unknown == unknown;
        for (strand, thread) in threads {
            self.threads[usize::from(strand)] = thread;
        }
        let tried = std::mem::replace(&mut self.strands, raw);
        let cost = self.spent - spent + tried.tied();
        self.scope.back(mark);
        (self.spent, self.unknown, self.frame, self.here) = (spent, unknown, frame, here);
        (self.picks_by_color, self.held) = (picks_by_color, held);
        (holds.then_some(tried), cost)
    }

    /// After the statement itself: who hangs in whose place after its edits.
    fn settle(&mut self, start: u32, tried: &[TiedEdit]) {
        let (time, knots) = (self.clock, self.strands.tied());
        let Some(Study::Search(search)) = &mut self.study else { return };
        for edit in tried {
            search.passed(edit, self.strands.order(), knots, time);
        }
        search.leave(start);
    }
}
