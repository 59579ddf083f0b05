//! Strands side by side in a bundle.

use super::EndLaying;
use crate::dye::DyedStrand;
use crate::path::{Path, Point};
use crate::scene::EndCord;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// From one strand of a bundle to the next, in thicknesses: they lie over one another a little.
const LANE: f64 = 0.64;
/// The widest bundle, from the middle of its first strand to that of its last, in thicknesses.
const WIDEST: f64 = 3.6;

/// One strand on its way through an end.
pub(super) struct Lane<'a> {
    pub(super) strand: u8,
    /// The number of its color here.
    pub(super) thread: u16,
    dyed: DyedStrand<'a>,
    /// How much of it is used up where the work in hand begins.
    pub(super) used: f64,
    /// What is laid and not drawn yet.
    pub(super) path: Path,
}

impl<'a> Lane<'a> {
    pub(super) fn new(strand: u8, dyed: DyedStrand<'a>, used: f64, at: Point) -> Self {
        Self { strand, thread: dyed.color(used), dyed, used, path: Path::at(at) }
    }

    /// Its color that much farther along it.
    pub(super) fn color_ahead(&self, ahead: f64) -> u16 {
        self.dyed.color(self.used + ahead)
    }

    /// Goes on in the color that it has that much farther along; what is laid in another one so far.
    pub(super) fn dye(&mut self, ahead: f64) -> Option<EndCord> {
        let color = self.color_ahead(ahead);
        let laid = if color == self.thread { None } else { self.take() };
        self.thread = color;
        laid
    }

    pub(super) fn at(&self) -> Point {
        self.path.end()
    }

    pub(super) fn straight_to(&mut self, y: f64) {
        let x = self.at().x;
        self.path.line(Point::new(x, y));
    }

    /// What is laid so far; it goes on from its end.
    pub(super) fn take(&mut self) -> Option<EndCord> {
        let next = Path::at(self.at());
        let path = std::mem::replace(&mut self.path, next);
        (!path.stretches.is_empty()).then_some(EndCord { thread: self.thread, path, is_turn: false })
    }
}

impl EndLaying<'_> {
    /// From one strand of a bundle to the next.
    pub(super) fn lane(&self, strands: usize) -> f64 {
        let apart = strands.saturating_sub(1).max(1).to_f64();
        self.thickness * LANE.min(WIDEST / apart)
    }

    /// How wide a bundle is.
    pub(super) fn width(&self, strands: usize) -> f64 {
        self.thickness + self.lane(strands) * strands.saturating_sub(1).to_f64()
    }

    /// Where the strands of a bundle are, from its middle.
    pub(super) fn offsets(&self, strands: usize) -> Vec<f64> {
        let lane = self.lane(strands);
        let half = (strands.to_f64() - 1.0) / 2.0;
        (0..strands).map(|number| (number.to_f64() - half) * lane).collect()
    }

    /// Leads strands together to one bundle around `axis`.
    pub(super) fn gather(&mut self, of: Range<usize>, axis: f64) {
        let places: Vec<f64> = self.offsets(of.len()).into_iter().map(|offset| axis + offset).collect();
        self.lead(of, &places);
    }

    /// Leads each strand to its place, all of them to one height.
    pub(super) fn lead(&mut self, of: Range<usize>, places: &[f64]) {
        let (_, top) = self.middle(&of);
        let lanes = &self.lanes[of.clone()];
        let farthest = lanes.iter().zip(places).map(|(lane, x)| (lane.at().x - x).abs()).fold(0.0, f64::max);
        if farthest < self.thickness * 0.05 && lanes.iter().all(|lane| (lane.at().y - top).abs() < 1e-6) {
            return;
        }
        let fall = farthest * 1.05 + self.thickness * 1.6;
        for (lane, &x) in self.lanes[of].iter_mut().zip(places) {
            lane.straight_to(top);
            let half = Point::new(0.0, fall * 0.5);
            lane.path.curve(half, half, Point::new(x, top + fall));
        }
    }
}
