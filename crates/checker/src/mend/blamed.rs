//! The strands that are the first not to be what they must: an edit that leaves them so mends nothing, and most do.

use super::passes::Passes;
use super::runs::SidedRun;
use crate::resolve::ThreadId;
use crate::tie::{Failing, PartStudy, Wants, keeps};

/// The first thing that is wrong in a part.
#[derive(Debug, Clone, Copy)]
pub(super) struct Blamed {
    pub(super) time: u32,
    /// The strand that is not what it must be; `None` if it does not lie in the color of a strand.
    strand: Option<(u8, Wants)>,
}

impl Blamed {
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
        self.strand.is_some_and(|(strand, wants)| {
            let wanted = match wants {
                Wants::Color(wanted) => wanted,
                Wants::AlikeTo(other) => hanging(other),
            };
            keeps(wanted, hanging(strand))
        })
    }
}

/// A place of a range, counted from 1 from either side.
#[derive(Debug, Clone, Copy)]
struct Place {
    own: u8,
    in_mirror: u8,
}

/// Where they hang each time that a gap is passed before.
#[derive(Debug)]
pub(super) struct BlamedPlaces(Vec<Place>);

impl BlamedPlaces {
    /// `None` if nothing is wrong before `end`.
    pub(super) fn of(part: &PartStudy, end: u32, passes: &Passes) -> Option<Self> {
        let Failing { time, strand, other } = *part.failing.first().filter(|first| first.time < end)?;
        let mut places = Vec::new();
        let before = passes.begun.iter().zip(&passes.hung).filter(|(pass, _)| pass.time <= time);
        for (pass, order) in before {
            let (low, high) = pass.within;
            let is_blamed = |&at: &u8| {
                let hanging = order[usize::from(at)];
                hanging == strand || Some(hanging) == other
            };
            places.extend((low..=high).filter(is_blamed).map(|at| {
                let [left, right] = [at - low + 1, high - at + 1];
                let [own, in_mirror] = if pass.mirrored { [right, left] } else { [left, right] };
                Place { own, in_mirror }
            }));
        }
        Some(Self(places))
    }

    /// Whether a run moves one of them.
    pub(super) fn are_moved_by(&self, (run, both): SidedRun) -> bool {
        let moves = |place: u8| run.low <= place && place <= run.high;
        self.0.iter().any(|place| moves(place.own) || (both && moves(place.in_mirror)))
    }
}
