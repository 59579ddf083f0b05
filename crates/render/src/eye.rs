//! The eye of a loop: all threads side by side around an opening, held by a neck.

use crate::fold::FoldedPair;
use crate::frame::PictureFrame;
use crate::path::{Path, Point};
use crate::scene::Neck;
use knotwright_numbers::ToNumber;

pub(crate) struct Eye {
    /// The thickness of a strand.
    thickness: f64,
    /// From one thread to the next; many threads lie over one another.
    lane: f64,
    threads: usize,
}

impl Eye {
    pub(crate) fn new(frame: &PictureFrame, threads: usize) -> Self {
        let thickness = frame.thickness();
        let lane = thickness * if threads > 6 { 0.62 } else { 0.86 };
        Self { thickness, lane, threads }
    }

    /// How much room it takes above the band, the strands' way to the band included.
    pub(crate) fn height(&self, frame: &PictureFrame) -> f64 {
        self.waist() + self.thickness * 5.0 + frame.strands.to_f64() * frame.cell.x * 0.3
    }

    /// Half its width.
    pub(crate) fn outer(&self) -> f64 {
        self.thickness * 3.2 + self.lane * self.threads.to_f64()
    }

    /// How far down its neck is.
    fn waist(&self) -> f64 {
        self.thickness * 1.6 + self.outer() * 2.9
    }

    /// The thread wound around all others.
    pub(crate) fn neck(&self, frame: &PictureFrame, thread: u16) -> Neck {
        let bundle = self.lane * self.threads.to_f64() * 0.5;
        Neck {
            middle: Point::new(middle(frame), self.waist()),
            half: Point::new(bundle + self.thickness * 0.55, self.thickness * 1.6),
            thread,
        }
    }

    /// One thread: from its left strand up through the neck, around the eye, and down to its right strand.
    pub(crate) fn turn(&self, frame: &PictureFrame, lane: usize, pair: FoldedPair) -> Path {
        let (middle, waist) = (middle(frame), self.waist());
        let inward = lane.to_f64() * self.lane;
        let radius = self.outer() - inward;
        let top = self.thickness * 1.1 + inward;
        let widest = top + radius * 1.05;
        let pinch = (self.lane * self.threads.to_f64() - inward) * 0.5;
        let (fan, side) = (frame.corner.y - waist, waist - widest);
        let up = |length: f64| Point::new(0.0, -length);
        let mut path = Path::at(Point::new(frame.column(pair.left.to_f64()), frame.corner.y));
        path.curve(up(fan * 0.5), up(fan * 0.5), Point::new(middle - pinch, waist));
        path.curve(up(side * 0.5), up(side * 0.6), Point::new(middle - radius, widest));
        path.quarter(up(widest - top), Point::new(radius, 0.0));
        path.quarter(Point::new(radius, 0.0), up(top - widest));
        path.curve(up(-side * 0.6), up(-side * 0.5), Point::new(middle + pinch, waist));
        path.curve(
            up(-fan * 0.5),
            up(-fan * 0.5),
            Point::new(frame.column(pair.right.to_f64()), frame.corner.y),
        );
        path
    }
}

fn middle(frame: &PictureFrame) -> f64 {
    frame.column((frame.strands.to_f64() - 1.0) / 2.0)
}
