//! What was seen is settled. Where every strand has been found to be of the color that is promised of it, an edit of what was
//! tied before breaks one of these promises, or it left all colors as they are and mends nothing after them. So only what was
//! tied since may be to blame: in a long band as little as in a short one.

use super::renaming::from;
use crate::resolve::UNKNOWN_THREAD;
use crate::tie::{PartStudy, Passing, Studied, Wants};

/// How often it may turn out that one more strand was last seen earlier. Where colors decide all the time, little is settled.
const MOST_TURNS: usize = 64;

/// Up to when all is settled before a mistake, in the part in which it is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Settled {
    part: usize,
    until: u32,
}

impl Settled {
    /// What is settled before the first mistake; of a set that is only not closed, before its end. `None` if nothing is.
    pub(super) fn before_mistake(studied: &Studied) -> Option<Self> {
        let (part, mistake) = studied.first_mistake()?;
        let study = &studied.parts[part];
        let is_known = study.rests_on_colors() && !study.threads.contains(&UNKNOWN_THREAD);
        let until = if is_known { seen_since(study, mistake)? } else { return None };
        Some(Self { part, until })
    }

    pub(super) fn is_of(&self, part: usize) -> bool {
        part == self.part
    }

    /// Since when what was tied in that part may be to blame.
    pub(super) fn since(settled: Option<Self>, part: usize) -> u32 {
        settled.filter(|settled| settled.is_of(part)).map_or(0, |settled| settled.until)
    }

    /// Whether a statement of that part is settled, with all the times that it was tied.
    pub(super) fn has(&self, part: usize, passes: &[Passing]) -> bool {
        self.is_of(part) && passes.iter().all(|pass| pass.until <= self.until)
    }

    /// Whether what is put in before a statement of that part is settled, each time.
    pub(super) fn has_before(&self, part: usize, passes: &[Passing]) -> bool {
        self.is_of(part) && passes.iter().all(|pass| pass.time <= self.until)
    }
}

/// The latest time since when each strand was seen to be of the color that is promised of it, before that color decided
/// anything.
fn seen_since(part: &PartStudy, mistake: u32) -> Option<u32> {
    let mut since = mistake;
    for _ in 0..MOST_TURNS {
        let before = since;
        for strand in 0..part.threads.len() {
            since = last_seen(part, strand, since, mistake)?;
        }
        if since == before {
            return Some(since);
        }
    }
    None
}

/// The same for one strand, no later than `since`.
fn last_seen(part: &PartStudy, strand: usize, since: u32, mistake: u32) -> Option<u32> {
    let wants = &part.wants[strand];
    let is_seen = |&(time, wants): &(u32, Wants)| {
        time < mistake && matches!(wants, Wants::Color(thread) if thread != UNKNOWN_THREAD)
    };
    let seen = from(wants, since, |wants| wants.0).iter().find(|wants| is_seen(wants)).map(|wants| wants.0);
    let read = from(&part.reads[strand], since, |read| read.time).first().map(|read| read.time);
    if seen.is_some_and(|seen| read.is_none_or(|read| seen < read)) {
        return Some(since);
    }
    let before = &wants[..wants.partition_point(|wants| wants.0 < since)];
    before.iter().rfind(|wants| is_seen(wants)).map(|wants| wants.0)
}
