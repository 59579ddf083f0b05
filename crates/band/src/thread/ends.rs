//! What the ends take of the thread: plaits, cords, wraps, knots, loops, and what hangs free.

use super::Figures;
use crate::ends::{EndWork, has_tassel, without_closure};
use knotwright_numbers::ToNumber;
use std::f64::consts::PI;

/// In a cord of two bundles each goes around the other at about 35 degrees: 1 / cos(35°). Common practice, no source.
const TWISTED: f64 = 1.22;

/// Left over at an end that is cut and has no tassel: without it, nobody can tie the last piece. It is trimmed. In
/// millimeters; common practice, no source.
pub const TRIMMED: f64 = 30.0;

/// By how much a thread of its own is longer than its turns, to be tucked in, in millimeters. Common practice, no source.
const TUCKED: f64 = 100.0;

/// How a plait lies when it is pulled tight, for bundles of diameter 1.
///
/// Every bundle goes from edge to edge and back at a constant angle to the plait. In one period it crosses `N - 1` others
/// twice, `2 (N - 1)` diameters sideways, so `tan a = 2 (N - 1) / period`. In it, `N` bundles go through each point of
/// the edge, side by side: `period sin a / N` is the distance of two of them, one diameter if the plait is tight. From
/// both follows `cos a = N / (2 (N - 1))`. Own geometry: three bundles take 1.33 of the length of their plait, where
/// makers count 1.1 to 1.4 (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaitShape {
    /// How much thread goes into a plait of length 1.
    pub take_up: f64,
    /// How far it is until a bundle lies again where it lay.
    pub period: f64,
}

impl PlaitShape {
    /// Of this many bundles; at least three.
    pub fn of(bundles: u8) -> Self {
        let bundles = f64::from(bundles.max(3));
        let cosine = bundles / (2.0 * (bundles - 1.0));
        Self { take_up: 1.0 / cosine, period: bundles / (1.0 - cosine * cosine).sqrt() }
    }
}

/// Of what an end is made, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EndStrands {
    /// How many strands hang there.
    pub strands: usize,
    /// Whether two of them are one thread, folded at the tip.
    pub is_folded: bool,
}

/// What an end takes of the thread, in millimeters.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EndThread {
    /// Of every strand; where parts differ by a strand, as much as one of the larger part.
    pub of_each: f64,
    /// Threads of their own.
    pub own: Vec<OwnThread>,
    /// How far the end reaches beyond the band, without what hangs free.
    pub reach: f64,
}

/// A thread that goes around strands and is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnThread {
    /// Which thread.
    pub thread: u16,
    /// How many such pieces.
    pub count: u32,
    /// How long each is.
    pub length: f64,
}

impl Figures {
    /// What an end takes that is made of these works.
    pub fn end_thread(&self, works: &[EndWork], of: EndStrands) -> EndThread {
        let mut taken = EndThread::default();
        self.add_works(works, of, 1, &mut taken);
        if !of.is_folded && !has_tassel(without_closure(works)) {
            taken.of_each += TRIMMED;
        }
        taken
    }

    /// What one of these works takes alone.
    pub fn work_thread(&self, work: &EndWork, of: EndStrands) -> EndThread {
        let mut taken = EndThread::default();
        self.add_work(work, of, 1, &mut taken);
        taken
    }

    /// The diameter of a bundle of strands.
    pub fn bundle(&self, strands: usize) -> f64 {
        self.tight * (strands.to_f64() / super::BUNDLE_FILLED).sqrt()
    }

    fn add_works(&self, works: &[EndWork], of: EndStrands, times: u32, taken: &mut EndThread) {
        for work in works {
            self.add_work(work, of, times, taken);
        }
    }

    fn add_work(&self, work: &EndWork, of: EndStrands, times: u32, taken: &mut EndThread) {
        let mut take = |of_each: f64, reach: f64| {
            taken.of_each += of_each;
            taken.reach += reach;
        };
        match work {
            EndWork::Knot => take(self.overhand(of.strands), self.bundle(of.strands)),
            EndWork::Plait { bundles, length } => take(length * PlaitShape::of(*bundles).take_up, *length),
            EndWork::Twist { length } => take(length * TWISTED, *length),
            EndWork::Wrap { thread, turns } => {
                let covered = f64::from(*turns) * self.tight;
                take(covered, covered);
                taken.own.push(self.own_thread(*thread, *turns, of.strands, times));
            }
            EndWork::Split { parts, works } => {
                let strands = of.strands.div_ceil(usize::from(*parts).max(1));
                self.add_works(works, EndStrands { strands, ..of }, times * u32::from(*parts), taken);
            }
            // Two strands share a loop at a fold. Elsewhere each goes around it and, laid back, twice through its knot.
            EndWork::Loop { length } if of.is_folded => take(length / 2.0, length / 2.0),
            EndWork::Loop { length } => take(length + 2.0 * self.overhand(2 * of.strands), length / 2.0),
            EndWork::Tassel { length } => take(*length, 0.0),
            EndWork::Bead { length, .. } => take(*length, *length),
            EndWork::ClosingKnot => take(self.overhand(2 * of.strands), 0.0),
            EndWork::Slide { thread, turns } => {
                taken.own.push(self.own_thread(*thread, *turns, 2 * of.strands, times));
            }
        }
    }

