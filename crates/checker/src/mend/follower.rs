//! What comes of strands in the places of others, also where steps pick by color: up to the first of those whose colors decide
//! otherwise, the law of renaming says it; what comes from there on is tied again.

use super::ahead::{Ahead, Coming};
use super::renaming::{Outlook, Renamed};
use crate::resolve::ThreadId;
use crate::tie::{Moment, PartStudy, Replay, Stuck};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxBuildHasher, FxHashMap as HashMap};
use std::hash::BuildHasher;
use std::ops::Range;

/// How many acts and strands are looked at for all edits together. In a wide band without promises each of them goes a long way.
pub(super) const MOST_LOOKS: u64 = 1_000_000;

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
    replay: Replay<'s>,
    ahead: Ahead<'s>,
    /// By a hash of when a step begins and of how the colors hang then: when something is wrong.
    in_vain: HashMap<u64, u32>,
    /// The same hashes of the edit that is followed, of which that is not known yet.
    on_the_way: Vec<u64>,
}

/// After how many steps it is asked whether what comes is known.
const STRETCH: usize = 8;

impl<'s> Follower<'s> {
    pub(super) fn new(part: &'s PartStudy) -> Self {
        let replay = Replay::of(part, MOST_LOOKS);
        Self { replay, ahead: Ahead::new(part), in_vain: HashMap::default(), on_the_way: Vec::new() }
    }

    pub(super) fn ahead(&self) -> &Ahead<'s> {
        &self.ahead
    }

    /// Goes on from that time up to a later moment.
    pub(super) fn follow(&mut self, edit: &mut FollowedEdit, since: u32, until: Moment) -> Outlook {
        let part = self.replay.part;
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
        let begun = begun.and_then(|begun| part.moment(begun)).filter(|_| self.replay.left > 0);
        let Some(begun) = begun else { return Outlook::Unsure };
        match self.tie_again(edit, begun, until) {
            Ok(()) => Outlook::Holds,
            Err(Stuck::Unknown) => Outlook::Unsure,
            Err(Stuck::Wrong { .. }) => Outlook::Fails,
        }
    }

    /// From one moment to another, stretch by stretch: what was followed before in another place often came to the same.
    fn tie_again(&mut self, edit: &mut FollowedEdit, begun: Moment, until: Moment) -> Result<(), Stuck> {
        let part = self.replay.part;
        let mut colors = edit.renamed.colors(begun.order, &part.threads);
        let (mut time, mut knots) = (begun.time, 0);
        self.on_the_way.clear();
        let came = loop {
            let hanging = FxBuildHasher.hash_one((time, &colors));
            if let Some(&failed) = self.in_vain.get(&hanging).filter(|&&failed| failed < until.time) {
                break Err(Stuck::Wrong { time: Some(failed) });
            }
            self.on_the_way.push(hanging);
            let next = part.begun_after(time, STRETCH).unwrap_or(u32::MAX).min(until.time);
            match self.replay.tie(&mut colors, time..next) {
                Ok(tied) => knots += tied,
                Err(stuck) => break Err(stuck),
            }
            if next == until.time {
                break Ok(());
            }
            time = next;
        };
        if let Err(Stuck::Wrong { time: Some(time) }) = came {
            self.in_vain.extend(self.on_the_way.drain(..).map(|hanging| (hanging, time)));
        }
        came?;
        edit.renamed.put(&colors, until.order, &part.threads);
        edit.more += knots.to_i64() - (until.knots.to_i64() - begun.knots.to_i64());
        edit.is_same = false;
        Ok(())
    }

    /// All that is wanted in a stretch of time holds, as long as the same is tied. `coming`: what comes next.
    fn holds(&self, renamed: &Renamed, time: Range<u32>, coming: Coming) -> bool {
        let part = self.replay.part;
        let fits = |&(strand, thread): &(u8, ThreadId)| renamed.fits(part, strand, thread, &time);
        let fit = || renamed.places().iter().all(fits);
        coming.wrong >= time.end && (coming.met >= time.end || fit()) && renamed.mends(part, &time)
    }
}
