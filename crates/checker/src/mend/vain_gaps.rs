//! Gaps in which whatever is put in goes wrong soon. Where a band goes on as it did before such a gap, it goes wrong as soon.

use super::ahead::Ahead;
use super::passes::tie;
use super::runs::SidedRun;
use crate::resolve::ThreadId;
use crate::tie::{Echo, PartStudy, Passing};
use rustc_hash::FxHashMap as HashMap;

/// How many more gaps may be looked at than there are of which it is known then.
const MOST_LOOKS: usize = 32;

/// The gaps of a part of which it is known.
#[derive(Debug, Default)]
pub(super) struct VainGaps {
    /// By the byte where the statement below starts, within how many steps everything is wrong.
    within: HashMap<u32, u32>,
    /// How many were looked at, less those of which it was known then.
    looks: usize,
}

impl VainGaps {
    /// Whether everything put in before the statement that starts there goes wrong as soon as it did before.
    pub(super) fn recall(&mut self, start: u32, echo: Echo) -> bool {
        let Some(&within) = self.within.get(&echo.start).filter(|&&within| within <= echo.steps) else {
            return false;
        };
        self.within.insert(start, within);
        self.looks = self.looks.saturating_sub(1);
        true
    }

    /// Looks when each of these runs is wrong, put in before the statement that starts there and is passed once. Nothing is known
    /// of what comes at `until` or later.
    pub(super) fn look(&mut self, start: u32, gap: &LoneGap, runs: &[SidedRun], until: u32) {
        if self.looks < MOST_LOOKS {
            self.looks += 1;
            let steps = gap.wrong_by(runs, until).and_then(|time| gap.part.echoes.steps_until(start, time));
            self.within.extend(steps.map(|steps| (start, steps)));
        }
    }
}

/// A gap that is passed once.
pub(super) struct LoneGap<'s> {
    pub(super) part: &'s PartStudy,
    pub(super) ahead: &'s Ahead<'s>,
    pub(super) pass: &'s Passing,
    /// How the strands hang in it.
    pub(super) order: &'s [u8],
}

impl LoneGap<'_> {
    /// When something is wrong at last, whichever run is put in; those after which the same colors hang mend nothing. `None` if
    /// there is one of which that is not known.
    fn wrong_by(&self, runs: &[SidedRun], until: u32) -> Option<u32> {
        let threads: Vec<ThreadId> =
            self.order.iter().map(|&strand| self.part.threads[usize::from(strand)]).collect();
        let (mut last, mut tied) = (self.pass.time, threads.clone());
        for &run in runs {
            tied.copy_from_slice(&threads);
            tie(run, self.pass, &mut tied);
            let changed =
                self.order.iter().zip(tied.iter().zip(&threads)).filter(|(_, (now, before))| now != before);
            let wrong = changed.map(|(&strand, (&now, _))| self.ahead.of(strand, now, self.pass.time).wrong);
            let Some(first) = wrong.min() else { continue };
            if first >= until {
                return None;
            }
            last = last.max(first);
        }
        Some(last)
    }
}
