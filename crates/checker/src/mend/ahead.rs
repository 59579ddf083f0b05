//! What comes next of a strand of another thread in the place of one: when it is not what is promised, and when it decides
//! otherwise what is tied. Hundreds of steps that might be put in hang the same threads in the same places, and mostly nothing
//! comes for a while: so what was found is kept until then.

use super::renaming::from;
use crate::resolve::ThreadId;
use crate::tie::{PartStudy, Wants, keeps};
use std::cell::RefCell;

/// Looks ahead in one part.
#[derive(Debug)]
pub(super) struct Ahead<'s> {
    part: &'s PartStudy,
    /// By strand, for each thread that was asked about.
    known: RefCell<Vec<Vec<(ThreadId, Foresight)>>>,
}

/// When something comes next; the latest time if never.
#[derive(Debug, Clone, Copy)]
pub(super) struct Coming {
    /// A strand is not of the color that is promised.
    pub(super) wrong: u32,
    /// It decides otherwise what is tied.
    pub(super) told: u32,
    /// It must be of one color with another one.
    pub(super) met: u32,
}

impl Coming {
    const NEVER: Self = Self { wrong: u32::MAX, told: u32::MAX, met: u32::MAX };

    fn or(self, other: Self) -> Self {
        let (wrong, told) = (self.wrong.min(other.wrong), self.told.min(other.told));
        Self { wrong, told, met: self.met.min(other.met) }
    }

    fn first(self) -> u32 {
        self.wrong.min(self.told).min(self.met)
    }
}

/// From the one time to the other nothing comes.
#[derive(Debug, Clone, Copy)]
struct Foresight {
    since: u32,
    until: u32,
    coming: Coming,
}

impl Foresight {
    const NOTHING: Self = Self { since: u32::MAX, until: 0, coming: Coming::NEVER };
}

impl<'s> Ahead<'s> {
    pub(super) fn new(part: &'s PartStudy) -> Self {
        Self { part, known: RefCell::new(vec![Vec::new(); part.threads.len()]) }
    }

    /// What comes next, from that time on, of a strand of `thread` in the place of `strand`.
    pub(super) fn of(&self, strand: u8, thread: ThreadId, time: u32) -> Coming {
        self.of_all(&[(strand, thread)], time)
    }

    /// What comes next of any of several such strands.
    pub(super) fn of_all(&self, places: &[(u8, ThreadId)], time: u32) -> Coming {
        let mut all = self.known.borrow_mut();
        let mut first = Coming::NEVER;
        for &(strand, thread) in places {
            let known = &mut all[usize::from(strand)];
            let at = known.iter().position(|known| known.0 == thread).unwrap_or_else(|| {
                known.push((thread, Foresight::NOTHING));
                known.len() - 1
            });
            let known = &mut known[at].1;
            if time < known.since || known.until < time {
                let coming = self.look(strand, thread, time, known);
                // Steps that are put in twice go back and forth.
                let since = if coming.first() == known.until { time.min(known.since) } else { time };
                *known = Foresight { since, until: coming.first(), coming };
            }
            first = first.or(known.coming);
        }
        first
    }

    fn look(&self, strand: u8, thread: ThreadId, time: u32, known: &Foresight) -> Coming {
        let strand = usize::from(strand);
        // What has not come yet is not looked for again.
        let next = |before: u32, find: &dyn Fn() -> Option<u32>| match known.since <= time && time <= before {
            true => before,
            false => find().unwrap_or(u32::MAX),
        };
        let own = self.part.threads[strand];
        let wants = || from(&self.part.wants[strand], time, |wants| wants.0).iter();
        let reads = || from(&self.part.reads[strand], time, |read| read.time).iter();
        let is_wrong = |wants: Wants| matches!(wants, Wants::Color(wanted) if !keeps(wanted, thread));
        let is_met = |wants: Wants| matches!(wants, Wants::AlikeTo(_));
        let Coming { wrong, told, met } = known.coming;
        Coming {
            wrong: next(wrong, &|| Some(wants().find(|wants| is_wrong(wants.1))?.0)),
            told: next(told, &|| {
                Some(reads().find(|read| own != thread && read.tells_apart(own, thread))?.time)
            }),
            met: next(met, &|| Some(wants().find(|wants| is_met(wants.1))?.0)),
        }
    }
}