    /// A helix around a bundle, as often as it turns: its middle runs half a thread outside of it.
    fn own_thread(&self, thread: u16, turns: u32, strands: usize, count: u32) -> OwnThread {
        let around = PI * (self.bundle(strands) + self.tight);
        OwnThread { thread, count, length: f64::from(turns) * around + TUCKED }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::thread::Model;

    fn figures() -> Figures {
        Model::new(0.9).figures(0.0)
    }

    fn of(strands: usize) -> EndStrands {
        EndStrands { strands, is_folded: false }
    }

    fn each(works: &[EndWork]) -> f64 {
        figures().end_thread(works, of(8)).of_each
    }

    /// The path of one bundle, drawn without the formula: from edge to edge and back, in steps of a thousandth of a
    /// period, and measured with a ruler. The edges are N - 1 diameters apart.
    #[test]
    fn a_plait_takes_what_its_path_measures() {
        for bundles in 3..=8_u8 {
            let shape = PlaitShape::of(bundles);
            let apart = f64::from(bundles) - 1.0;
            let at = |step: u32| {
                let part = f64::from(step) / 1000.0;
                (part * shape.period, apart * (1.0 - (2.0 * part - 1.0).abs()))
            };
            let step = |step: u32| {
                let ((x, y), (next_x, next_y)) = (at(step), at(step + 1));
                (next_x - x).hypot(next_y - y)
            };
            let measured = (0..1000).map(step).sum::<f64>() / shape.period;
            assert!((measured / shape.take_up - 1.0).abs() < 1e-6, "{bundles}: {measured}");
        }
    }

    /// Common practice, no source.
    #[test]
    fn three_bundles_take_what_makers_count() {
        let take_up = PlaitShape::of(3).take_up;
        assert!((1.1..=1.4).contains(&take_up), "{take_up}");
        assert!((3..8).all(|n| PlaitShape::of(n).take_up < PlaitShape::of(n + 1).take_up));
    }

    #[test]
    fn pieces_add_up_along_a_strand() {
        let (tassel, knot) = (EndWork::Tassel { length: 20.0 }, EndWork::Knot);
        let plait = EndWork::Plait { bundles: 3, length: 60.0 };
        let together = each(&[knot.clone(), plait, tassel.clone()]);
        assert!((together - (figures().overhand(8) + 80.0 + 20.0)).abs() < 1e-9);
        // What is cut and does not hang free is trimmed.
        assert!((each(&[knot]) - (figures().overhand(8) + TRIMMED)).abs() < 1e-9);
        assert!((each(&[tassel]) - 20.0).abs() < 1e-9);
    }

    #[test]
    fn a_loop_is_shared_where_the_threads_are_folded() {
        let round = [EndWork::Loop { length: 20.0 }];
        let folded = figures().end_thread(&round, EndStrands { strands: 8, is_folded: true });
        assert!((folded.of_each - 10.0).abs() < 1e-9 && folded.own.is_empty());
        assert!(figures().end_thread(&round, of(8)).of_each > 20.0);
    }

    #[test]
    fn parts_have_wraps_of_their_own() {
        let wrap = EndWork::Wrap { thread: 1, turns: 8 };
        let split = EndWork::Split { parts: 2, works: vec![wrap.clone()] };
        let (whole, parts) = (figures().end_thread(&[wrap], of(8)), figures().end_thread(&[split], of(8)));
        let (whole, part) = (whole.own[0], parts.own[0]);
        assert_eq!((whole.count, part.count, part.thread), (1, 2, 1));
        let around = PI * (figures().bundle(4) + figures().tight);
        assert!((part.length - (8.0 * around + TUCKED)).abs() < 1e-9 && part.length < whole.length);
    }
}
