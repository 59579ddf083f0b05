//! What follows from edits: other strands and other colors further down.

use super::{Colored, KnotEdits};
use crate::Layout;
use knotwright_numbers::ToNumber;

/// What is different besides the knots edited.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Follows {
    /// The row of the topmost edit, counted in the band that the knot belongs to; `None` if nothing was edited.
    pub from_row: Option<u32>,
    /// By position from the left, where another strand hangs in the end.
    pub moved: Vec<MovedStrand>,
    /// Knots of both bands in which another color is seen.
    pub recolored: usize,
    /// Positions at which another color hangs at the start.
    pub start: Vec<u8>,
}

/// A position at which another strand hangs in the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MovedStrand {
    /// The position.
    pub position: u8,
    /// The strand that hangs there in the first band, by its starting position.
    pub before: u8,
    /// The strand that hangs there in the other.
    pub after: u8,
}

/// What follows from `edits` of two bands, which must be those of their pieces.
pub fn find_follows(one: Colored<'_>, other: Colored<'_>, edits: &KnotEdits) -> Follows {
    let ends = one.piece.order().iter().zip(other.piece.order());
    let moved = |(position, (&before, &after)): (u8, (&u8, &u8))| {
        (before != after).then_some(MovedStrand { position, before, after })
    };
    let other_color = |&&(a, b): &&(u32, u32)| seen(one, a) != seen(other, b);
    let starts = one.start().into_iter().zip(other.start());
    Follows {
        from_row: from_row(one, other, edits),
        moved: (0..).zip(ends).filter_map(moved).collect(),
        recolored: edits.kept.iter().filter(other_color).count(),
        start: (0..).zip(starts).filter(|(_, (a, b))| a != b).map(|(position, _)| position).collect(),
    }
}

fn seen(band: Colored<'_>, knot: u32) -> Option<u16> {
    band.piece.knots().get(knot.to_usize()).map(|knot| band.color(knot.working))
}

fn from_row(one: Colored<'_>, other: Colored<'_>, edits: &KnotEdits) -> Option<u32> {
    let pairs = || edits.changed.iter().chain(&edits.moved);
    let of_one = edits.removed.iter().copied().chain(pairs().map(|pair| pair.0));
    let of_other = edits.added.iter().copied().chain(pairs().map(|pair| pair.1));
    let rows = [Layout::of(one.piece).rows, Layout::of(other.piece).rows];
    let row = |band: usize| {
        let rows = &rows[band];
        move |knot: u32| rows.get(knot.to_usize()).copied()
    };
    of_one.filter_map(row(0)).chain(of_other.filter_map(row(1))).min()
}
