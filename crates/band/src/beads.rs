//! Beads on the strands of a band: where they lie, and through which hole strands go.

use crate::MOST_STRANDS;
use knotwright_numbers::ToNumber;
use std::f64::consts::PI;

/// A bead that is threaded while a piece is tied.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BeadAt {
    /// Which bead: a number that says which are alike.
    pub bead: u16,
    /// How many knots of the piece are tied before it.
    pub before: u32,
    /// The leftmost position of the strands that go through it.
    pub position: u8,
    /// How many strands go through it, side by side.
    pub strands: u8,
    /// The step of the script that threads it.
    pub step: u32,
}

/// The knots between which a bead lies, by their rows; `None` where its strands have none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BeadRoom {
    /// The lowest knot above it.
    pub above: Option<u32>,
    /// The uppermost knot below it.
    pub below: Option<u32>,
}

/// The middle of a bead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeadSpot {
    /// From left to right: 0 is the middle of the leftmost strand, 1 that of the next.
    pub across: f64,
    /// Downward: 0.5 is the middle of the first row, 1.5 that of the second.
    pub down: f64,
}

/// The hole that `strands` round strands of a diameter just go through. Several lie in a ring, each at the side of the
/// next and at the wall: their middles are `diameter / sin(pi / strands)` apart across the ring, and half a strand more
/// is on either side. Plane geometry.
pub fn hole_for(strands: usize, diameter: f64) -> f64 {
    match strands {
        0 | 1 => diameter,
        more => diameter * (1.0 + 1.0 / (PI / more.to_f64()).sin()),
    }
}

/// By bead, between which knots it lies. `knots`: by knot in the order of tying, its row and its gap; `beads` in the order
/// of threading. Takes time in proportion to the knots and to the strands in beads.
pub fn bead_rooms(knots: impl IntoIterator<Item = (u32, u8)>, beads: &[BeadAt]) -> Vec<BeadRoom> {
    let mut rooms = vec![BeadRoom::default(); beads.len()];
    // By position: the row of the last knot there, and the beads that no knot there holds yet.
    let mut last: Vec<Option<u32>> = vec![None; MOST_STRANDS];
    let mut waiting: Vec<Vec<usize>> = vec![Vec::new(); MOST_STRANDS];
    let mut next = 0;
    let mut thread = |tied: u32, last: &[Option<u32>], waiting: &mut [Vec<usize>], rooms: &mut [BeadRoom]| {
        while let Some(bead) = beads.get(next).filter(|bead| bead.before <= tied) {
            let positions =
                usize::from(bead.position)..usize::from(bead.position) + usize::from(bead.strands);
            let end = positions.end.min(last.len());
            let positions = positions.start.min(end)..end;
            rooms[next].above = last[positions.clone()].iter().flatten().max().copied();
            waiting[positions].iter_mut().for_each(|held| held.push(next));
            next += 1;
        }
    };
    for (tied, (row, gap)) in (0..).zip(knots) {
        thread(tied, &last, &mut waiting, &mut rooms);
        for position in [usize::from(gap), usize::from(gap) + 1] {
            last[position] = Some(row);
            for bead in waiting[position].drain(..) {
                let below = &mut rooms[bead].below;
                *below = Some(below.map_or(row, |known| known.min(row)));
            }
        }
    }
    thread(u32::MAX, &last, &mut waiting, &mut rooms);
    rooms
}

/// By bead, where its middle is. Several that lie between the same knots on the same strands are one below the other.
/// `length`: by number of the bead, how many rows it is long.
pub fn bead_spots(rooms: &[BeadRoom], beads: &[BeadAt], length: impl Fn(u16) -> f64) -> Vec<BeadSpot> {
    let mut spots = Vec::with_capacity(beads.len());
    let shares = |one: usize, other: usize| {
        let of = |at: usize| (rooms[at], beads[at].position, beads[at].strands);
        of(one) == of(other)
    };
    let mut at = 0;
    while at < beads.len() {
        let end = (at + 1..beads.len()).find(|&other| !shares(at, other)).unwrap_or(beads.len());
        let whole: f64 = beads[at..end].iter().map(|bead| length(bead.bead)).sum();
        let mut top = middle(rooms[at], whole) - whole / 2.0;
        for bead in &beads[at..end] {
            let long = length(bead.bead);
            let across = f64::from(bead.position) + (f64::from(bead.strands) - 1.0).max(0.0) / 2.0;
            spots.push(BeadSpot { across, down: top + long / 2.0 });
            top += long;
        }
        at = end;
    }
    spots
}

