//! From a wrist to the length of the knots. All of it is common practice, no source.

use knotwright_checker::Held;
use knotwright_checker::{Pattern, StartForm};

/// How a band goes around a wrist. Lengths in millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// The wrist, as a tape measures it.
    pub wrist: f64,
    /// Room between band and wrist, added all around: two fingers fit under the band.
    pub room: f64,
    /// What the closure bridges: the loop, and where the ends are tied.
    pub closure: f64,
}

/// Added all around for two fingers to fit under the band. Common practice, no source.
const ROOM: f64 = 15.0;
/// Bridged by the ends of one side, where they are tied. Common practice, no source.
const TIED_END: f64 = 12.5;

impl Around {
    /// Around a wrist, closed by what the strands are hung from and the ends.
    ///
    /// What is plaited, twisted or wrapped before the first knot lies around the wrist, and so does what comes after the
    /// last, up to where the ends are tied.
    pub fn of(wrist: f64, pattern: &Pattern, held: &Held) -> Self {
        let start = match (&pattern.start, &held.begin) {
            (_, Some(begin)) => begin.reach,
            (StartForm::Loose | StartForm::Folded(_), None) => TIED_END,
            // A loop lies flat: half its thread is as long as it reaches.
            (StartForm::Loop(length, _), None) => length / 2.0,
        };
        let finish = held.finish.as_ref().map_or(TIED_END, |finish| finish.reach.max(TIED_END));
        Self { wrist, room: ROOM, closure: start + finish }
    }

    /// How long the knotted part is then.
    pub fn knotted(self) -> f64 {
        (self.wrist + self.room - self.closure).max(0.0)
    }
}
