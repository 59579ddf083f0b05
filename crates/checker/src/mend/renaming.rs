//! The law of renaming. A step that picks by place permutes places, whoever hangs there. So after an edit of one step
//! everything after it is tied as before, only that some strands hang in the places of others. Whether all promises
//! hold then can be looked up strand by strand; nothing after the step is tied again.

use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use crate::tie::{Failing, PartStudy, Wants};
use std::ops::Range;

/// Which strands are of another color than those in whose places they hang.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Renamed {
    /// The strand whose place it is, and the thread that hangs there.
    changed: Vec<(u8, ThreadId)>,
    /// Whether other strands hang there at all, if of the same colors.
    moved: bool,
}

/// How the strands hang after a step: with an edit of it, and without.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Orders<'o> {
    pub(crate) tried: &'o [u8],
    pub(crate) raw: &'o [u8],
}

/// What can be said of an edit without tying what comes after it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outlook {
    /// Something is wrong.
    Fails,
    /// A step reads a color that has changed, and may tie otherwise.
    Unsure,
    /// Nothing is wrong.
    Holds,
}

impl Renamed {
    fn thread(&self, strand: u8) -> Option<ThreadId> {
        self.changed.iter().find(|changed| changed.0 == strand).map(|changed| changed.1)
    }

    /// Strands that are hung of these threads in place of others.
    pub(super) fn hung(threads: &[ThreadId], before: &[ThreadId]) -> Self {
        let changed =
            (0..=u8::MAX).zip(threads.iter().zip(before)).filter(|(_, (now, before))| now != before);
        Self { changed: changed.map(|(strand, (&now, _))| (strand, now)).collect(), moved: false }
    }

    /// Gives the strands the threads that hang in their places. What they were of before.
    pub(crate) fn swap(&self, threads: &mut [ThreadId]) -> Vec<(u8, ThreadId)> {
        let swap = |&(strand, thread): &(u8, ThreadId)| {
            (strand, std::mem::replace(&mut threads[usize::from(strand)], thread))
        };
        self.changed.iter().map(swap).collect()
    }

    /// After a step that was tied with the edit.
    pub(crate) fn after(&self, Orders { tried, raw }: Orders, threads: &[ThreadId]) -> Self {
        let thread = |strand: u8| self.thread(strand).unwrap_or(threads[usize::from(strand)]);
        let pairs = raw.iter().zip(tried).map(|(&place, &strand)| (place, thread(strand)));
        let changed = pairs.filter(|&(place, thread)| thread != threads[usize::from(place)]).collect();
        Self { changed, moved: self.moved || tried != raw }
    }

    /// Whether all that is wanted in a stretch of time holds, some of it being wrong without the edit.
    pub(crate) fn verdict(&self, part: &PartStudy, time: Range<u32>) -> Outlook {
        let read = self.first_read(part, &time);
        let sure = time.start..read.unwrap_or(time.end);
        let holds = |&(strand, thread): &(u8, ThreadId)| {
            between(&part.wants[usize::from(strand)], &sure, |wants| wants.0)
                .iter()
                .all(|&(_, wants)| self.keeps(part, thread, wants))
        };
        let mended = |&Failing { strand, other, .. }: &Failing| {
            self.thread(strand).is_some() || other.is_some_and(|other| self.thread(other).is_some())
        };
        let is_wall = !between(&part.walls, &sure, |&time| time).is_empty();
        if is_wall
            || !between(&part.failing, &sure, |failing| failing.time).iter().all(mended)
            || !self.changed.iter().all(holds)
        {
            return Outlook::Fails;
        }
        if read.is_some() { Outlook::Unsure } else { Outlook::Holds }
    }

    /// When a color that has changed decides otherwise for the first time: which strands are of a thread, mostly are still.
    fn first_read(&self, part: &PartStudy, time: &Range<u32>) -> Option<u32> {
        let reads = self.changed.iter().filter_map(|&(strand, thread)| {
            let before = part.threads[usize::from(strand)];
            let reads = between(&part.reads[usize::from(strand)], time, |read| read.time);
            reads.iter().find(|read| read.tells_apart(before, thread)).map(|read| read.time)
        });
        // A label stays with its strand, not with the place.
        let called = between(&part.labels, time, |label| label.0)
            .iter()
            .find(|label| self.moved && label.1 < time.start)
            .map(|label| label.0);
        reads.chain(called).min()
    }

    fn keeps(&self, part: &PartStudy, thread: ThreadId, wants: Wants) -> bool {
        let wanted = match wants {
            Wants::Color(wanted) => wanted,
            Wants::AlikeTo(other) => self.thread(other).unwrap_or(part.threads[usize::from(other)]),
        };
        wanted == thread || wanted == UNKNOWN_THREAD || thread == UNKNOWN_THREAD
    }
}

/// Those entries of a list, which is in order of time, that lie in a stretch of it.
fn between<'l, T>(list: &'l [T], time: &Range<u32>, at: impl Fn(&T) -> u32) -> &'l [T] {
    let first = list.partition_point(|entry| at(entry) < time.start);
    let rest = &list[first..];
    &rest[..rest.partition_point(|entry| at(entry) < time.end)]
}
