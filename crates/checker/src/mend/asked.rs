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

/// Of the strands that hang as a part begins, all that is known without tying it: before a color decides, or it is asked how they
/// hung at the start. In a long part, not all is listed.
#[derive(Debug, Default)]
pub(super) struct AskedAtStart {
    /// Whether something is wrong whoever hangs there.
    pub(super) is_in_vain: bool,
    /// First what is not so as it is written: with most other lists, it is not so either.
    asked: Vec<StrandAsked>,
}

impl AskedAtStart {
    pub(super) fn of(part: &PartStudy) -> Self {
        let first = part.read_at.first().copied().into_iter().chain(part.start_asked).min();
        let end = first.map_or(part.end, |first| first.min(part.end));
        let most = MOST_ASKED / part.width.max(1);
        let hangs = |strand: u8| usize::from(strand) < part.width;
        let (mut wrong, mut right) = (Vec::new(), Vec::new());
        for (strand, wants) in (0..=u8::MAX).zip(&part.wants[..part.width]) {
            let (mut asked, right_before) = (wants.iter().take_while(|wants| wants.0 < end), right.len());
            while let Some(&(time, wants)) = asked.next().filter(|_| right.len() < right_before + most) {
                let is_among_them = !matches!(wants, Wants::AlikeTo(other) if !hangs(other));
                let asked = StrandAsked { time, strand, wants };
                let list = if asked.holds(&part.threads) { &mut right } else { &mut wrong };
                list.extend(Some(asked).filter(|_| is_among_them));
            }
        }
        wrong.append(&mut right);
        Self { is_in_vain: part.walls.first().is_some_and(|&wall| wall < end), asked: wrong }
    }

    /// Whether strands of these threads may hang there.
    pub(super) fn holds(&self, hung: &[ThreadId]) -> bool {
        self.asked.iter().all(|asked| asked.holds(hung))
    }
}

impl StrandAsked {
    /// `hanging`: by strand, the thread that hangs in its place.
    pub(super) fn holds(self, hanging: &[ThreadId]) -> bool {
        is_as_wanted(self.strand, self.wants, |strand| hanging[usize::from(strand)])
    }
}

/// Whether what hangs in the place of a strand is what it must be. `hanging`: of which thread that is, for any strand.
pub(super) fn is_as_wanted(strand: u8, wants: Wants, hanging: impl Fn(u8) -> ThreadId) -> bool {
    let wanted = match wants {
        Wants::Color(wanted) => wanted,
        Wants::AlikeTo(other) => hanging(other),
    };
    keeps(wanted, hanging(strand))
}
