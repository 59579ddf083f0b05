//! What comes of strands in the places of others, also where steps pick by color: up to the first of those whose colors decide
//! otherwise, the law of renaming says it; what comes from there on is tied again.

use super::again::{Again, Course};
use super::ahead::{Ahead, Coming};
use super::renaming::{Outlook, Renamed};
use crate::resolve::ThreadId;
use crate::tie::{Moment, PartStudy, Stuck};
use std::ops::Range;

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

    /// All that is wanted in a stretch of time holds, as long as the same is tied. `coming`: what comes next.
    fn holds(&self, renamed: &Renamed, time: Range<u32>, coming: Coming) -> bool {
        let part = self.part;
        let fits = |&(strand, thread): &(u8, ThreadId)| renamed.fits(part, strand, thread, &time);
        let fit = || renamed.places().iter().all(fits);
        coming.wrong >= time.end && (coming.met >= time.end || fit()) && renamed.mends(part, &time)
    }
}
