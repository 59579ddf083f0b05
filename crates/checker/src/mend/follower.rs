//! What comes of strands in the places of others, also where steps pick by color: those whose colors decide otherwise are
//! tied again, each by itself, and the law of renaming says what comes of it until the next one.

use super::ahead::{Ahead, Coming};
use super::renaming::{Outlook, Renamed};
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

/// An edit as far as it was followed.
#[derive(Debug, Clone)]
pub(super) struct FollowedEdit {
    /// How the strands hang in the place of those of another color.
    pub(super) renamed: Renamed,
    /// How many knots more are tied than without the edit, but for its own.
    pub(super) more: i64,
    /// Whether no step had to be tied again: then all tie where they did.
    pub(super) is_same: bool,
}

impl Default for FollowedEdit {
    fn default() -> Self {
        Self { renamed: Renamed::default(), more: 0, is_same: true }
    }
}

/// Follows edits through one part.
pub(super) struct Follower<'s> {
    part: &'s PartStudy,
    steps: StepsAgain<'s>,
    ahead: Ahead<'s>,
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
            ahead: Ahead::new(part),
            in_vain: HashMap::default(),
            on_the_way: Vec::new(),
            left: MOST_STEPS_OF_ALL,
        }
    }

    pub(super) fn ahead(&self) -> &Ahead<'s> {
        &self.ahead
    }

    /// Goes on through a stretch of time.
    pub(super) fn follow(&mut self, edit: &mut FollowedEdit, time: Range<u32>) -> Outlook {
        self.on_the_way.clear();
        let found = self.go(edit, time);
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
    fn go(&mut self, edit: &mut FollowedEdit, time: Range<u32>) -> Result<Outlook, u32> {
        let Range { mut start, end } = time;
        loop {
            let coming = self.ahead.of_all(edit.renamed.places(), start);
            let called = edit.renamed.first_called(self.part, &(start..end)).unwrap_or(end);
            if coming.told >= called {
                self.hold(&edit.renamed, start..called, coming)?;
                return Ok(if called < end { Outlook::Unsure } else { Outlook::Holds });
            }
            let reading = self.part.reading_at(coming.told).filter(|reading| start <= reading.time().start);
            let until = reading.map_or(coming.told, |reading| reading.time().start);
            self.hold(&edit.renamed, start..until, coming)?;
            let known = |reading: &'s Reading| Some((reading, self.part.order_before(reading)?));
            let is_near = self.on_the_way.len() < MOST_STEPS.min(self.left);
            let Some((reading, before)) = reading.and_then(known).filter(|_| is_near) else {
                return Ok(Outlook::Unsure);
            };
            let begun = reading.time().start;
            let failed = self.in_vain.get(&begun).and_then(|failed| failed.get(edit.renamed.places()));
            if let Some(&failed) = failed.filter(|&&failed| failed <= end) {
                return Err(failed);
            }
            self.on_the_way.push((begun, edit.renamed.places().into()));
            let colors = self.tie_again(edit, reading, before).ok_or(reading.time().end)?;
            // Where it could not be tied without the edit, nobody knows what comes after it.
            let Some(after) = self.part.order_after(reading) else { return Ok(Outlook::Unsure) };
            edit.renamed.put(&colors, after, &self.part.threads);
            start = reading.time().end;
        }
    }

    /// All that is wanted in a stretch of time holds, as long as the same is tied, or something is wrong by its end. `coming`:
    /// what comes next.
    fn hold(&self, renamed: &Renamed, time: Range<u32>, coming: Coming) -> Result<(), u32> {
        let end = time.end;
        let fits = |&(strand, thread): &(u8, ThreadId)| renamed.fits(self.part, strand, thread, &time);
        let fit = || renamed.places().iter().all(fits);
        let is_right = coming.wrong >= end && (coming.met >= end || fit());
        if is_right && renamed.mends(self.part, &time) { Ok(()) } else { Err(end) }
    }

    /// A step among strands of other colors, which without the edit hang in that order before it. Of which colors they are after
    /// it.
    fn tie_again(
        &mut self,
        edit: &mut FollowedEdit,
        reading: &'s Reading,
        before: &[u8],
    ) -> Option<Vec<ThreadId>> {
        let mut colors = edit.renamed.colors(before, &self.part.threads);
        let knots = self.steps.tie(reading, before, &mut colors)?;
        edit.more += knots.to_i64() - i64::from(reading.knots());
        edit.is_same = false;
        Some(colors)
    }
}
