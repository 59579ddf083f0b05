//! Edits of a statement, or of a row of a chart, are tried where it is tied: only that is tied again.

use super::{Done, Halt, Moment, Overlay, Study, Tie};
use crate::FileId;
use crate::mend::{DueEdit, HungStrands, KnownPass, Renamed, TiedEdit};
use knotwright_band::Tying;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Take};
use knotwright_numbers::ToNumber;

/// For how many knots of an edited statement room is made at once: most tie fewer.
pub(crate) const FEW_KNOTS: usize = 32;

/// An edit that is being tried.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct EditTrial {
    pub(super) failed: bool,
}

/// What is tied again with an edit: how, and the byte where it starts.
struct Piece<'b, F> {
    start: u32,
    /// How it is begun, if what comes of its edits may be known.
    known: Option<KnownPass<'b>>,
    tie: F,
}

/// How it was before a statement.
#[derive(Debug)]
pub(super) struct Above {
    order: Vec<u8>,
    time: u32,
    /// How many knots were tied.
    knots: u64,
}

impl Above {
    fn moment(&self) -> Moment<'_> {
        Moment { time: self.time, order: &self.order, knots: self.knots }
    }
}

/// What came of a piece that was tied with an edit.
#[derive(Debug)]
struct Attempt {
    /// The strands as they hang then, unless something is wrong.
    strands: Option<Tying>,
    /// Whether a strand has gone on with another thread. Which one, only the tie with the edit knows.
    is_joined: bool,
    cost: u64,
}

impl<'a> Tie<'a> {
    /// Ties the statement of that number; in a study, its edits are tried first. `before`: how it was before the
    /// statement that stands above it.
    #[inline]
    pub(super) fn studied(&mut self, block: &'a Block, index: usize, before: &mut Option<Above>) -> Done {
        match self.study {
            None => self.statement_as_read(block, index),
            Some(_) => self.looked_into(block, index, before),
        }
    }

    /// The same in a study. It is much code, which other ties are not to step over.
    #[inline(never)]
    fn looked_into(&mut self, block: &'a Block, index: usize, before: &mut Option<Above>) -> Done {
        self.study_begin(block, index);
        let start = block.statements[index].span.start;
        if !matches!(self.study, Some(Study::Search(_))) || self.file != FileId::CHECKED {
            self.statement_as_read(block, index)?;
            self.study_end(start);
            return Ok(());
        }
        if let Some(Study::Search(search)) = &mut self.study {
            // In a block within another one, what comes after that may yet change places with all of it.
            if self.depth == 1 && before.as_ref().is_some_and(|above| search.ends_after(above.time)) {
                return Err(Halt::Stop);
            }
            search.reach(block, index);
        }
        let tie = |tie: &mut Self| tie.statement_as_read(block, index);
        if self.is_blind() {
            let (is_above_known, time) = (before.take().is_some(), self.clock);
            let done = tie(self);
            self.pass_blindly(start, time, is_above_known);
            return done;
        }
        let now = self.now();
        let known = self.known_pass(start, block.statements[index].get());
        let tried = self.try_edits(Piece { start, known, tie }, before.as_ref(), &now);
        let above = before.replace(now);
        self.let_go(above);
        if !self.hang_as_studied(&block.statements[index], known) {
            tie(self)?;
        }
        self.settle(start, tried);
        Ok(())
    }

    /// Ties a row of a chart. What is edited within a row is tried where the row is tied: of a long chart, not all rows are
    /// tied again for each of their marks.
    pub(super) fn studied_row<T>(&mut self, row: Span, mut tie: impl FnMut(&mut Self) -> Done<T>) -> Done<T> {
        if !matches!(self.study, Some(Study::Search(_))) || self.file != FileId::CHECKED {
            let done = tie(self)?;
            self.study_end(row.start);
            return Ok(done);
        }
        let now = self.now();
        let row_alone = |again: &mut Self| tie(again).map(drop);
        let known = self.known_pass(row.start, None);
        let tried = self.try_edits(Piece { start: row.start, known, tie: row_alone }, None, &now);
        let done = tie(self)?;
        self.settle(row.start, tried);
        Ok(done)
    }

