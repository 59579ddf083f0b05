//! What is asked of the strands of a part, in order of time. Where no color decides, all is tied as it was, whoever hangs in
//! whose place: then what comes of that is seen by going through it.

use crate::resolve::ThreadId;
use crate::tie::{PartStudy, Wants, keeps};
use std::ops::Range;

/// Of a part in which more is asked, nothing is listed.
const MOST_ASKED: usize = 2_000;

/// What a strand must be at a time.
#[derive(Debug, Clone, Copy)]
pub(super) struct StrandAsked {
    time: u32,
    strand: u8,
    wants: Wants,
}

/// Of all strands, in order of time.
#[derive(Debug)]
pub(super) struct AskedInOrder(Vec<StrandAsked>);

impl AskedInOrder {
    /// `None` if it is too much.
    pub(super) fn of(part: &PartStudy) -> Option<Self> {
        if part.wants.iter().map(Vec::len).sum::<usize>() > MOST_ASKED {
            return None;
        }
        let strands = (0..=u8::MAX).zip(&part.wants);
        let all = strands.flat_map(|(strand, wants)| {
            wants.iter().map(move |&(time, wants)| StrandAsked { time, strand, wants })
        });
        let mut all: Vec<StrandAsked> = all.collect();
        all.sort_by_key(|asked| asked.time);
        Some(Self(all))
    }

    pub(super) fn between(&self, time: Range<u32>) -> &[StrandAsked] {
        let from = |time: u32| self.0.partition_point(|asked| asked.time < time);
        &self.0[from(time.start)..from(time.end)]
    }
}

impl StrandAsked {
    /// `hanging`: by strand, the thread that hangs in its place.
    pub(super) fn holds(self, hanging: &[ThreadId]) -> bool {
        let wanted = match self.wants {
            Wants::Color(wanted) => wanted,
            Wants::AlikeTo(other) => hanging[usize::from(other)],
        };
        keeps(wanted, hanging[usize::from(self.strand)])
    }
}
