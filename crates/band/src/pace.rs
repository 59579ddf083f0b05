//! How long tying takes.
//!
//! A maker's time is a sum: so long for each knot, longer for each turning knot, and some for taking each strand in hand. The
//! usual figures are common practice, no source. Times that were measured replace them: the three figures are found as in
//! [`ridge`](crate::ridge), drawn to the usual ones as much as a stopwatch is better than them.

use crate::ridge::Ridge;
use crate::{Piece, Sets, pick_ups};
use knotwright_numbers::ToNumber;

/// What is done in some tying.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TyingWork {
    /// Knots of any kind.
    pub knots: u64,
    /// How many of them are forward-backward or backward-forward knots.
    pub turning: u64,
    /// How many times a strand is taken in hand.
    pub pick_ups: u64,
}

impl TyingWork {
    /// What is done to tie a piece in its order.
    pub fn of(piece: &Piece) -> Self {
        let turning = piece.knots().iter().filter(|knot| !knot.kind.swaps()).count();
        Self {
            knots: piece.knots().len().to_u64(),
            turning: turning.to_u64(),
            pick_ups: pick_ups(piece).to_u64(),
        }
    }

    /// What is done in the first `times` sets. Takes time in proportion to the sets that differ, however many are tied.
    pub fn of_sets(sets: &Sets, times: u64) -> Self {
        let run_in = sets.run_in().iter().take(usize::try_from(times).unwrap_or(usize::MAX));
        let (whole, rest) = sets.periods(times);
        let all = |pieces: &[Piece]| pieces.iter().map(Self::of).fold(Self::default(), Self::and);
        run_in
            .map(Self::of)
            .fold(Self::default(), Self::and)
            .and(all(sets.period()).times(whole))
            .and(all(&sets.period()[..rest]))
    }

    /// Both.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            knots: self.knots + other.knots,
            turning: self.turning + other.turning,
            pick_ups: self.pick_ups + other.pick_ups,
        }
    }

    /// This so often.
    fn times(self, times: u64) -> Self {
        Self { knots: self.knots * times, turning: self.turning * times, pick_ups: self.pick_ups * times }
    }
}

/// Some tying that was timed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimedWork {
    /// What was done.
    pub work: TyingWork,
    /// How long it took.
    pub seconds: f64,
}

/// How fast somebody ties, in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// For each knot.
    pub knot: f64,
    /// More for each turning knot.
    pub turning: f64,
    /// For each strand that is taken in hand.
    pub pick_up: f64,
}

/// How long some tying takes, in seconds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TimeSpan {
    /// Hardly less.
    pub low: f64,
    /// By the figures.
    pub likely: f64,
    /// Hardly more.
    pub high: f64,
}

/// Figures for a maker's time, and how far they can be trusted.
#[derive(Debug, Clone, Copy)]
pub struct FittedPace {
    /// The figures.
    pub pace: Pace,
    /// What was measured, in the figures of [`Pace::USUAL`]; none if nothing was.
    measured: Option<(Ridge, f64)>,
}

/// A maker is this many times as fast or as slow as usual. Common practice, no source.
const USUAL_SPREAD: f64 = 1.5;

/// How far off a measured time is, as a part of it: what is taken where few times say so. Common practice, no source.
const TIMED_OFF: f64 = 0.15;

/// How far off the usual figures are, as a part of them. Common practice, no source.
const USUAL_OFF: f64 = 1.0;

/// As many measured times as [`TIMED_OFF`] counts for.
const TIMED_OFF_COUNTS: f64 = 2.0;

impl Pace {
    /// Of somebody who has tied some bands. Common practice, no source.
    pub const USUAL: Self = Self { knot: 6.0, turning: 2.0, pick_up: 4.0 };
}

impl FittedPace {
    /// What is usual.
    pub fn usual() -> Self {
        Self { pace: Pace::USUAL, measured: None }
    }

    /// Somebody who needs this many seconds for a knot, and for all else as much longer or shorter than is usual.
    pub fn of_knot(seconds: f64) -> Self {
        let times = seconds / Pace::USUAL.knot;
        let usual = Pace::USUAL;
        let pace = Pace { knot: seconds, turning: usual.turning * times, pick_up: usual.pick_up * times };
        Self { pace, measured: None }
    }

    /// The figures that fit measured times. Times that are not above zero are left out; with none, it is what is usual.
    pub fn of_times(timed: &[TimedWork]) -> Self {
        let good = || timed.iter().filter(|of| of.seconds > 0.0 && of.seconds.is_finite());
        let parts = |of: &TimedWork| Pace::USUAL.parts(of.work, of.seconds);
        let mut ridge = Ridge::new((TIMED_OFF / USUAL_OFF).powi(2));
        good().for_each(|of| ridge.add(parts(of)));
        if good().next().is_none() {
            return Self::usual();
        }
        let times = ridge.solve().map(|times| times.max(0.0));
        let off = |of: &TimedWork| {
            let explained: f64 = parts(of).iter().zip(times).map(|(part, times)| part * times).sum();
            (1.0 - explained).powi(2)
        };
        let squares = good().map(off).sum::<f64>() + TIMED_OFF_COUNTS * TIMED_OFF.powi(2);
        let variance = squares / (good().count().to_f64() + TIMED_OFF_COUNTS);
        let [knot, turning, pick_up] = times;
        let usual = Pace::USUAL;
        let pace = Pace {
            knot: usual.knot * knot,
            turning: usual.turning * turning,
            pick_up: usual.pick_up * pick_up,
        };
        Self { pace, measured: Some((ridge, variance)) }
    }

    /// Whether it rests on measured times.
    pub fn is_measured(&self) -> bool {
        self.measured.is_some()
    }

    /// How long some tying takes: with measured times, 19 of 20 times it takes no less than the least and no more than the
    /// most (twice the standard deviation of one more measured time); without, the figures may be off by half as much again.
    pub fn time(&self, work: TyingWork) -> TimeSpan {
        let likely = self.pace.seconds(work);
        if likely <= 0.0 {
            return TimeSpan::default();
        }
        let Some((ridge, variance)) = self.measured else { return TimeSpan::usual(likely) };
        let parts = Pace::USUAL.parts(work, likely);
        let off = 2.0 * (variance * (1.0 + ridge.spread(parts))).sqrt();
        TimeSpan { low: likely * (1.0 - off).max(0.0), likely, high: likely * (1.0 + off) }
    }
}

impl Pace {
    /// How long some tying takes.
    pub fn seconds(&self, work: TyingWork) -> f64 {
        self.parts(work, 1.0).iter().sum()
    }

    /// Which parts of `seconds` are for knots, for turning knots and for taking strands in hand.
    fn parts(&self, work: TyingWork, seconds: f64) -> [f64; 3] {
        [
            work.knots.to_f64() * self.knot / seconds,
            work.turning.to_f64() * self.turning / seconds,
            work.pick_ups.to_f64() * self.pick_up / seconds,
        ]
    }
}

impl TimeSpan {
    /// A time of which nothing more is known than what is usual.
    pub fn usual(likely: f64) -> Self {
        Self { low: likely / USUAL_SPREAD, likely, high: likely * USUAL_SPREAD }
    }

    /// One after the other.
    #[must_use]
    pub fn and(self, next: Self) -> Self {
        Self { low: self.low + next.low, likely: self.likely + next.likely, high: self.high + next.high }
    }
}
