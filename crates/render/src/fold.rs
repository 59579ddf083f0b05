//! A thread folded in its middle over something thin: two strands.

use crate::frame::Frame;
use crate::path::{Path, Point};

/// How much room folded pairs take above the band.
pub(crate) fn height(frame: &Frame, pairs: &[(usize, usize)]) -> f64 {
    let rises = pairs.iter().map(|&pair| rise(frame, pair));
    frame.thickness() * 6.0 + rises.fold(0.0, f64::max)
}

/// Up from the left strand, round, and down to the right one.
pub(crate) fn turn(frame: &Frame, pair: (usize, usize)) -> Path {
    let (from, to) = (frame.column(pair.0 as f64), frame.column(pair.1 as f64));
    let (radius, rise) = ((to - from) / 2.0, rise(frame, pair));
    let mut path = Path::at(Point::new(from, frame.corner.y));
    path.line(Point::new(from, frame.corner.y - frame.thickness() * 5.0));
    path.quarter(Point::new(0.0, -rise), Point::new(radius, 0.0));
    path.quarter(Point::new(radius, 0.0), Point::new(0.0, rise));
    path.line(Point::new(to, frame.corner.y));
    path
}

fn rise(frame: &Frame, (left, right): (usize, usize)) -> f64 {
    (right - left) as f64 * frame.cell.x * 0.42
}
