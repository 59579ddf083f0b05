//! When each part of a band begins: for whoever films it, or leads a class.

use super::timed::{BandTime, work_until};
use crate::measured::Measured;
use knotwright_band::pace::FittedPace;

/// A moment, and how long after the beginning it comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cue {
    /// In seconds, by the figures.
    pub at: f64,
    /// Knots tied before it.
    pub knots: u64,
    /// What begins.
    pub moment: CueMoment,
}

/// What begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CueMoment {
    /// The threads are cut, sorted and fastened.
    SetUp,
    /// The opening.
    Opening,
    /// A set, counted from 1.
    Set(u64),
    /// The closing.
    Closing,
    /// All is tied; the ends are closed.
    Tied,
}

/// More sets are not listed one by one.
const MOST_SETS: u64 = 60;

/// All moments of a band, in their order. Of many sets only every second, third, ... is there.
pub(super) fn list_cues(measured: &Measured, pace: &FittedPace) -> Vec<Cue> {
    let time = BandTime::of(measured, pace);
    // Half of what is done beside the knots comes before them: it is not known better.
    let set_up = time.set_up.likely / 2.0;
    let after = |work: knotwright_band::pace::TyingWork, moment| Cue {
        at: set_up + pace.pace.seconds(work),
        knots: work.knots,
        moment,
    };
    let sets = if measured.pattern.set.is_some() { measured.sets } else { 0 };
    let mut cues = vec![Cue { at: 0.0, knots: 0, moment: CueMoment::SetUp }];
    if measured.pattern.opening.is_some() {
        cues.push(after(Default::default(), CueMoment::Opening));
    }
    let every = usize::try_from(sets.div_ceil(MOST_SETS).max(1)).unwrap_or(usize::MAX);
    let begun = (0..sets).step_by(every);
    cues.extend(begun.map(|set| after(work_until(measured, set), CueMoment::Set(set + 1))));
    if measured.pattern.closing.is_some() {
        cues.push(after(work_until(measured, sets), CueMoment::Closing));
    }
    cues.push(after(time.work, CueMoment::Tied));
    cues
}
