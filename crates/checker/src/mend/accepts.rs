//! As which threads a strand would pass all that is promised from some time on. One pass backwards over what is promised
//! says it for every strand; so most steps that might be put in are refused by one look at the strand that is wrong.

use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use crate::tie::{PartStudy, Wants};

/// A set of threads, one bit each.
type Threads = u64;

/// A band of more threads is not looked through so.
const MOST_THREADS: usize = 64;

fn only(thread: ThreadId) -> Threads {
    1 << u32::from(thread)
}

#[derive(Debug, Clone, Copy)]
struct Promised {
    time: u32,
    /// What it and all after it accept.
    rest: Threads,
    /// What it accepts itself.
    own: Threads,
}

/// By strand, what it may be. Only what is promised of its color counts, and only up to where a color decides what is tied:
/// then other things may be promised.
#[derive(Debug)]
pub(super) struct Accepts {
    /// By strand, what is promised of it, in order of time.
    promised: Vec<Vec<Promised>>,
    /// By strand, which of its promises comes next.
    next: Vec<usize>,
    time: u32,
}

impl Accepts {
    /// Of what is promised before `end`; `reads`: when colors decide, in order. `None` if there are too many threads.
    pub(super) fn of(part: &PartStudy, end: u32, reads: &[u32]) -> Option<Self> {
        let most = part
            .wants
            .iter()
            .flatten()
            .filter_map(|(_, wants)| color(*wants))
            .chain(known(&part.threads))
            .max();
        if usize::from(most.unwrap_or(0)) >= MOST_THREADS {
            return None;
        }
        let promised: Vec<_> = part.wants.iter().map(|wants| accepted(wants, end, reads)).collect();
        Some(Self { next: vec![0; promised.len()], promised, time: 0 })
    }

    /// Goes to that time; fastest in order of time.
    pub(super) fn go_to(&mut self, time: u32) {
        for (promised, next) in self.promised.iter().zip(&mut self.next) {
            match time < self.time {
                true => *next = promised.partition_point(|promise| promise.time < time),
                false => *next += promised[*next..].iter().take_while(|promise| promise.time < time).count(),
            }
        }
        self.time = time;
    }

    /// Whether a strand of `thread` passes, from the present time on, for the one that is called `strand`; a color decides
    /// at `read`.
    pub(super) fn fits(&self, strand: u8, thread: ThreadId, read: u32) -> bool {
        let strand = usize::from(strand);
        let next = self.promised[strand].get(self.next[strand]).filter(|promise| promise.time < read);
        thread == UNKNOWN_THREAD || next.is_none_or(|promise| promise.rest & only(thread) != 0)
    }

    /// The same, of what is promised before `until`.
    pub(super) fn fits_until(&self, strand: u8, thread: ThreadId, until: u32) -> bool {
        let strand = usize::from(strand);
        let rest = &self.promised[strand][self.next[strand]..];
        let mut promised = rest.iter().take_while(|promise| promise.time < until);
        thread == UNKNOWN_THREAD || promised.all(|promise| promise.own & only(thread) != 0)
    }
}

fn accepted(wants: &[(u32, Wants)], end: u32, reads: &[u32]) -> Vec<Promised> {
    let before = wants.partition_point(|wants| wants.0 < end);
    let mut reads = reads.iter().rev().peekable();
    let mut threads = Threads::MAX;
    let mut accepted: Vec<Promised> = Vec::with_capacity(before);
    for &(time, wants) in wants[..before].iter().rev() {
        let mut is_read_between = false;
        while reads.next_if(|&&read| read > time).is_some() {
            is_read_between = !accepted.is_empty();
        }
        if is_read_between {
            threads = Threads::MAX;
        }
        let own = color(wants).map_or(Threads::MAX, only);
        threads &= own;
        accepted.push(Promised { time, rest: threads, own });
    }
    accepted.reverse();
    accepted
}

fn color(wants: Wants) -> Option<ThreadId> {
    match wants {
        Wants::Color(thread) if thread != UNKNOWN_THREAD => Some(thread),
        Wants::Color(_) | Wants::AlikeTo(_) => None,
    }
}

fn known(threads: &[ThreadId]) -> impl Iterator<Item = ThreadId> + '_ {
    threads.iter().copied().filter(|&thread| thread != UNKNOWN_THREAD)
}
