//! What comes of strands in the places of others, also where steps pick by color: up to the first of those whose colors decide
//! otherwise, the law of renaming says it; what comes from there on is tied again.

use super::again::{Again, Course};
use super::ahead::{Ahead, Coming};
use super::renaming::{Outlook, Renamed};
use crate::resolve::ThreadId;
use crate::tie::{Moment, PartStudy, Replay, Stuck};
use std::ops::Range;

/// How many steps come soon, and how many acts and strands are looked at for that.
const SOON: usize = 8;
const MOST_ACTS_SOON: u64 = 64;

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

/// A few steps of which a color decides the first. Where most edits go wrong in them, that is seen soonest by tying them, before
/// it is known who hangs in whose place.
pub(super) struct SoonTied {
    time: Range<u32>,
    /// How often it was asked whether something is wrong, and how often it was.
    asked: usize,
    wrong: usize,
    colors: Vec<ThreadId>,
}

/// Follows edits through one part.
pub(super) struct Follower<'s> {
    part: &'s PartStudy,
    ahead: Ahead<'s>,
    again: Again,
}

impl<'s> Follower<'s> {
    pub(super) fn new(part: &'s PartStudy) -> Self {
        Self { part, ahead: Ahead::new(part), again: Again::default() }
    }

    pub(super) fn ahead(&self) -> &Ahead<'s> {
        &self.ahead
    }

    /// Goes on from that time up to a later moment.
    pub(super) fn follow(&mut self, edit: &mut FollowedEdit, since: u32, until: Moment) -> Outlook {
        let part = self.part;
        let coming = self.ahead.of_all(edit.renamed.places(), since);
        let called = edit.renamed.first_called(part, &(since..until.time)).unwrap_or(until.time);
        if coming.told >= called {
            return match self.holds(&edit.renamed, since..called, coming) {
                true if called < until.time => Outlook::Unsure,
                true => Outlook::Holds,
                false => Outlook::Fails,
            };
        }
        let begun = part.reading_at(coming.told).filter(|begun| since <= begun.time);
        if !self.holds(&edit.renamed, since..begun.map_or(coming.told, |begun| begun.time), coming) {
            return Outlook::Fails;
        }
        let Some(begun) = begun.and_then(|begun| part.moment(begun)) else { return Outlook::Unsure };
        match self.again.tie(&mut edit.renamed, Course { part, begun, until }, &mut None) {
            Ok(more) => {
                (edit.more, edit.is_same) = (edit.more + more, false);
                Outlook::Holds
            }
            Err(Stuck::Unknown) => Outlook::Unsure,
            Err(Stuck::Wrong { .. }) => Outlook::Fails,
        }
    }

    /// The few steps that come after that time, if a color decides in the first of them. `read`: when one does next.
    pub(super) fn soon(&self, since: u32, until: u32, read: Option<u32>) -> Option<SoonTied> {
        let next = |number| self.part.begun_after(since, number).unwrap_or(u32::MAX);
        read.filter(|&read| read < next(0))?;
        Some(SoonTied { time: since..next(SOON).min(until), asked: 0, wrong: 0, colors: Vec::new() })
    }

    /// Whether it is seen at once that something is wrong among strands of these colors, by position.
    pub(super) fn is_soon_wrong(&self, soon: &mut SoonTied, colors: &[ThreadId]) -> bool {
        if soon.asked > SOON && soon.wrong * 4 < soon.asked * 3 {
            return false;
        }
        soon.colors.clear();
        soon.colors.extend_from_slice(colors);
        let came = Replay::of(self.part, MOST_ACTS_SOON).tie(&mut soon.colors, soon.time.clone());
        let is_wrong = matches!(came, Err(Stuck::Wrong { .. }));
        soon.asked += 1;
        soon.wrong += usize::from(is_wrong);
        is_wrong
    }

    /// All that is wanted in a stretch of time holds, as long as the same is tied. `coming`: what comes next.
    fn holds(&self, renamed: &Renamed, time: Range<u32>, coming: Coming) -> bool {
        let part = self.part;
        let fits = |&(strand, thread): &(u8, ThreadId)| renamed.fits(part, strand, thread, &time);
        let fit = || renamed.places().iter().all(fits);
        coming.wrong >= time.end && (coming.met >= time.end || fit()) && renamed.mends(part, &time)
    }
}
