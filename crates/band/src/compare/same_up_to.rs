//! Two sets that are the same in a mirror, in other colors, or begun in another row.

use super::Colored;
use super::rotation::{Turned, find_rotation};
use crate::normal_form;

/// What must be done to a set to make it another.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct UpTo {
    /// It is mirrored.
    pub mirrored: bool,
    /// Its colors are exchanged: pairs of a color and the one in its place, ascending; those that stay too. Empty if
    /// all stay.
    pub recolored: Vec<(u16, u16)>,
    /// It is begun further down.
    pub turned: Option<Turned>,
}

/// Whether one set, tied over and over, is the other up to where it begins, its colors and a mirror; with as little of
/// it as can be: begun elsewhere rather than recolored, and recolored rather than mirrored. `None` if they are not the
/// same even so. (Strips that nothing joins are begun after the same number of whole sets.)
pub fn same_up_to(one: Colored<'_>, other: Colored<'_>) -> Option<UpTo> {
    if one.piece.strands() != other.piece.strands() {
        return None;
    }
    let mirror = one.piece.mirrored();
    let mirror_colors: Vec<u16> = one.start().into_iter().rev().collect();
    let mirror = Colored { piece: &mirror, colors: &mirror_colors };
    for (is_mirrored, recolor) in [(false, false), (false, true), (true, false), (true, true)] {
        let from = if is_mirrored { mirror } else { one };
        let found = as_it_is(from, other, recolor).or_else(|| begun_elsewhere(from, other, recolor));
        if let Some(found) = found {
            return Some(UpTo { mirrored: is_mirrored, ..found });
        }
    }
    None
}

fn as_it_is(one: Colored<'_>, other: Colored<'_>, recolor: bool) -> Option<UpTo> {
    let recolored = exchanged(&one.start(), &other.start(), recolor)?;
    (normal_form(one.piece) == normal_form(other.piece)).then_some(UpTo { recolored, ..UpTo::default() })
}

fn begun_elsewhere(one: Colored<'_>, other: Colored<'_>, recolor: bool) -> Option<UpTo> {
    let wanted = other.start();
    let (turned, recolored) = find_rotation(one, other.piece, |start| exchanged(start, &wanted, recolor))?;
    Some(UpTo { recolored, turned: Some(turned), mirrored: false })
}

/// The exchange of colors that makes one row of colors the other; empty if they are equal. `None` if there is none,
/// or one is needed and not allowed.
fn exchanged(one: &[u16], other: &[u16], allowed: bool) -> Option<Vec<(u16, u16)>> {
    if one == other {
        return Some(Vec::new());
    }
    let mut pairs: Vec<(u16, u16)> = one.iter().copied().zip(other.iter().copied()).collect();
    pairs.sort_unstable();
    pairs.dedup();
    let once = |of: fn(&(u16, u16)) -> u16| {
        let mut all: Vec<u16> = pairs.iter().map(of).collect();
        all.sort_unstable();
        all.windows(2).all(|two| two[0] != two[1])
    };
    (allowed && once(|pair| pair.0) && once(|pair| pair.1)).then_some(pairs)
}
