//! What of a strand is not in the band: its free ends, the knots that hold them, its part of a loop, and what else is made
//! of it before the first knot and after the last.

use crate::{Pattern, StartForm};
use knotwright_band::ends::EndWork;
use knotwright_band::thread::{EndStrands, EndThread, Figures, OwnThread};

/// Left free at each end if nobody says how much, in millimeters. Common practice, no source.
pub const USUAL_ENDS: f64 = 100.0;

/// How long a band is that nobody has given a length, in millimeters. Common practice, no source.
pub const USUAL_LENGTH: f64 = 150.0;

/// What every strand gives beside the band. Lengths in millimeters.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// Left free at each end that is cut and that the pattern does not describe.
    pub ends: f64,
    /// How many such ends there are.
    pub free: u32,
    /// Knots of all strands that hold them.
    pub knots: u32,
    /// What each of these takes of every strand.
    pub knot: f64,
    /// What the beginning takes, if the pattern describes it.
    pub begin: Option<EndThread>,
    /// What the end takes, if the pattern describes it.
    pub finish: Option<EndThread>,
    /// What one strand gives before the first knot.
    pub above: f64,
    /// What it gives after the last.
    pub below: f64,
    /// All that one strand gives.
    pub of_each: f64,
}

impl Held {
    /// With `ends` left free at each end that is cut. `fold`: each thread is folded in two, whatever the pattern says.
    pub fn of(pattern: &Pattern, figures: Figures, ends: f64, fold: bool) -> Self {
        let strands = pattern.strands.len();
        let knot = figures.overhand(strands);
        let is_folded = fold || pattern.start != StartForm::Loose;
        let made = |works: &Option<Vec<EndWork>>, is_folded| {
            works.as_ref().map(|works| figures.end_thread(works, EndStrands { strands, is_folded }))
        };
        let (begin, finish) = (made(&pattern.made.begin, is_folded), made(&pattern.made.finish, false));
        let above = match &pattern.start {
            _ if begin.is_some() => (0, 0, 0.0),
            StartForm::Loose if !fold => (1, 1, 0.0),
            StartForm::Loose | StartForm::Folded(_) => (0, 0, 0.0),
            // The threads are tied together below the loop; two strands share it.
            StartForm::Loop(length, _) => (0, 1, length / 2.0),
        };
        let below = u32::from(finish.is_none());
        let (free, knots) = (above.0 + below, above.1 + below);
        // A knot that ties both ends together takes as much of the strands at the other end.
        let is_tied_shut = pattern.made.finish.iter().flatten().any(|work| *work == EndWork::ClosingKnot);
        let shut = if is_tied_shut && !is_folded { figures.overhand(2 * strands) } else { 0.0 };
        let described = |end: &Option<EndThread>| end.as_ref().map_or(0.0, |end| end.of_each);
        let at_end = |free: u32, knots: u32| f64::from(free) * ends + f64::from(knots) * knot;
        let above = at_end(above.0, above.1) + above.2 + described(&begin) + shut;
        let below = at_end(below, below) + described(&finish);
        Self { ends, free, knots, knot, begin, finish, above, below, of_each: above + below }
    }

    /// The threads that go around the ends.
    pub fn own(&self) -> impl Iterator<Item = &OwnThread> {
        [&self.begin, &self.finish].into_iter().flatten().flat_map(|end| &end.own)
    }
}
