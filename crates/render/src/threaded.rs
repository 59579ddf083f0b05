//! Beads on the strands of a band, in true size and at their places.

use crate::Band;
use crate::frame::{PictureFrame, in_reach};
use crate::path::Point;
use crate::placed::{Placed, fitting};
use knotwright_band::beads::{BeadAt, bead_rooms, bead_spots};
use knotwright_numbers::ToNumber;

/// A bead in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThreadedBead {
    /// Its middle.
    pub middle: Point,
    /// Half of its size.
    pub radius: f64,
    /// Which bead.
    pub bead: u16,
    /// Index of the part it is threaded in; of an end, `u32::MAX`.
    pub part: u32,
    /// Index of the step in that part.
    pub step: u32,
    /// How many knots of the band are tied before it.
    pub after: u32,
}

/// The beads of all parts, in the order of threading.
pub(crate) fn place_threaded(band: &Band<'_>, knots: &[Placed], frame: &PictureFrame) -> Vec<ThreadedBead> {
    let (mut all, mut parts, mut tied) = (Vec::new(), Vec::new(), 0_u32);
    for (index, part) in fitting(band).enumerate() {
        all.extend(part.beads.iter().map(|bead| BeadAt { before: tied + bead.before, ..*bead }));
        parts.resize(all.len(), index.to_u32());
        tied += part.piece.knots().len().to_u32();
    }
    let rooms = bead_rooms(knots.iter().map(|knot| (knot.row, knot.gap)), &all);
    let size = |bead: u16| size_of(band, bead);
    let spots = bead_spots(&rooms, &all, |bead| size(bead) / frame.cell.y);
    let placed = all.iter().zip(parts).zip(spots).map(|((bead, part), spot)| ThreadedBead {
        middle: Point::new(frame.column(spot.across), frame.corner.y + (spot.down + 0.5) * frame.cell.y),
        radius: size(bead.bead) / 2.0,
        bead: bead.bead,
        part,
        step: bead.step,
        after: bead.before,
    });
    placed.collect()
}

/// How large a bead is, in tenths of a millimeter.
pub(crate) fn size_of(band: &Band<'_>, bead: u16) -> f64 {
    band.beads.get(usize::from(bead)).map_or(0.0, |bead| in_reach(bead.across))
}

/// The largest bead of a band, whether it is threaded yet or not: the picture has one size while it is tied.
pub(crate) fn largest(band: &Band<'_>) -> f64 {
    band.beads.iter().map(|bead| in_reach(bead.across)).fold(0.0, f64::max)
}

/// Tenths of a millimeter as whole hundredths, and back.
pub(crate) fn in_hundredths(tenths: f64) -> u64 {
    (tenths * 10.0).round().to_u64()
}

pub(crate) fn from_hundredths(hundredths: u64) -> f64 {
    hundredths.to_f64() / 10.0
}
