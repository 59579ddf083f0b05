//! The strands beyond the first and the last knot: free, folded in pairs, or gathered into a loop.

use crate::dye::EndedStrand;
use crate::eye::Eye;
use crate::fold::{self, FoldedPair};
use crate::frame::PictureFrame;
use crate::made::{MadeEnd, lay_begin, lay_finish};
use crate::path::{Path, Point};
use crate::scene::{Cord, EndCord, Neck, thread_of};
use crate::threaded::ThreadedBead;
use crate::{Band, StrandStart};
use knotwright_numbers::ToNumber;

/// How much room the picture leaves above the band.
pub(crate) fn room_above(band: &Band<'_>, frame: &PictureFrame) -> f64 {
    if let Some(made) = lay_begin(band, frame) {
        return made.height + frame.thickness();
    }
    match &band.start {
        StrandStart::Loose => frame.thickness() * 10.0,
        StrandStart::Folded(pairs) => fold::fold_height(frame, &good(pairs, frame)),
        StrandStart::Loop(pairs) => Eye::new(frame, good(pairs, frame).len()).height(frame),
    }
}

/// How much room the picture leaves below the band.
pub(crate) fn room_below(band: &Band<'_>, frame: &PictureFrame) -> f64 {
    let made = lay_finish(band, frame, &start_order(frame), &[]);
    made.map_or(frame.thickness() * 12.0, |made| made.height + frame.thickness())
}

fn start_order(frame: &PictureFrame) -> Vec<u8> {
    (0..frame.strands).map(|strand| strand.to_u8()).collect()
}

/// The lines of what is made before the first knot and after the last, where the pattern says it. `order`: by position,
/// which strand hangs there at the end; `ended`: by strand, what it is there.
pub(crate) fn place_made(
    band: &Band<'_>,
    frame: &PictureFrame,
    order: &[u8],
    ended: &[EndedStrand],
) -> [Vec<EndCord>; 2] {
    let middle = frame.column((frame.strands.to_f64() - 1.0) / 2.0);
    let (above, below) = (Point::new(middle, frame.corner.y), Point::new(middle, frame.bottom()));
    let placed = |made: Option<MadeEnd>, at, is_begin| {
        made.map(|made| made.placed(at, is_begin).collect()).unwrap_or_default()
    };
    [placed(lay_begin(band, frame), above, true), placed(lay_finish(band, frame, order, ended), below, false)]
}

/// The beads of both ends.
pub(crate) fn place_end_beads(band: &Band<'_>, frame: &PictureFrame, order: &[u8]) -> Vec<ThreadedBead> {
    let middle = frame.column((frame.strands.to_f64() - 1.0) / 2.0);
    let (top, bottom) = (Point::new(middle, frame.corner.y), Point::new(middle, frame.bottom()));
    let above = lay_begin(band, frame).map(|made| (made, top, -1.0, 0));
    let below = lay_finish(band, frame, order, &[]).map(|made| (made, bottom, 1.0, u32::MAX));
    let placed = |(made, at, way, after): (MadeEnd, Point, f64, u32)| {
        let bead = move |bead: &ThreadedBead| ThreadedBead {
            middle: Point::new(at.x + bead.middle.x, at.y + way * bead.middle.y),
            after,
            ..*bead
        };
        made.beads.iter().map(bead).collect::<Vec<_>>()
    };
    above.into_iter().chain(below).flat_map(placed).collect()
}

/// How much room the picture leaves on either side of the band for what is above it and below.
pub(crate) fn room_beside(band: &Band<'_>, frame: &PictureFrame) -> f64 {
    let half = frame.strands.to_f64() * frame.cell.x / 2.0;
    let ends = [lay_begin(band, frame), lay_finish(band, frame, &start_order(frame), &[])];
    let made = ends.into_iter().flatten().map(|made| made.half - half).fold(0.0, f64::max);
    let StrandStart::Loop(pairs) = &band.start else { return made };
    made.max(Eye::new(frame, good(pairs, frame).len()).outer() - half)
}

/// Whether what is above and below the band is drawn otherwise than as long as it is.
pub(crate) fn is_out_of_scale(band: &Band<'_>) -> bool {
    let frame = PictureFrame::of(band, &[]);
    let above = match &band.made.begin {
        Some(works) => frame.shortens(works),
        None => !matches!(band.start, StrandStart::Folded(_)),
    };
    above || band.made.finish.as_deref().is_none_or(|works| frame.shortens(works))
}

