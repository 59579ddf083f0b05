//! Where the strands hang that are the first not to be what they must: what is put in moves one of them, or mends nothing.

use super::passes::Passes;
use super::runs::SidedRun;
use crate::tie::{Failing, PartStudy};

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
