//! A band before and after, with the knots marked that are different.

use super::{ChangeKind, ReviewRow};
use crate::compared::{Compared, PartChange};
use knotwright_band::Layout;
use knotwright_checker::{PartKind, Pattern};
use knotwright_maker::scripted_to_see;
use knotwright_numbers::ToNumber;
use knotwright_render::{Scene, SvgOptions, draw_svg};
use serde::Serialize;

/// Something of the picture before and of the one after: the picture itself, or where it is.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub(crate) struct Pictures {
    pub(crate) before: Option<String>,
    pub(crate) after: Option<String>,
}

/// Enough rows to see how a band goes on.
const ROWS_TO_SEE: u32 = 24;

/// More sets are not drawn.
const MOST_SETS: u32 = 3;

/// The pictures, as SVG, of a band that is new, gone or another one.
pub(crate) fn drawn(row: &ReviewRow) -> Option<Pictures> {
    let is_seen = row.kind.is_another_band() || matches!(row.kind, ChangeKind::Added | ChangeKind::Mended);
    let [before, after] = row.bands();
    if !is_seen || (before.is_none() && after.is_none()) {
        return None;
    }
    let sets = [before, after].into_iter().flatten().map(|band| sets(&band.pattern)).max().unwrap_or(1);
    let picture = |side: usize, of: Option<&crate::bands::BandFile>| {
        Some(picture(&of?.pattern, sets, row.compared().map(|compared| (compared, side))))
    };
    Some(Pictures { before: picture(0, before).flatten(), after: picture(1, after).flatten() })
}

fn sets(pattern: &Pattern) -> u32 {
    let rows = pattern.set.as_ref().and_then(|set| Layout::of(&set.piece).rows.into_iter().max());
    (ROWS_TO_SEE / rows.map_or(1, |row| row + 1)).clamp(1, MOST_SETS)
}

/// None if it cannot be drawn.
fn picture(pattern: &Pattern, sets: u32, compared: Option<(&Compared, usize)>) -> Option<String> {
    let script = scripted_to_see(pattern, Some(sets), None).ok()?;
    let band = script.band();
    let lengths: Vec<usize> = band.parts.iter().map(|part| part.piece.knots().len()).collect();
    let marked = compared.map(|(of, side)| marked(of, side, &lengths)).unwrap_or_default();
    Some(draw_svg(&Scene::of(&band), &SvgOptions { marked, ..SvgOptions::default() }))
}

/// The numbers, in the whole band, of the knots of one side that the other has not. `lengths`: by part as it is tied, how
/// many knots it has.
fn marked(compared: &Compared, side: usize, lengths: &[usize]) -> Vec<usize> {
    let pattern = &[&compared.one, &compared.other][side].pattern;
    let mut parts: Vec<PartKind> = vec![PartKind::Set; lengths.len()];
    if let (Some(first), true) = (parts.first_mut(), pattern.opening.is_some()) {
        *first = PartKind::Opening;
    }
    if let (Some(last), true) = (parts.last_mut(), pattern.closing.is_some()) {
        *last = PartKind::Closing;
    }
    let (mut marked, mut first, mut is_first_set) = (Vec::new(), 0, true);
    for (part, length) in parts.into_iter().zip(lengths) {
        let change = compared.parts.iter().find(|change| change.part == part);
        // Sets that pick by color are not all like the first one.
        let is_like = part != PartKind::Set || is_first_set || !pattern.picks_by_color;
        is_first_set &= part != PartKind::Set;
        if let Some(change) = change.filter(|change| is_like && change.pieces[side].knots().len() == *length)
        {
            marked.extend(different(change, side).into_iter().map(|number| first + number.to_usize()));
        }
        first += length;
    }
    marked
}

fn different(change: &PartChange, side: usize) -> Vec<u32> {
    let edits = &change.edits;
    let alone = if side == 0 { &edits.removed } else { &edits.added };
    let both = edits.changed.iter().chain(&edits.moved);
    let both = both.map(|&(one, other)| if side == 0 { one } else { other });
    let mut numbers: Vec<u32> = alone.iter().copied().chain(both).collect();
    numbers.sort_unstable();
    numbers
}
