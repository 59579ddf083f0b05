//! The strands that are the first not to be what they must: an edit that leaves them so mends nothing, and most do.

use super::asked::is_as_wanted;
use super::passes::Passes;
use super::runs::SidedRun;
use crate::resolve::ThreadId;
use crate::tie::{Failing, PartStudy, Wants, keeps};

/// The first thing that is wrong in a part.
#[derive(Debug, Clone, Copy)]
pub(super) struct FirstBlamed {
    pub(super) time: u32,
    /// The strand that is not what it must be; `None` if it does not lie in the color of a strand.
    strand: Option<(u8, Wants)>,
}

impl FirstBlamed {
    /// `None` if nothing is wrong before `end`.
    pub(super) fn first(part: &PartStudy, end: u32) -> Option<Self> {
        let failing = part.failing.first().filter(|failing| failing.time < end);
        let wall = part.walls.first().copied().filter(|&wall| wall < end);
        let Some(&Failing { time, strand, other }) =
            failing.filter(|first| wall.is_none_or(|wall| first.time < wall))
        else {
            return wall.map(|time| Self { time, strand: None });
        };
        let is_it = |&(asked, wants): &(u32, Wants)| match (wants, other) {
            (Wants::Color(wanted), None) => {
                asked == time && !keeps(wanted, part.threads[usize::from(strand)])
            }
            (Wants::AlikeTo(one), Some(other)) => asked == time && one == other,
            _ => false,
        };
        let wants = part.wants[usize::from(strand)].iter().find(|wants| is_it(wants))?.1;
        Some(Self { time, strand: Some((strand, wants)) })
    }

    /// Whether it lies in the color of one of these strands.
    pub(super) fn is_among(&self, strands: &[u8]) -> bool {
        self.strand.is_some_and(|(strand, wants)| {
            let is_other = |other| matches!(wants, Wants::AlikeTo(alike) if alike == other);
            strands.iter().any(|&own| own == strand || is_other(own))
        })
    }

    /// Whether it is right if threads hang so in the places of strands.
    pub(super) fn is_mended(&self, hanging: impl Fn(u8) -> ThreadId) -> bool {
        self.strand.is_some_and(|(strand, wants)| is_as_wanted(strand, wants, hanging))
    }
}

/// Where the strands come from that are blamed, each time that a gap is passed before.
#[derive(Debug)]
pub(super) struct BlamedPlaces<'s> {
    blamed: FirstBlamed,
    threads: &'s [ThreadId],
    passes: Vec<BlamedPass>,
}

/// A pass of a gap.
#[derive(Debug)]
struct BlamedPass {
    /// The strands of its range, as a step counts them: from the right in a mirror.
    inside: Vec<u8>,
    /// By strand, its place in the range, counted from 1; 0 if it hangs elsewhere.
    places: Vec<u8>,
}

impl<'s> BlamedPlaces<'s> {
    /// `None` if nothing is wrong before `end`.
    pub(super) fn of(part: &'s PartStudy, end: u32, passes: &'s Passes) -> Option<Self> {
        let blamed = FirstBlamed::first(part, end)?;
        let before = passes.begun.partition_point(|pass| pass.time <= blamed.time);
        let passes = (0..before).map(|number| {
            let (inside, mut places) = (passes.inside(number), vec![0; part.threads.len()]);
            (1..).zip(&inside).for_each(|(place, &strand)| places[usize::from(strand)] = place);
            BlamedPass { inside, places }
        });
        Some(Self { blamed, threads: &part.threads, passes: passes.collect() })
    }

    /// Whether what was wrong is right with a run, where no color decides.
    pub(super) fn are_mended_by(&self, run: SidedRun) -> bool {
        let source = |strand| self.passes.iter().rev().fold(strand, |strand, pass| pass.source(run, strand));
        self.blamed.is_mended(|strand| self.threads[usize::from(source(strand))])
    }
}

impl BlamedPass {
    /// Which strand hangs in the place of one after a run was tied.
    #[inline]
    fn source(&self, (run, both): SidedRun, strand: u8) -> u8 {
        let mut place = usize::from(self.places[usize::from(strand)]);
        if place == 0 {
            return strand;
        }
        if both {
            let turned = |place: usize| self.inside.len() + 1 - place;
            place = turned(run.source(turned(place)));
        }
        self.inside[run.source(place) - 1]
    }
}
