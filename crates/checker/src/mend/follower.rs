//! What comes of strands in the places of others, also where steps pick by color: those whose colors decide otherwise are
//! tied again, each by itself, and the law of renaming says what comes of it until the next one.

use super::renaming::{Orders, Outlook, Renamed};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId};
use crate::tie::{Limits, PartStudy, Reading, StepsAgain};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::ops::Range;

/// How many steps that decide otherwise an edit is followed through; then a tie of the rest is as good.
const MOST_STEPS: usize = 200;

/// Through how many all edits are followed together. In a wide band without promises each of them goes a long way.
const MOST_STEPS_OF_ALL: usize = 20_000;

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
    /// By the time when a step begins, and the places in which other colors hang then: by when something is wrong. Edits in
    /// different places often come to the same.
    in_vain: HashMap<u32, HashMap<Places, u32>>,
    /// The same of the edit that is followed, of which that is not known yet.
    on_the_way: Vec<(u32, Places)>,
    /// How many steps may yet be followed.
    left: usize,
}

/// Places of strands, and the threads that hang there instead.
type Places = Box<[(u8, ThreadId)]>;

impl<'s> Follower<'s> {
    pub(super) fn new(
        script: &'s Script,
        part: &'s PartStudy,
        limits: Limits<'s>,
        facts: &'s mut Facts,
    ) -> Self {
        Self {
            part,
            steps: StepsAgain::new(script, part, limits, facts),
            renamed: Renamed::default(),
            spare: Renamed::default(),
            tried: Vec::new(),
            more: 0,
            in_vain: HashMap::default(),
            on_the_way: Vec::new(),
            left: MOST_STEPS_OF_ALL,
        }
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
        self.on_the_way.clear();
        let found = self.go(time);
        self.left = self.left.saturating_sub(self.on_the_way.len());
        match found {
            Ok(outlook) => outlook,
            Err(failed) => {
                for (time, places) in self.on_the_way.drain(..) {
                    self.in_vain.entry(time).or_default().insert(places, failed);
                }
                Outlook::Fails
            }
        }
    }

    /// The same; with the time by which something is wrong, if anything is.
    fn go(&mut self, time: Range<u32>) -> Result<Outlook, u32> {
        let Range { mut start, end } = time;
        loop {
            let rest = start..end;
            let called = self.renamed.first_called(self.part, &rest).unwrap_or(end);
            let Some(read) = self.renamed.first_read(self.part, &rest).filter(|&read| read < called) else {
                self.hold(start..called)?;
                return Ok(if called < end { Outlook::Unsure } else { Outlook::Holds });
            };
            let reading = self.part.reading_at(read).filter(|reading| start <= reading.time().start);
            self.hold(start..reading.map_or(read, |reading| reading.time().start))?;
            let known = |reading| Some((reading, self.part.orders_around(reading)?));
            let is_near = self.on_the_way.len() < MOST_STEPS.min(self.left);
            let Some((reading, (before, after))) = reading.and_then(known).filter(|_| is_near) else {
                return Ok(Outlook::Unsure);
            };
            let begun = reading.time().start;
            let failed = self.in_vain.get(&begun).and_then(|failed| failed.get(self.renamed.places()));
            if let Some(&failed) = failed.filter(|&&failed| failed <= end) {
                return Err(failed);
            }
            self.on_the_way.push((begun, self.renamed.places().into()));
            self.tie_again(reading, before, after).ok_or(reading.time().end)?;
            start = reading.time().end;
        }
    }

    fn hold(&self, time: Range<u32>) -> Result<(), u32> {
        let end = time.end;
        if self.renamed.holds(self.part, time) { Ok(()) } else { Err(end) }
    }

    /// A step among strands of other colors; without it they hang in these orders before it and after it.
    fn tie_again(&mut self, reading: &'s Reading, before: &[u8], raw: &[u8]) -> Option<()> {
        let threads = &self.part.threads;
        let thread = |strand: u8| self.renamed.thread_at(strand, threads);
        let knots = self.steps.tie(reading, before, thread, &mut self.tried)?;
        self.more += knots.to_i64() - i64::from(reading.knots());
        self.renamed.write_after(Orders { tried: &self.tried, raw }, threads, &mut self.spare);
        std::mem::swap(&mut self.renamed, &mut self.spare);
        Some(())
    }
}
