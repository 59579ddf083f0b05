//! A thread folded in its middle over something thin: two strands.

use crate::frame::PictureFrame;
use crate::path::{Path, Point};
use knotwright_numbers::ToNumber;

/// The two strands that are one thread, as positions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct FoldedPair {
    pub(crate) left: usize,
    pub(crate) right: usize,
}

/// How much room folded pairs take above the band.
pub(crate) fn fold_height(frame: &PictureFrame, pairs: &[FoldedPair]) -> f64 {
    let rises = pairs.iter().map(|&pair| rise(frame, pair));
    frame.thickness() * 6.0 + rises.fold(0.0, f64::max)
}

/// Up from the left strand, round, and down to the right one.
pub(crate) fn fold_path(frame: &PictureFrame, pair: FoldedPair) -> Path {
    let (from, to) = (frame.column(pair.left.to_f64()), frame.column(pair.right.to_f64()));
    let (radius, rise) = ((to - from) / 2.0, rise(frame, pair));
    let mut path = Path::at(Point::new(from, frame.corner.y));
    path.line(Point::new(from, frame.corner.y - frame.thickness() * 5.0));
    path.quarter(Point::new(0.0, -rise), Point::new(radius, 0.0));
    path.quarter(Point::new(radius, 0.0), Point::new(0.0, rise));
    path.line(Point::new(to, frame.corner.y));
    path
}

fn rise(frame: &PictureFrame, pair: FoldedPair) -> f64 {
    (pair.right - pair.left).to_f64() * frame.cell.x * 0.42
}
