//! Where a long band repeats itself, so that a picture of all of it can be put together from a picture of less.

use std::collections::HashMap;

use knotwright_band::{Join, Piece, Rows};
use knotwright_numbers::ToNumber;

use crate::Band;
use crate::dye::Dyeing;
use crate::joined::joins_in;

/// Parts that are laid again and again, the same knots in the same colors, only further down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct BandRepeat {
    /// The part with which the first time begins.
    first: usize,
    /// How many parts make one time.
    parts: usize,
    /// How many times are left out of the shorter band.
    left_out: u64,
    /// How many times are left in it.
    kept: usize,
    /// In the shorter band, the first row of a time before which and after which all is as in the whole.
    pub(crate) row: u64,
    /// How many rows one time takes.
    pub(crate) rows: u64,
}

impl BandRepeat {
    /// The longest repeat in the middle of a band, if much of the band is left out by it.
    pub(crate) fn of(band: &Band<'_>) -> Option<Self> {
        // A thread that changes color does so in a rhythm of its own.
        if Dyeing::of(band).changes() {
            return None;
        }
        let laid = lay(band);
        let middle = laid.len() / 2;
        let is_alike = |one: usize, other: usize| laid[one].look == laid[other].look;
        let parts =
            (1..=laid.len() / 8).find(|parts| (middle..middle + parts).all(|at| is_alike(at, at + parts)))?;
        let rows = laid.get(middle + parts)?.row.checked_sub(laid[middle].row).filter(|rows| *rows > 0)?;
        let goes_on = |at: usize| is_alike(at, at + parts) && laid[at + parts].row - laid[at].row == rows;
        let first = (0..middle).rev().take_while(|at| goes_on(*at)).last().unwrap_or(middle);
        let end = (middle..laid.len() - parts).find(|at| !goes_on(*at)).unwrap_or(laid.len() - parts);
        let times = (end - first) / parts;
        // What hangs down from above ends within that many times; one more lies between the cut and what comes after.
        let reach = (laid[first].reach / rows).to_usize() + 2;
        let kept = reach + 2;
        if times < kept * 2 {
            return None;
        }
        let row = laid[first + reach * parts].row;
        Some(Self { first, parts, left_out: (times - kept).to_u64(), kept, row, rows })
    }

    /// The band without the times that are left out.
    pub(crate) fn shorter<'a>(&self, band: &Band<'a>) -> Band<'a> {
        let (before, after) = (self.first + self.kept * self.parts, self.left_out.to_usize() * self.parts);
        let parts = band.parts.iter().take(before).chain(band.parts.iter().skip(before + after));
        Band { parts: parts.cloned().collect(), ..band.clone() }
    }

    /// How many rows are left out.
    pub(crate) fn rows_left_out(&self) -> u64 {
        self.left_out * self.rows
    }
}

/// A part in its place.
struct LaidPart {
    /// A number for its knots, its colors, and the outline on which it lies: what looks alike has one number.
    look: usize,
    /// The row from which its rows count.
    row: u64,
    /// How far the outline reaches down from there.
    reach: u64,
}

/// What makes a part look as it does: its knots, the threads that hang there, the outline on which it lies, and its joins.
type LookKey = (*const Piece, Vec<u16>, Vec<u64>, Vec<Join>);

fn lay(band: &Band<'_>) -> Vec<LaidPart> {
    let mut rows = Rows::new(band.strands.len());
    let mut hang = band.strands.clone();
    let mut looks: HashMap<LookKey, usize> = HashMap::new();
    let fits = |part: &&crate::BandPart<'_>| part.piece.strands() == band.strands.len();
    if !band.parts.iter().all(|part| fits(&part)) {
        return Vec::new();
    }
    let laid = band.parts.iter().map(|part| {
        // An even row: bricks lie by whether row and gap are even.
        let row = rows.free().iter().copied().min().unwrap_or(0) & !1;
        let outline: Vec<u64> = rows.free().iter().map(|free| free - row).collect();
        let reach = outline.iter().copied().max().unwrap_or(0);
        let after = part.piece.threads_after(&hang);
        let colors = std::mem::replace(&mut hang, after);
        let joins = joins_in(part.piece, part.set).copied().collect();
        let next = looks.len();
        let look = *looks.entry((std::ptr::from_ref(part.piece), colors, outline, joins)).or_insert(next);
        rows.lay(part.piece);
        LaidPart { look, row, reach }
    });
    laid.collect()
}