    /// In a search, the statement that starts there as it is begun now, if what comes of it is known.
    fn known_pass<'b>(&self, start: u32, take: Option<&'b Take>) -> Option<KnownPass<'b>> {
        match &self.study {
            Some(Study::Search(search)) => search.known_pass(start, take, self.clock),
            _ => None,
        }
    }

    /// It is unknown who hangs there when what starts at `start` is tied at that time; `is_above_known`: not before what stands
    /// above it.
    pub(super) fn pass_blindly(&mut self, start: u32, time: u32, is_above_known: bool) {
        if let Some(Study::Search(search)) = &mut self.study
            && self.file == FileId::CHECKED
        {
            search.pass_blindly(start, time, is_above_known);
        }
    }

    /// The edits after which nothing is wrong in the piece, and how the strands hang then.
    fn try_edits(
        &mut self,
        mut piece: Piece<'_, impl FnMut(&mut Self) -> Done>,
        above: Option<&Above>,
        now: &Above,
    ) -> Vec<TiedEdit> {
        let Some(Study::Search(search)) = self.study.take() else { return Vec::new() };
        let mut tried = search.take_room();
        for candidate in search.recall(piece.start) {
            let Some(DueEdit { overlay, from_above }) = search.due(candidate) else { continue };
            let Some(from) = (if from_above { above } else { Some(now) }) else { continue };
            if !search.begins(candidate, from.moment()) {
                continue;
            }
            match piece.known.and_then(|known| search.tied_again(candidate, known, from.moment())) {
                Some(Ok(edit)) => {
                    tried.push(edit);
                    continue;
                }
                Some(Err(())) => {
                    search.fails_at(candidate, from.time);
                    continue;
                }
                None => {}
            }
            let strands = match search.keeps_tied_knots() {
                true => Tying::hanging(&from.order).with_room(FEW_KNOTS),
                false => Tying::hanging_without_knots(&from.order),
            };
            let attempt = self.attempt(&mut piece.tie, overlay, strands, search.renamed(candidate));
            search.work += self.worked(attempt.cost);
            match attempt.strands {
                Some(_) if attempt.is_joined => search.leave_open(candidate),
                Some(strands) => {
                    let is_kept = search.keeps_tied_knots() && strands.straight().is_empty();
                    let knots = || strands.knots().iter().map(|knot| (knot.gap, knot.kind)).collect();
                    tried.push(TiedEdit {
                        candidate,
                        from_above,
                        hung: HungStrands::Order(strands.order().to_vec()),
                        before: from.knots,
                        count: strands.tied(),
                        knots: is_kept.then(knots),
                    });
                }
                None => search.fails_at(candidate, from.time),
            }
        }
        self.study = Some(Study::Search(search));
        tried
    }

    /// How it is now. Thousands of statements ask for it: so the list of one that is done with is used again.
    fn now(&mut self) -> Above {
        let (mut order, knots) = (self.spare.pop().unwrap_or_default(), self.tied_so_far());
        order.clear();
        order.extend_from_slice(self.strands.order());
        Above { order, time: self.clock, knots }
    }

    /// Nobody asks any more how it was there.
    #[inline]
    pub(super) fn let_go(&mut self, above: Option<Above>) {
        self.spare.extend(above.map(|above| above.order));
    }

    /// How many knots of the part are tied; a search may begin behind some.
    fn tied_so_far(&self) -> u64 {
        let before = match &self.study {
            Some(Study::Search(search)) => search.tied_before,
            _ => 0,
        };
        before + self.strands.tied()
    }

    fn worked(&self, spent: u64) -> u64 {
        spent + self.threads.len().to_u64() / 8
    }

    /// Ties a piece with an edit, from how these strands hang, some being of other colors.
    fn attempt(
        &mut self,
        tie: &mut impl FnMut(&mut Self) -> Done,
        overlay: Overlay,
        strands: Tying,
        renamed: &Renamed,
    ) -> Attempt {
        let mark = self.scope.mark();
        let (spent, unknown, frame, here) = (self.spent, self.unknown, self.frame, self.here);
        let (picks_by_color, held) = (self.picks_by_color, self.held);
        let raw = std::mem::replace(&mut self.strands, strands);
        let threads = renamed.swap(&mut self.threads);
        (self.overlay, self.trial) = (Some(overlay), Some(EditTrial::default()));
        let done = tie(self);
        let failed = self.trial.take().is_some_and(|trial| trial.failed);
        self.overlay = None;
        let holds = done.is_ok() && !failed && self.unknown == unknown;
        let joined = self.begun.take();
        let is_joined = joined.is_some();
        if let Some(before) = joined {
            self.threads = before;
        }
        for (strand, thread) in threads {
            self.threads[usize::from(strand)] = thread;
        }
        let tried = std::mem::replace(&mut self.strands, raw);
        let cost = self.spent - spent + tried.tied();
        self.scope.back(mark);
        (self.spent, self.unknown, self.frame, self.here) = (spent, unknown, frame, here);
        (self.picks_by_color, self.held) = (picks_by_color, held);
        Attempt { strands: holds.then_some(tried), is_joined, cost }
    }

    /// After the piece itself: who hangs in whose place after its edits.
    fn settle(&mut self, start: u32, tried: Vec<TiedEdit>) {
        let knots = self.tied_so_far();
        if let Some(Study::Search(search)) = &mut self.study {
            search.passed(start, tried, Moment { time: self.clock, order: self.strands.order(), knots });
        }
    }
}
