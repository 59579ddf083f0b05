//! The colors of a chart's knots where threads change color: the same set may have others each time.

use crate::TyingScript;
use crate::dye::{Dyeing, EndedStrand};
use crate::joined::place_joins;
use crate::placed::{Placed, place_dyed};
use knotwright_numbers::ToNumber;
use std::collections::HashSet;

/// The colors of every part of a band; of no part if no thread changes color, or colors are not drawn.
#[derive(Debug, Default)]
pub(super) struct DyedParts {
    parts: Vec<DyedPart>,
    /// By strand, its color after the last part, and what it is there.
    end: Vec<u16>,
    pub(super) ended: Vec<EndedStrand>,
}

#[derive(Debug, Default)]
struct DyedPart {
    /// By knot, the colors of the working strand and its base.
    knots: Vec<[u16; 2]>,
    /// By strand, its color at the first of them; as it hangs, if it has none or goes on there with a new piece of thread.
    hanging: Vec<u16>,
}

impl DyedParts {
    pub(super) fn of(script: &TyingScript) -> Self {
        let band = script.band();
        let begun = Dyeing::of(&band);
        if !begun.changes() {
            return Self::default();
        }
        let strands = || 0..script.strands.len().to_u8();
        let mut hanging: Vec<u16> = strands().map(|strand| begun.hanging(strand, 0)).collect();
        let (knots, dyeing) = place_dyed(&band);
        let joined = place_joins(&band, &knots).into_iter().map(|join| (join.row, join.gap, join.strand));
        let joined: HashSet<(u32, u8, u8)> = joined.collect();
        let mut parts = Vec::with_capacity(band.parts.len());
        let mut rest = knots.as_slice();
        for number in 0..band.parts.len().to_u32() {
            let count = rest.iter().take_while(|knot| knot.part == number).count();
            let (here, after) = rest.split_at(count);
            rest = after;
            // From the last to the first, so that the first one of each strand stays; then as the last ones leave it.
            let mut begins = hanging.clone();
            for (knot, strand, color) in here.iter().rev().flat_map(strands_of) {
                let is_joined = joined.contains(&(knot.row, knot.gap, strand));
                let old = hanging.get(usize::from(strand)).copied().filter(|_| is_joined);
                hang(&mut begins, strand, old.unwrap_or(color));
            }
            here.iter().flat_map(strands_of).for_each(|(_, strand, color)| hang(&mut hanging, strand, color));
            parts.push(DyedPart { knots: here.iter().map(|knot| knot.colors).collect(), hanging: begins });
        }
        let rows = knots.iter().map(|knot| knot.row + 1).max().unwrap_or(0);
        let end = strands().map(|strand| dyeing.hanging(strand, rows)).collect();
        Self { parts, end, ended: dyeing.ended(rows) }
    }

    /// The colors of the knots of a part: what tells it from others that are tied alike.
    pub(super) fn knots(&self, part: usize) -> &[[u16; 2]] {
        self.parts.get(part).map_or(&[], |part| &part.knots)
    }

    /// By position in `order`, the color that hangs there as a part begins, or after the last; `threads`: what hangs there if
    /// no thread changes color.
    pub(super) fn hanging(&self, part: usize, order: &[u8], threads: &[u16]) -> Vec<u16> {
        let of = self.parts.get(part).map_or(&self.end, |part| &part.hanging);
        let color = |(strand, thread): (&u8, &u16)| of.get(usize::from(*strand)).copied().unwrap_or(*thread);
        order.iter().zip(threads).map(color).collect()
    }
}

/// The strands of a knot with their colors there; what nothing ties yet leaves every strand as it hangs.
fn strands_of(knot: &Placed) -> impl Iterator<Item = (&Placed, u8, u16)> {
    let strands = [(knot.working, knot.colors[0]), (knot.base, knot.colors[1])];
    let is_tied = knot.wished.is_none();
    strands.into_iter().filter(move |_| is_tied).map(move |(strand, color)| (knot, strand, color))
}

fn hang(hanging: &mut [u16], strand: u8, color: u16) {
    hanging.get_mut(usize::from(strand)).into_iter().for_each(|hung| *hung = color);
}
