//! What of a strand is not in the band: its free ends, the knots that hold them, its part of a loop.

use knotwright_band::thread::Figures;
use knotwright_checker::{Pattern, StartForm};

/// What every strand gives beside the band. Lengths in millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// Left free at each end.
    pub ends: f64,
    /// Knots of all strands that hold them.
    pub knots: u32,
    /// What each of these takes of every strand.
    pub knot: f64,
    /// All that one strand gives.
    pub of_each: f64,
}

impl Held {
    /// With `ends` left free at each end that is cut. `fold`: each thread is folded in two, whatever the pattern says.
    pub fn of(pattern: &Pattern, figures: Figures, ends: f64, fold: bool) -> Self {
        let knot = figures.overhand(pattern.strands.len());
        let (free, knots, of_loop) = match &pattern.start {
            StartForm::Loose if !fold => (2, 2, 0.0),
            StartForm::Loose | StartForm::Folded(_) => (1, 1, 0.0),
            // The threads are tied together below the loop; two strands share it.
            StartForm::Loop(length, _) => (1, 2, length / 2.0),
        };
        let of_each = f64::from(free) * ends + f64::from(knots) * knot + of_loop;
        Self { ends, knots, knot, of_each }
    }
}
