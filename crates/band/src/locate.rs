//! Where in a piece one is, by how the strands hang.
//!
//! The piece is tied once from its start, and at each step the colors are compared with those that hang. Two strands of
//! one color look alike, so the first of a color is taken for the first, the second for the second: no other matching
//! makes fewer inversions. One knot changes that number by one at most, so from a step that is far off as many steps can
//! be passed over as it is farther off than the best so far, and most are. Checked against comparing every step.

mod suspects;
mod untie;

pub use suspects::{Suspect, find_suspects, one_slip_away};
pub use untie::list_untied;

use crate::compare::Colored;
use knotwright_numbers::ToNumber;
use std::collections::BTreeMap;
use std::ops::Range;

/// The steps at which strands hang as they do now. Step `t` is when `t` knots of the script have been tied.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Located {
    /// How many times two neighbors would have to change places, at least, to hang as at those steps; 0: they do.
    pub distance: u32,
    /// The steps that come nearest, ascending.
    pub steps: Vec<Range<u32>>,
}

/// Why a place cannot be found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LocateError {
    /// More or fewer strands than the piece has.
    OtherWidth,
    /// Not the piece's colors.
    OtherColors {
        /// A color of which there are more or fewer.
        color: u16,
        /// How many hang there.
        hang: usize,
        /// How many the piece has.
        wanted: usize,
    },
}

/// The steps of a piece at which the colors hang as in `hang` (by position), or come nearest to it.
///
/// The distance of two rows of colors is the number of inversions when the k-th strand of a color in one is matched
/// with the k-th in the other; a knot changes it by 1 at most, so steps that cannot come as near as the best so far
/// are passed over.
///
/// # Errors
/// [`LocateError`].
pub fn locate_hang(band: Colored<'_>, hang: &[u16]) -> Result<Located, LocateError> {
    let mut now = start(band, hang)?;
    let wanted = Wanted::new(hang);
    let mut located = Located { distance: u32::MAX, steps: Vec::new() };
    let mut look_again = 0;
    let last = band.piece.knots().len().to_u32();
    for step in 0..=last {
        if step >= look_again {
            let distance = wanted.distance(&now);
            located.consider(step, distance);
            look_again = step + (distance - located.distance).max(1);
        }
        if let Some(knot) = band.piece.knots().get(step.to_usize())
            && knot.kind.swaps()
        {
            now.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
        }
    }
    Ok(located)
}

impl Located {
    fn consider(&mut self, step: u32, distance: u32) {
        if distance < self.distance {
            *self = Self { distance, steps: Vec::new() };
        }
        if distance == self.distance {
            match self.steps.last_mut() {
                Some(steps) if steps.end == step => steps.end += 1,
                _ => self.steps.push(step..step + 1),
            }
        }
    }
}

/// By position, the colors at the start, if they are those that hang now.
fn start(band: Colored<'_>, hang: &[u16]) -> Result<Vec<u16>, LocateError> {
    if hang.len() != band.piece.strands() {
        return Err(LocateError::OtherWidth);
    }
    let start: Vec<u16> = (0..hang.len().to_u8()).map(|strand| band.color(strand)).collect();
    for &color in hang.iter().chain(&start) {
        let count = |of: &[u16]| of.iter().filter(|c| **c == color).count();
        let (hang, wanted) = (count(hang), count(&start));
        if hang != wanted {
            return Err(LocateError::OtherColors { color, hang, wanted });
        }
    }
    Ok(start)
}

/// By color, the positions where it hangs.
struct Wanted {
    positions: BTreeMap<u16, Vec<usize>>,
}

impl Wanted {
    fn new(hang: &[u16]) -> Self {
        let mut positions: BTreeMap<u16, Vec<usize>> = BTreeMap::new();
        for (position, &color) in hang.iter().enumerate() {
            positions.entry(color).or_default().push(position);
        }
        Self { positions }
    }

    /// Inversions after matching the strands of each color in order.
    fn distance(&self, now: &[u16]) -> u32 {
        let mut left: BTreeMap<u16, &[usize]> = self.positions.iter().map(|(c, p)| (*c, &p[..])).collect();
        let mut sorted: Vec<usize> = Vec::with_capacity(now.len());
        let mut inversions = 0;
        for color in now {
            let Some((&at, rest)) = left.get(color).and_then(|left| left.split_first()) else { continue };
            left.insert(*color, rest);
            let before = sorted.partition_point(|&earlier| earlier < at);
            inversions += (sorted.len() - before).to_u32();
            sorted.insert(before, at);
        }
        inversions
    }
}
