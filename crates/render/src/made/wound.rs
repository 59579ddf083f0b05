//! What goes around strands: wraps, knots, and what closes the band.

use super::EndLaying;
use crate::path::{Path, Point};
use crate::scene::EndCord;
use knotwright_band::ends::EndWork;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// More turns are not drawn.
const MOST_TURNS: u32 = 40;
/// More strands are not seen in a knot.
const MOST_IN_KNOT: usize = 9;
/// From one turn of a wrap to the next, in thicknesses.
const TURN: f64 = 0.88;
/// From one strand of a knot to the next, in thicknesses.
const IN_KNOT: f64 = 0.6;

/// Turns around something.
struct Turns {
    middle: Point,
    /// Half as wide as they are.
    half: f64,
    /// From one turn to the next.
    apart: f64,
    /// How far a turn falls from left to right.
    fall: f64,
}

impl EndLaying<'_> {
    /// A thread of its own, turn beside turn.
    pub(super) fn wrap(&mut self, of: Range<usize>, thread: u16, turns: u32) {
        let (axis, _) = self.middle(&of);
        self.gather(of.clone(), axis);
        let (_, top) = self.middle(&of);
        let threads = wound(thread, turns);
        let height = self.thickness * TURN * threads.len().to_f64();
        self.go_down(of.clone(), height);
        let half = self.width(of.len()) / 2.0 + self.thickness * 0.1;
        self.coil(Point::new(axis, top + height / 2.0), half, &threads);
    }

    /// An overhand knot of all strands: they go through themselves, and around.
    pub(super) fn knot(&mut self, of: Range<usize>) {
        let (axis, _) = self.middle(&of);
        self.gather(of.clone(), axis);
        let (_, top) = self.middle(&of);
        let threads = self.seen(&of);
        let height = self.knot_height(threads.len());
        self.go_down(of.clone(), height);
        let half = self.width(of.len()) / 2.0 + self.thickness * 0.5;
        self.cross(Point::new(axis, top + height / 2.0), half, &threads);
    }

    /// The threads of a bundle from left to right, as many as can be seen.
    pub(super) fn seen(&self, of: &Range<usize>) -> Vec<u16> {
        let lanes = &self.lanes[of.clone()];
        let shown = lanes.len().min(MOST_IN_KNOT);
        (0..shown).map(|number| lanes[number * lanes.len() / shown].thread).collect()
    }

    /// All strands come together, the other end of the band comes from below beside them, and both are held.
    pub(super) fn close(&mut self, work: &EndWork) {
        let all = 0..self.lanes.len();
        let (axis, _) = self.middle(&all);
        self.gather(all.clone(), axis);
        let (_, top) = self.middle(&all);
        let (threads, width) = (self.seen(&all), self.width(all.len()));
        let held = match *work {
            EndWork::Slide { thread, turns } => wound(thread, turns),
            _ => threads.clone(),
        };
        let is_coil = matches!(work, EndWork::Slide { .. });
        let height =
            if is_coil { self.thickness * TURN * held.len().to_f64() } else { self.knot_height(held.len()) };
        self.go_down(all, height);
        let beside = axis + width * 0.95;
        let (from, to) = (top + height + self.thickness * 9.0, top - self.thickness * 2.2);
        for (offset, thread) in self.offsets(threads.len()).into_iter().zip(&threads) {
            let rise = Point::new(0.0, (to - from) * 0.35);
            let mut path = Path::at(Point::new(beside + width * 0.5 + offset * 1.3, from));
            path.curve(rise, rise, Point::new(beside + offset, to));
            self.shapes.push(EndCord { thread: *thread, path, is_turn: false });
        }
        let middle = Point::new((axis + beside) / 2.0, top + height / 2.0);
        let half = (beside - axis + width) / 2.0 + self.thickness * 0.2;
        if is_coil { self.coil(middle, half, &held) } else { self.cross(middle, half, &held) }
    }

    pub(super) fn go_down(&mut self, of: Range<usize>, height: f64) {
        let (_, top) = self.middle(&of);
        self.lanes[of.clone()].iter_mut().for_each(|lane| lane.straight_to(top + height));
        self.flush(of);
    }

    fn coil(&mut self, middle: Point, half: f64, threads: &[u16]) {
        let apart = self.thickness * TURN;
        self.turns(&Turns { middle, half, apart, fall: apart }, threads);
    }

    /// The front of a knot: what goes around lies over what comes back.
    fn cross(&mut self, middle: Point, half: f64, threads: &[u16]) {
        let apart = self.thickness * IN_KNOT;
        let fall = self.knot_fall(threads.len());
        self.turns(&Turns { middle, half: half * 0.96, apart, fall: -fall }, threads);
        self.turns(&Turns { middle, half, apart, fall }, threads);
    }

    fn knot_fall(&self, strands: usize) -> f64 {
        self.thickness * (0.5 + IN_KNOT * 0.5 * strands.to_f64())
    }

    fn knot_height(&self, strands: usize) -> f64 {
        self.thickness * (0.9 + IN_KNOT * strands.to_f64()) + self.knot_fall(strands)
    }

    /// Draws the front of turns, one below the other.
    fn turns(&mut self, turns: &Turns, threads: &[u16]) {
        let middle = (threads.len().to_f64() - 1.0) / 2.0;
        let (rise, sag) = (turns.fall / 2.0, self.thickness * 0.34);
        for (number, thread) in threads.iter().enumerate() {
            // The outermost turns are narrower: a knot is round.
            let off = if middle > 0.0 { (number.to_f64() - middle) / (middle + 1.0) } else { 0.0 };
            let half = turns.half * (1.0 - 0.12 * off * off);
            let y = turns.middle.y + (number.to_f64() - middle) * turns.apart;
            let mut path = Path::at(Point::new(turns.middle.x - half, y - rise));
            let (leave, arrive) = (turns.fall * 0.12 + sag, turns.fall * 0.12 - sag);
            let to = Point::new(turns.middle.x + half, y + rise);
            path.curve(Point::new(half * 0.5, leave), Point::new(half * 0.5, arrive), to);
            self.shapes.push(EndCord { thread: *thread, path, is_turn: true });
        }
    }
}

/// One thread, as often as it goes around.
fn wound(thread: u16, turns: u32) -> Vec<u16> {
    vec![thread; turns.clamp(1, MOST_TURNS).to_usize()]
}
