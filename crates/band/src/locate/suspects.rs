//! Which knot was tied wrong, when only the strands are seen.
//!
//! One slip, a knot that swaps tied as one that does not or the other way round, exchanges two strands from there on,
//! if one goes on by position. So the suspects are the knots in which those two strands meet.

use super::{LocateError, start};
use crate::compare::Colored;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// A knot that may have been tied wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Suspect {
    /// Its number in the piece.
    pub knot: u32,
    /// How many knots must be untied to mend it: it and all that wait for it.
    pub untie: u32,
}

/// The steps at which exactly two strands hang exchanged, compared with `hang` (colors by position): one slip may have
/// led here.
///
/// # Errors
/// [`LocateError`].
pub fn one_slip_away(band: Colored<'_>, hang: &[u16]) -> Result<Vec<Range<u32>>, LocateError> {
    let mut now = start(band, hang)?;
    let differs = |now: &[u16], at: usize| usize::from(now[at] != hang[at]);
    let mut different: usize = (0..now.len()).map(|at| differs(&now, at)).sum();
    let mut steps: Vec<Range<u32>> = Vec::new();
    for step in 0..=band.piece.knots().len().to_u32() {
        if different == 2 {
            match steps.last_mut() {
                Some(range) if range.end == step => range.end += 1,
                _ => steps.push(step..step + 1),
            }
        }
        if let Some(knot) = band.piece.knots().get(step.to_usize())
            && knot.kind.swaps()
        {
            let at = usize::from(knot.gap);
            different -= differs(&now, at) + differs(&now, at + 1);
            now.swap(at, at + 1);
            different += differs(&now, at) + differs(&now, at + 1);
        }
    }
    Ok(steps)
}

/// The knots that may have been tied wrong if `step` knots have been tied and the strands hang as in `hang`: those in
/// which the two exchanged strands meet, those with the least to untie first. Empty if not exactly two are exchanged.
///
/// # Errors
/// [`LocateError`].
pub fn find_suspects(band: Colored<'_>, hang: &[u16], step: u32) -> Result<Vec<Suspect>, LocateError> {
    start(band, hang)?;
    let tied = &band.piece.knots()[..band.piece.knots().len().min(step.to_usize())];
    let mut order: Vec<u8> = (0..hang.len().to_u8()).collect();
    for knot in tied.iter().filter(|knot| knot.kind.swaps()) {
        order.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
    }
    let different = order.iter().zip(hang).filter(|(strand, color)| band.color(**strand) != **color);
    let exchanged: Vec<u8> = different.map(|(strand, _)| *strand).collect();
    let &[one, other] = &exchanged[..] else { return Ok(Vec::new()) };
    let meet = |knot: &crate::Knot| [(one, other), (other, one)].contains(&(knot.working, knot.base));
    let numbers = (0..).zip(tied).filter(|(_, knot)| meet(knot)).map(|(number, _)| number);
    let mut suspects: Vec<Suspect> =
        numbers.map(|knot: u32| Suspect { knot, untie: waiting(tied, knot, hang.len()) }).collect();
    suspects.sort_by_key(|suspect| (suspect.untie, std::cmp::Reverse(suspect.knot)));
    Ok(suspects)
}

/// How many of the knots tied wait for a knot, itself included: those on a strand of one that does.
fn waiting(tied: &[crate::Knot], knot: u32, strands: usize) -> u32 {
    let mut reached = vec![false; strands];
    let mut count = 0;
    for (number, later) in (0..).zip(tied).skip(knot.to_usize()) {
        let (working, base) = (usize::from(later.working), usize::from(later.base));
        if number == knot || reached[working] || reached[base] {
            (reached[working], reached[base]) = (true, true);
            count += 1;
        }
    }
    count
}
