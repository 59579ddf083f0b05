//! A band with an edit of which it is known what knots it ties, and that nothing else is tied otherwise: nothing has to be tied
//! to know the rest.

use super::candidates::Candidate;
use super::edits::PartKnots;
use super::holes::gap_of;
use super::in_hand::spots;
use super::trial::Pieces;
use crate::tie::{Added, Change, PartStudy, Passing, StatementEdit, Studied, kind_of};
use knotwright_band::{Kind, Piece};
use knotwright_grammar::tree::KnotKind;
use knotwright_numbers::ToNumber;

/// The pieces with the knots of an edit put in, which are `before` without it. `None` if colors may hang otherwise then, or
/// the pieces have straight rows.
pub(super) fn splice(candidate: &Candidate, studied: &Studied, before: &Pieces) -> Option<Pieces> {
    let Change::Statement(edit) = candidate.overlay.change else { return None };
    let (added, is_after) = match edit {
        StatementEdit::Before(added) => (added, false),
        StatementEdit::After(added) => (added, true),
        _ => return None,
    };
    let mut pieces = before.clone();
    for (part, piece) in studied.parts.iter().zip(&mut pieces) {
        let passes = if is_after { &part.ended } else { &part.begun };
        if let (Some(passes), Some(piece)) = (passes.get(&candidate.statement), piece) {
            *piece = put_in(piece, part, passes, added)?;
        }
    }
    Some(pieces)
}

/// The pieces, which are `before` without an edit, with what it ties otherwise. `None` if the piece has straight rows, or
/// strands hang elsewhere in it than they were tied.
pub(super) fn replace(PartKnots { part, others }: &PartKnots, before: &Pieces) -> Option<Pieces> {
    let piece = before[*part].as_ref()?;
    if piece.is_rehung() || !piece.straight().is_empty() || !piece.joins().is_empty() {
        return None;
    }
    let all: Vec<(u8, Kind)> = piece.steps().collect();
    let mut steps = Vec::with_capacity(2 * all.len());
    let mut done = 0;
    for other in others {
        steps.extend_from_slice(all.get(done..other.instead_of.start)?);
        steps.extend_from_slice(&other.knots);
        done = other.instead_of.end;
    }
    steps.extend_from_slice(all.get(done..)?);
    let mut pieces = before.clone();
    pieces[*part] = Some(Piece::tie(piece.strands(), steps).ok()?);
    Some(pieces)
}

fn put_in(piece: &Piece, part: &PartStudy, passes: &[Passing], added: Added) -> Option<Piece> {
    let spots = &spots(added)?;
    if !piece.straight().is_empty() {
        return None;
    }
    let mut steps: Vec<(u8, Kind)> = Vec::with_capacity(piece.knots().len() + 2 * spots.len() * passes.len());
    let mut own = piece.steps();
    for pass in passes {
        if Some(pass.width()) != added.width || !keeps_colors(part, pass, added) {
            return None;
        }
        let missing = (pass.knots.to_usize()).checked_sub(piece.knots().len() - own.len())?;
        steps.extend(own.by_ref().take(missing));
        steps.extend(knots(added, spots, pass));
        if added.both {
            steps.extend(knots(added, spots, &Passing { mirrored: !pass.mirrored, ..*pass }));
        }
    }
    steps.extend(own);
    Piece::tie(piece.strands(), steps).ok()
}

/// The knots of a step, each with its gap, as they are seen from the front of the band.
fn knots<'k>(added: Added, spots: &'k [u8], pass: &'k Passing) -> impl Iterator<Item = (u8, Kind)> + 'k {
    let kinds = added.runs.runs().flat_map(|(kind, count)| std::iter::repeat_n(kind_of(kind), count.into()));
    // In a mirror, two that meet are tied as they are outside of it.
    let turns = pass.mirrored && !added.meets;
    let kinds: Vec<Kind> = kinds.map(|kind| if turns { kind.mirrored() } else { kind }).collect();
    spots.iter().map(|&spot| gap_of(pass, spot)).zip(kinds)
}

/// Whether the colors hang as before once the knots are tied.
fn keeps_colors(part: &PartStudy, pass: &Passing, added: Added) -> bool {
    let Some(order) = part.order(pass) else { return false };
    let (low, high) = (usize::from(pass.within.0), usize::from(pass.within.1));
    let mut colors: Vec<u16> =
        order[low..=high].iter().map(|&strand| part.threads[usize::from(strand)]).collect();
    if pass.mirrored {
        colors.reverse();
    }
    let before = colors.clone();
    for is_turned in [false, true].into_iter().take(1 + usize::from(added.both)) {
        if is_turned {
            colors.reverse();
        }
        let mut at = usize::from(added.at) - 1;
        for (kind, count) in added.runs.runs() {
            for _ in 0..count {
                let next = match kind {
                    KnotKind::Forward => at + 1,
                    KnotKind::Backward => at - 1,
                    KnotKind::ForwardBackward | KnotKind::BackwardForward => at,
                };
                colors.swap(at, next);
                at = next;
            }
        }
        if is_turned {
            colors.reverse();
        }
    }
    colors == before
}
