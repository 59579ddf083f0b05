//! What comes of strands in the places of others, also where steps pick by color: those whose colors decide otherwise are
//! tied again, each by itself, and the law of renaming says what comes of it until the next one.

use super::renaming::{Orders, Outlook, Renamed};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId};
use crate::tie::{Limits, PartStudy, StepsAgain};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// Follows edits through one part.
pub(super) struct Follower<'s> {
    part: &'s PartStudy,
    steps: StepsAgain<'s>,
    /// How the strands hang in the place of those of another color.
    renamed: Renamed,
    /// Room for the same after one more step.
    spare: Renamed,
    tried: Vec<u8>,
    /// How many knots more are tied than without the edit, but for its own.
    more: i64,
}

impl<'s> Follower<'s> {
    pub(super) fn new(
        script: &'s Script,
        part: &'s PartStudy,
        limits: Limits<'s>,
        facts: &'s mut Facts,
    ) -> Self {
        let (renamed, spare) = (Renamed::default(), Renamed::default());
        let steps = StepsAgain::new(script, part, limits, facts);
        Self { part, steps, renamed, spare, tried: Vec::new(), more: 0 }
    }

    /// Begins with another edit.
    pub(super) fn begin(&mut self) {
        self.renamed.clear();
        self.more = 0;
    }

    /// The strands hang in place of others from the start.
    pub(super) fn hang(&mut self, threads: &[ThreadId]) {
        self.renamed.hang(threads, &self.part.threads);
    }

    /// What it has cost so far.
    pub(super) fn work(&self) -> u64 {
        self.steps.tied()
    }

    /// How many knots more are tied than without the edit, but for its own.
    pub(super) fn more(&self) -> i64 {
        self.more
    }

    /// Ties a step of the edit.
    pub(super) fn pass(&mut self, orders: Orders) {
        self.renamed.write_after(orders, &self.part.threads, &mut self.spare);
        std::mem::swap(&mut self.renamed, &mut self.spare);
    }

    /// Goes on through a stretch of time.
    pub(super) fn follow(&mut self, time: Range<u32>) -> Outlook {
        let Range { mut start, end } = time;
        loop {
            let rest = start..end;
            let called = self.renamed.first_called(self.part, &rest).unwrap_or(end);
            let Some(read) = self.renamed.first_read(self.part, &rest).filter(|&read| read < called) else {
                return match self.renamed.holds(self.part, start..called) {
                    false => Outlook::Fails,
                    true if called < end => Outlook::Unsure,
                    true => Outlook::Holds,
                };
            };
            let reading = self.part.reading_at(read).filter(|reading| start <= reading.time().start);
            let until = reading.map_or(read, |reading| reading.time().start);
            if !self.renamed.holds(self.part, start..until) {
                return Outlook::Fails;
            }
            let known = |reading| Some((reading, self.part.orders_around(reading)?));
            let Some((reading, (before, after))) = reading.and_then(known) else { return Outlook::Unsure };
            let thread = |strand: u8| self.renamed.thread_at(strand, &self.part.threads);
            let Some(knots) = self.steps.tie(reading, before, thread, &mut self.tried) else {
                return Outlook::Fails;
            };
            self.more += knots.to_i64() - i64::from(reading.knots());
            self.renamed.write_after(
                Orders { tried: &self.tried, raw: after },
                &self.part.threads,
                &mut self.spare,
            );
            std::mem::swap(&mut self.renamed, &mut self.spare);
            start = reading.time().end;
        }
    }
}
