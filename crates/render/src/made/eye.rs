//! Loops: of the threads at their fold, or of strands that are laid back.

use super::EndLaying;
use crate::path::{Path, Point};
use crate::scene::EndCord;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// The inside of a loop: half as wide as it is, and how far it reaches down.
struct Inside {
    half: f64,
    depth: f64,
}

impl Inside {
    /// Of a loop that measures this once around. A drop that is 3 wide and 5 high measures about 13 around.
    fn of(round: f64, thickness: f64) -> Self {
        Self {
            half: (round * 1.5 / 13.0).max(thickness * 0.35),
            depth: (round * 5.0 / 13.0).max(thickness * 1.5),
        }
    }
}

impl EndLaying<'_> {
    /// The threads go around at their fold.
    pub(super) fn fold(&mut self, of: Range<usize>, round: f64) {
        let here: Vec<u8> = self.lanes[of.clone()].iter().map(|lane| lane.strand).collect();
        let place = |strand: u8| here.iter().position(|here| *here == strand);
        let mut pairs: Vec<(usize, usize)> = self
            .pairs
            .iter()
            .filter_map(|(one, other)| Some((place(*one)?, place(*other)?)))
            .map(|(one, other)| (one.min(other), one.max(other)))
            .collect();
        pairs.sort_unstable();
        let (axis, _) = self.middle(&of);
        let offsets = self.offsets(pairs.len() * 2);
        let mut places: Vec<f64> = self.lanes[of.clone()].iter().map(|lane| lane.at().x).collect();
        for (lane, (one, other)) in pairs.iter().enumerate() {
            (places[*one], places[*other]) = (axis + offsets[lane], axis + offsets[offsets.len() - 1 - lane]);
        }
        self.lead(of.clone(), &places);
        let (_, foot) = self.middle(&of);
        let inside = Inside::of(round, self.thickness);
        let apart = self.lane(pairs.len() * 2);
        let inner_first: Vec<(usize, (usize, usize))> = pairs.iter().copied().enumerate().rev().collect();
        for (lane, (one, other)) in inner_first {
            let outward = (pairs.len() - 1 - lane).to_f64() * apart + self.thickness / 2.0;
            let (from, to) = (self.lanes[of.start + one].at(), self.lanes[of.start + other].at());
            let turn = around(Point::new(axis, foot), &inside, outward, [from.x, to.x]);
            self.lanes[of.start + one].path.stretches.extend(turn.stretches);
        }
        // The inner threads lie over the outer ones, on both sides.
        for (one, other) in pairs {
            self.flush(of.start + other..of.start + other + 1);
            self.flush(of.start + one..of.start + one + 1);
        }
        self.flush(of);
    }

    /// The strands go around and back, and a knot of all of them is at the foot.
    pub(super) fn lay_back(&mut self, of: Range<usize>, round: f64) {
        self.knot(of.clone());
        let (axis, foot) = self.middle(&of);
        let inside = Inside::of(round, self.thickness);
        let threads = self.seen(&of);
        let apart = self.lane(threads.len() * 2);
        for (lane, thread) in threads.iter().enumerate() {
            let outward = (threads.len() - 1 - lane).to_f64() * apart + self.thickness / 2.0;
            let beside = (outward * 0.6).min(self.width(of.len()) / 2.0);
            let turn = around(Point::new(axis, foot), &inside, outward, [axis - beside, axis + beside]);
            self.shapes.push(EndCord { thread: *thread, path: turn, is_turn: false });
        }
        for lane in &mut self.lanes[of] {
            lane.path = Path::at(Point::new(lane.at().x, foot));
        }
    }
}

/// From the left of the foot around and up to the right, so far outside of what is inside.
fn around(foot: Point, inside: &Inside, outward: f64, feet: [f64; 2]) -> Path {
    let [left, right] = feet;
    let half = inside.half + outward;
    let widest = foot.y + inside.depth * 0.62;
    let tip = inside.depth * 0.38 + outward;
    let side = widest - foot.y;
    let down = |length: f64| Point::new(0.0, length);
    let mut path = Path::at(Point::new(left, foot.y));
    path.curve(down(side * 0.45), down(side * 0.5), Point::new(foot.x - half, widest));
    path.quarter(down(tip), Point::new(half, 0.0));
    path.quarter(Point::new(half, 0.0), down(-tip));
    path.curve(down(-side * 0.5), down(-side * 0.45), Point::new(right, foot.y));
    path
}
