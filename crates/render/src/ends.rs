//! The strands beyond the first and the last knot: free, folded in pairs, or gathered into a loop.

use crate::eye::Eye;
use crate::frame::Frame;
use crate::path::{Path, Point};
use crate::scene::{Cord, Neck, thread};
use crate::{Band, Start, fold};

/// How much room the picture leaves above the band.
pub(crate) fn above(band: &Band<'_>, frame: &Frame) -> f64 {
    match &band.start {
        Start::Loose => frame.thickness() * 10.0,
        Start::Folded(pairs) => fold::height(frame, &good(pairs, frame)),
        Start::Loop(pairs) => Eye::new(frame, good(pairs, frame).len()).height(frame),
    }
}

/// How much room the picture leaves below the band.
pub(crate) fn below(frame: &Frame) -> f64 {
    frame.thickness() * 12.0
}

/// How much room the picture leaves on either side of the band for what is above it.
pub(crate) fn beside(band: &Band<'_>, frame: &Frame) -> f64 {
    let Start::Loop(pairs) = &band.start else { return 0.0 };
    let half = frame.strands as f64 * frame.cell.x / 2.0;
    (Eye::new(frame, good(pairs, frame).len()).outer() - half).max(0.0)
}

/// How far down strands fade in from the top.
pub(crate) fn fade(band: &Band<'_>, frame: &Frame) -> f64 {
    if band.start == Start::Loose { frame.corner.y } else { 0.0 }
}

/// The threads above the band where two strands are one.
pub(crate) fn turns(band: &Band<'_>, frame: &Frame) -> Vec<Cord> {
    let (pairs, eye) = match &band.start {
        Start::Loose => return Vec::new(),
        Start::Folded(pairs) => (good(pairs, frame), None),
        Start::Loop(pairs) => (good(pairs, frame), Some(Eye::new(frame, good(pairs, frame).len()))),
    };
    let turn = |(lane, pair): (usize, (usize, usize))| Cord {
        thread: thread(band, pair.0 as u8),
        path: match &eye {
            Some(eye) => eye.turn(frame, lane, pair),
            None => fold::turn(frame, pair),
        },
    };
    pairs.into_iter().enumerate().map(turn).collect()
}

/// What holds a loop together.
pub(crate) fn neck(band: &Band<'_>, frame: &Frame) -> Option<Neck> {
    let Start::Loop(pairs) = &band.start else { return None };
    let pairs = good(pairs, frame);
    let (first, _) = pairs.first()?;
    Some(Eye::new(frame, pairs.len()).neck(frame, thread(band, *first as u8)))
}

/// Pairs of strands that are there, the left one first, from the outermost inward.
fn good(pairs: &[(u8, u8)], frame: &Frame) -> Vec<(usize, usize)> {
    let sorted = pairs.iter().map(|&(a, b)| (usize::from(a.min(b)), usize::from(a.max(b))));
    let mut pairs: Vec<_> = sorted.filter(|&(a, b)| a != b && b < frame.strands).collect();
    pairs.sort_unstable();
    pairs
}

/// Where a strand begins: a free end from its tip to the band, or the band's upper edge if it is half of a pair.
pub(crate) fn beginning(band: &Band<'_>, frame: &Frame, position: usize) -> Path {
    let paired = match &band.start {
        Start::Loose => false,
        Start::Folded(pairs) | Start::Loop(pairs) => {
            good(pairs, frame).into_iter().any(|(left, right)| left == position || right == position)
        }
    };
    let top = Point::new(frame.column(position as f64), frame.corner.y);
    if paired { Path::at(top) } else { free_above(frame, position, top) }
}

fn free_above(frame: &Frame, position: usize, top: Point) -> Path {
    let sway = sway(frame, position, 7);
    let mut path = Path::at(Point::new(top.x + sway, 0.0));
    path.curve(Point::new(-sway * 0.3, top.y * 0.3), Point::new(0.0, top.y * 0.4), top);
    path
}

/// Goes on from the band's lower edge to the tip of the free end.
pub(crate) fn free_below(frame: &Frame, position: usize, path: &mut Path) {
    let (sway, reach) = (sway(frame, position, 3), below(frame));
    let tip = Point::new(frame.column(position as f64) + sway, frame.bottom() + reach);
    path.curve(Point::new(0.0, reach * 0.4), Point::new(sway * 0.3, reach * 0.3), tip);
}

/// How far to the right the tip of a free end swings: toward the middle, and each strand a little in its own way.
fn sway(frame: &Frame, position: usize, salt: usize) -> f64 {
    let middle = (frame.strands as f64 - 1.0) / 2.0;
    let outward = if middle > 0.0 { (position as f64 - middle) / middle } else { 0.0 };
    frame.thickness() * (0.3 * unlike(position, salt) - 0.5 * outward)
}

/// A number from -1 to 1 that looks like chance and is the same every time.
fn unlike(position: usize, salt: usize) -> f64 {
    let mixed = (position * 37 + salt * 101) * 7919 % 1009;
    mixed as f64 / 504.0 - 1.0
}