/// The middle of what is `length` rows long and lies between two knots, or next to the one that there is.
fn middle(room: BeadRoom, length: f64) -> f64 {
    let row = |row: u32| f64::from(row) + 0.5;
    match (room.above, room.below) {
        (Some(above), Some(below)) => f64::midpoint(row(above), row(below)),
        (Some(above), None) => row(above) + 0.5 + length / 2.0,
        (None, Some(below)) => row(below) - 0.5 - length / 2.0,
        (None, None) => length / 2.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Kind, Layout, Piece};

    /// Circles side by side around a middle, drawn with a compass: none overlaps the next, and all touch the wall.
    #[test]
    fn a_ring_of_strands_just_goes_through_its_hole() {
        for strands in 2..=12_usize {
            let hole = hole_for(strands, 0.9);
            let radius = hole / 2.0 - 0.45;
            let at = |nth: usize| {
                let angle = 2.0 * PI * nth.to_f64() / strands.to_f64();
                (radius * angle.cos(), radius * angle.sin())
            };
            let ((x, y), (next_x, next_y)) = (at(0), at(1));
            assert!(((next_x - x).hypot(next_y - y) - 0.9).abs() < 1e-9, "{strands}");
        }
        assert!((hole_for(2, 0.9) - 1.8).abs() < 1e-9, "two lie side by side");
        assert!((hole_for(1, 0.9) - 0.9).abs() < 1e-9);
    }

    fn bead(before: u32, position: u8, strands: u8) -> BeadAt {
        BeadAt { bead: 0, before, position, strands, step: 0 }
    }

    fn laid(steps: &[(u8, Kind)], beads: &[BeadAt]) -> (Vec<BeadRoom>, Vec<BeadSpot>) {
        let piece = Piece::tie(4, steps.iter().copied()).unwrap();
        let layout = Layout::of(&piece);
        let rooms =
            bead_rooms(layout.rows.iter().copied().zip(piece.knots().iter().map(|knot| knot.gap)), beads);
        let spots = bead_spots(&rooms, beads, |_| 1.0);
        (rooms, spots)
    }

    #[test]
    fn a_bead_lies_between_the_knots_of_its_strand() {
        use Kind::Forward as F;
        // Two bricks, one between them, two bricks: the edges rest in the middle row.
        let (rooms, spots) = laid(&[(0, F), (2, F), (1, F), (0, F), (2, F)], &[bead(2, 0, 1), bead(3, 3, 1)]);
        let edge = BeadRoom { above: Some(0), below: Some(2) };
        assert_eq!(rooms, [edge, edge]);
        assert_eq!(spots, [BeadSpot { across: 0.0, down: 1.5 }, BeadSpot { across: 3.0, down: 1.5 }]);
        // Neighbors that are tied next: half a row above their knot.
        let (rooms, spots) = laid(&[(0, F), (2, F), (1, F)], &[bead(2, 1, 2)]);
        assert_eq!(rooms, [BeadRoom { above: Some(0), below: Some(1) }]);
        assert_eq!(spots, [BeadSpot { across: 1.5, down: 1.0 }]);
    }

    #[test]
    fn beads_at_the_ends_lie_next_to_their_knot_and_several_below_one_another() {
        use Kind::Forward as F;
        let (rooms, spots) = laid(&[(0, F)], &[bead(0, 0, 1), bead(1, 0, 1), bead(1, 0, 1), bead(1, 3, 1)]);
        assert_eq!(rooms[0], BeadRoom { above: None, below: Some(0) });
        assert_eq!(rooms[1], BeadRoom { above: Some(0), below: None });
        assert_eq!(rooms[3], BeadRoom::default(), "no knot ties that strand");
        let down: Vec<f64> = spots.iter().map(|spot| spot.down).collect();
        assert_eq!(down, [-0.5, 1.5, 2.5, 0.5]);
    }
}
