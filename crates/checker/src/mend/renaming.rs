//! The law of renaming. A step that picks by place permutes places, whoever hangs there. So after an edit of one step
//! everything after it is tied as before, only that some strands hang in the places of others. Whether all promises
//! hold then can be looked up strand by strand; nothing after the step is tied again.

use crate::resolve::ThreadId;
use crate::tie::{Failing, PartStudy, Wants, keeps};
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

    /// The strands in whose places others hang, with their threads.
    pub(super) fn places(&self) -> &[(u8, ThreadId)] {
        &self.changed
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
        let mut after = Self { changed: Vec::new(), moved: self.moved || tried != raw };
        for (&place, &strand) in raw.iter().zip(tried) {
            // Most strands hang where they did.
            if place == strand && self.changed.is_empty() {
                continue;
            }
            let thread = self.thread_at(strand, threads);
            if thread != threads[usize::from(place)] {
                after.changed.push((place, thread));
            }
        }
        after
    }

    /// By position, of which threads the strands are that hang where without the edit those of `raw` hang.
    pub(super) fn colors(&self, raw: &[u8], threads: &[ThreadId]) -> Vec<ThreadId> {
        let mut colors = Vec::with_capacity(raw.len());
        self.put_colors(raw, threads, &mut colors);
        colors
    }

    /// As [`Self::colors`], in place of those that were there.
    pub(super) fn put_colors(&self, raw: &[u8], threads: &[ThreadId], colors: &mut Vec<ThreadId>) {
        colors.clear();
        if self.changed.is_empty() {
            colors.extend(raw.iter().map(|&strand| threads[usize::from(strand)]));
            return;
        }
        let mut now = threads.to_vec();
        self.changed.iter().for_each(|&(strand, thread)| now[usize::from(strand)] = thread);
        colors.extend(raw.iter().map(|&strand| now[usize::from(strand)]));
    }

    /// Strands have moved, and these colors hang where without the edit those of `raw` hang.
    pub(super) fn of(colors: &[ThreadId], raw: &[u8], threads: &[ThreadId]) -> Self {
        let mut renamed = Self::default();
        renamed.put(colors, raw, threads);
        renamed
    }

    /// As [`Self::of`], in place of what was known.
    pub(super) fn put(&mut self, colors: &[ThreadId], raw: &[u8], threads: &[ThreadId]) {
        self.changed.clear();
        self.changed.reserve(raw.len());
        self.moved = true;
        for (&place, &thread) in raw.iter().zip(colors) {
            if thread != threads[usize::from(place)] {
                self.changed.push((place, thread));
            }
        }
    }

    /// The thread that hangs in the place of a strand.
    pub(super) fn thread_at(&self, strand: u8, threads: &[ThreadId]) -> ThreadId {
        self.thread(strand).unwrap_or(threads[usize::from(strand)])
    }

    /// What can be said of a stretch of time, some of it being wrong without the edit.
    pub(super) fn verdict(&self, part: &PartStudy, time: &Range<u32>) -> Outlook {
        self.foresee(part, time).0
    }

    /// The same; and when a color that has changed decides otherwise for the first time.
    pub(super) fn foresee(&self, part: &PartStudy, time: &Range<u32>) -> (Outlook, Option<u32>) {
        let read = self.decides(part, time);
        let outlook = match (self.holds(part, time.start..read.unwrap_or(time.end)), read) {
            (false, _) => Outlook::Fails,
            (true, Some(_)) => Outlook::Unsure,
            (true, None) => Outlook::Holds,
        };
        (outlook, read)
    }

    /// When a strand is not what it must be, for the first time, as long as the same is tied; no later than a read that
    /// decides otherwise.
    pub(super) fn first_wrong(&self, part: &PartStudy, time: Range<u32>) -> Option<u32> {
        let sure = time.start..self.decides(part, &time).unwrap_or(time.end);
        let wrong = self.changed.iter().filter_map(|&(strand, thread)| {
            let wants = from(&part.wants[usize::from(strand)], sure.start, |wants| wants.0).iter();
            let mut wants = wants.take_while(|wants| wants.0 < sure.end);
            wants.find(|&&(_, wants)| !self.keeps(part, thread, wants)).map(|wants| wants.0)
        });
        wrong.min()
    }

    /// Whether all that is wanted in a stretch of time holds, as long as the same is tied.
    fn holds(&self, part: &PartStudy, time: Range<u32>) -> bool {
        // Most edits leave what is wrong as it is.
        self.mends(part, &time)
            && self.changed.iter().all(|&(strand, thread)| self.fits(part, strand, thread, &time))
    }

    /// Whether a strand of another thread in the place of one is what it must be.
    pub(super) fn fits(&self, part: &PartStudy, strand: u8, thread: ThreadId, time: &Range<u32>) -> bool {
        from(&part.wants[usize::from(strand)], time.start, |wants| wants.0)
            .iter()
            .take_while(|wants| wants.0 < time.end)
            .all(|&(_, wants)| self.keeps(part, thread, wants))
    }

    /// Whether something else hangs wherever something is wrong without the edit.
    pub(super) fn mends(&self, part: &PartStudy, time: &Range<u32>) -> bool {
        let mended = |&Failing { strand, other, .. }: &Failing| {
            self.thread(strand).is_some() || other.is_some_and(|other| self.thread(other).is_some())
        };
        between(&part.walls, time, |&time| time).is_empty()
            && between(&part.failing, time, |failing| failing.time).iter().all(mended)
    }

    /// When it may be that something else is tied, for the first time.
    fn decides(&self, part: &PartStudy, time: &Range<u32>) -> Option<u32> {
        self.first_read(part, time).into_iter().chain(self.first_called(part, time)).min()
    }

    /// When a color that has changed decides otherwise for the first time: which strands are of a thread, mostly are still.
    fn first_read(&self, part: &PartStudy, time: &Range<u32>) -> Option<u32> {
        if !part.decides_in(time) {
            return None;
        }
        let reads = self.changed.iter().filter_map(|&(strand, thread)| {
            let before = part.threads[usize::from(strand)];
            let reads = from(&part.reads[usize::from(strand)], time.start, |read| read.time);
            let reads = reads.iter().take_while(|read| read.time < time.end);
            reads.copied().find(|read| read.tells_apart(before, thread)).map(|read| read.time)
        });
        reads.min()
    }

    /// When a strand is called by a label for the first time, after others have changed places: it stays with its strand, not
    /// with the place.
    pub(super) fn first_called(&self, part: &PartStudy, time: &Range<u32>) -> Option<u32> {
        let called = between(&part.labels, time, |label| label.0);
        // Time may stand still from where it is given up to where the others have changed places.
        called.iter().find(|label| self.moved && label.1 <= time.start).map(|label| label.0)
    }

    fn keeps(&self, part: &PartStudy, thread: ThreadId, wants: Wants) -> bool {
        let wanted = match wants {
            Wants::Color(wanted) => wanted,
            Wants::AlikeTo(other) => self.thread_at(other, &part.threads),
        };
        keeps(wanted, thread)
    }
}

/// Those entries of a list, which is in order of time, that come at that time or later.
pub(super) fn from<T>(list: &[T], time: u32, at: impl Fn(&T) -> u32) -> &[T] {
    &list[list.partition_point(|entry| at(entry) < time)..]
}

/// Those of them that lie in a stretch of time.
fn between<'l, T>(list: &'l [T], time: &Range<u32>, at: impl Fn(&T) -> u32) -> &'l [T] {
    let rest = from(list, time.start, &at);
    &rest[..rest.partition_point(|entry| at(entry) < time.end)]
}
