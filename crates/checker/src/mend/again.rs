//! Edits after which a color decides otherwise: from there on all is tied again, act by act. Edits in different places often
//! come to the same, so it is remembered from which colors something was wrong.

use super::renaming::Renamed;
use crate::tie::{Moment, PartStudy, Replay, Stuck};
use knotwright_band::Kind;
use knotwright_numbers::ToNumber;
use rustc_hash::{FxBuildHasher, FxHashMap as HashMap};
use std::hash::BuildHasher;

/// How many acts and strands are looked at for all edits together. In a wide band without promises each of them goes a long way.
pub(super) const MOST_LOOKS: u64 = 1_000_000;

/// After how many steps it is asked whether what comes is known.
const STRETCH: usize = 8;

/// What it cost to tie again, and what came of it.
#[derive(Debug)]
pub(super) struct Again {
    /// What may be looked at yet.
    pub(super) looks: u64,
    /// By a hash of when a step begins and of how the colors hang then: when something is wrong.
    in_vain: HashMap<u64, u32>,
    /// The same hashes of what is being tied, of which that is not known yet.
    on_the_way: Vec<u64>,
}

/// What is tied again: a part, from one moment to another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Course<'s> {
    pub(super) part: &'s PartStudy,
    pub(super) begun: Moment<'s>,
    pub(super) until: Moment<'s>,
}

impl Default for Again {
    fn default() -> Self {
        Self { looks: MOST_LOOKS, in_vain: HashMap::default(), on_the_way: Vec::new() }
    }
}

impl Again {
    /// Another part begins, with times of its own.
    pub(super) fn begin(&mut self) {
        self.in_vain.clear();
    }

    /// Ties it among strands in the places of others; then they are those that hang there at its end. How many knots more it
    /// takes than without the edit. What is tied comes to those that were `tied`, if anybody wants to know.
    pub(super) fn tie(
        &mut self,
        renamed: &mut Renamed,
        course: Course,
        tied: &mut Option<Vec<(u8, Kind)>>,
    ) -> Result<i64, Stuck> {
        if self.looks == 0 {
            return Err(Stuck::Unknown);
        }
        let Course { part, begun, until } = course;
        let mut colors = renamed.colors(begun.order, &part.threads);
        let mut replay = Replay { tied: tied.take(), ..Replay::of(part, self.looks) };
        self.on_the_way.clear();
        let (mut time, mut knots) = (begun.time, 0);
        let came = loop {
            let hanging = FxBuildHasher.hash_one((time, &colors));
            if let Some(&failed) = self.in_vain.get(&hanging).filter(|&&failed| failed < until.time) {
                break Err(Stuck::Wrong { time: Some(failed) });
            }
            self.on_the_way.push(hanging);
            let next = part.begun_after(time, STRETCH).unwrap_or(u32::MAX).min(until.time);
            match replay.tie(&mut colors, time..next) {
                Ok(more) => knots += more,
                Err(stuck) => break Err(stuck),
            }
            if next == until.time {
                break Ok(());
            }
            time = next;
        };
        (self.looks, *tied) = (replay.left, replay.tied);
        if let Err(Stuck::Wrong { time: Some(failed) }) = came {
            self.in_vain.extend(self.on_the_way.drain(..).map(|hanging| (hanging, failed)));
        }
        came?;
        renamed.put(&colors, until.order, &part.threads);
        Ok(knots.to_i64() - (until.knots.to_i64() - begun.knots.to_i64()))
    }
}