/// How far down strands fade in from the top.
pub(crate) fn fade_depth(band: &Band<'_>, frame: &PictureFrame) -> f64 {
    let hangs_free = band.start == StrandStart::Loose && band.made.begin.is_none();
    if hangs_free { frame.corner.y } else { 0.0 }
}

/// How far up strands fade in from the bottom.
pub(crate) fn fade_below(band: &Band<'_>, frame: &PictureFrame) -> f64 {
    if band.made.finish.is_none() { frame.below } else { 0.0 }
}

/// The threads above the band where two strands are one.
pub(crate) fn place_turns(band: &Band<'_>, frame: &PictureFrame) -> Vec<Cord> {
    let (pairs, eye) = match &band.start {
        _ if band.made.begin.is_some() => return Vec::new(),
        StrandStart::Loose => return Vec::new(),
        StrandStart::Folded(pairs) => (good(pairs, frame), None),
        StrandStart::Loop(pairs) => (good(pairs, frame), Some(Eye::new(frame, good(pairs, frame).len()))),
    };
    let turn = |(lane, pair): (usize, FoldedPair)| Cord {
        thread: thread_of(band, pair.left.to_u8()),
        path: match &eye {
            Some(eye) => eye.turn(frame, lane, pair),
            None => fold::fold_path(frame, pair),
        },
    };
    pairs.into_iter().enumerate().map(turn).collect()
}

/// What holds a loop together.
pub(crate) fn place_neck(band: &Band<'_>, frame: &PictureFrame) -> Option<Neck> {
    let StrandStart::Loop(pairs) = &band.start else { return None };
    if band.made.begin.is_some() {
        return None;
    }
    let pairs = good(pairs, frame);
    let first = pairs.first()?;
    Some(Eye::new(frame, pairs.len()).neck(frame, thread_of(band, first.left.to_u8())))
}

/// Pairs of strands that are there, the left one first, from the outermost inward.
fn good(pairs: &[(u8, u8)], frame: &PictureFrame) -> Vec<FoldedPair> {
    let sorted = pairs.iter().map(|&(a, b)| FoldedPair { left: a.min(b).into(), right: a.max(b).into() });
    let mut pairs: Vec<_> =
        sorted.filter(|pair| pair.left != pair.right && pair.right < frame.strands).collect();
    pairs.sort_unstable();
    pairs
}

/// Where a strand begins: a free end from its tip to the band, or the band's upper edge if it is half of a pair.
pub(crate) fn begin_strand(band: &Band<'_>, frame: &PictureFrame, position: usize) -> Path {
    let paired = match &band.start {
        _ if band.made.begin.is_some() => true,
        StrandStart::Loose => false,
        StrandStart::Folded(pairs) | StrandStart::Loop(pairs) => {
            good(pairs, frame).into_iter().any(|pair| pair.left == position || pair.right == position)
        }
    };
    let top = Point::new(frame.column(position.to_f64()), frame.corner.y);
    if paired { Path::at(top) } else { free_above(frame, position, top) }
}

fn free_above(frame: &PictureFrame, position: usize, top: Point) -> Path {
    let sway = sway(frame, position, 7);
    let mut path = Path::at(Point::new(top.x + sway, 0.0));
    path.curve(Point::new(-sway * 0.3, top.y * 0.3), Point::new(0.0, top.y * 0.4), top);
    path
}

/// Goes on from the band's lower edge to the tip of the free end.
pub(crate) fn free_below(frame: &PictureFrame, position: usize, path: &mut Path) {
    let (sway, reach) = (sway(frame, position, 3), frame.below);
    let tip = Point::new(frame.column(position.to_f64()) + sway, frame.bottom() + reach);
    path.curve(Point::new(0.0, reach * 0.4), Point::new(sway * 0.3, reach * 0.3), tip);
}

/// How far to the right the tip of a free end swings: toward the middle, and each strand a little in its own way.
fn sway(frame: &PictureFrame, position: usize, salt: usize) -> f64 {
    let middle = (frame.strands.to_f64() - 1.0) / 2.0;
    let outward = if middle > 0.0 { (position.to_f64() - middle) / middle } else { 0.0 };
    frame.thickness() * (0.3 * unlike(position, salt) - 0.5 * outward)
}

/// A number from -1 to 1 that looks like chance and is the same every time.
fn unlike(position: usize, salt: usize) -> f64 {
    let mixed = (position * 37 + salt * 101) * 7919 % 1009;
    mixed.to_f64() / 504.0 - 1.0
}
