//! A band with an edit of which it is known what knots it ties, and that nothing else is tied otherwise: nothing has to be tied
//! to know the rest.

use super::candidates::Candidate;
use super::edits::{KnownKnots, OtherKnots, PartKnots};
use super::holes::gap_of;
use super::in_hand::spots;
use super::lie::{KnotsLie, empty_places_with, is_torn_below, lie_of_parts, lie_of_piece, lie_with};
use super::trial::{Choice, Pieces};
use crate::tie::{Added, Change, PartStudy, Passing, StatementEdit, Studied, kind_of};
use knotwright_band::{Kind, Knot, Piece};
use knotwright_grammar::tree::KnotKind;
use knotwright_numbers::ToNumber;
use std::borrow::Cow;
use std::cell::OnceCell;

/// The pieces with the knots of an edit put in, which are `before` without it. `None` if colors may hang otherwise then, or
/// the pieces have straight rows.
pub(super) fn splice(candidate: &Candidate, studied: &Studied, before: &Pieces) -> Option<Pieces> {
    let (added, is_after) = added(candidate)?;
    let mut pieces = before.clone();
    for (part, piece) in studied.parts.iter().zip(&mut pieces) {
        if let (Some(passes), Some(piece)) = (passes_of(part, candidate, is_after), piece) {
            if !piece.straight().is_empty() || !passes.iter().all(|pass| keeps_colors(part, pass, added)) {
                return None;
            }
            *piece = with(piece, &knots_added(passes, added)?)?;
        }
    }
    Some(pieces)
}

/// The step that is put in, and whether it comes after its statement.
pub(super) fn added(candidate: &Candidate) -> Option<(Added, bool)> {
    match candidate.overlay.change {
        Change::Statement(StatementEdit::Before(added)) => Some((added, false)),
        Change::Statement(StatementEdit::After(added)) => Some((added, true)),
        _ => None,
    }
}

/// The times that a place is passed: before the statement of an edit, or after it. `None` if it is in another part.
pub(super) fn passes_of<'s>(
    part: &'s PartStudy,
    candidate: &Candidate,
    is_after: bool,
) -> Option<&'s [Passing]> {
    let passes = if is_after { &part.ended } else { &part.begun };
    passes.get(&candidate.statement).map(Vec::as_slice)
}

/// The pieces, which are `before` without an edit, with what it ties otherwise. `None` if the piece has straight rows, or
/// strands hang elsewhere in it than they were tied.
pub(super) fn replace(PartKnots { part, others }: &PartKnots, before: &Pieces) -> Option<Pieces> {
    let piece = before[*part].as_ref().filter(|piece| is_plain(piece))?;
    let mut pieces = before.clone();
    pieces[*part] = Some(with(piece, others)?);
    Some(pieces)
}

/// Whether a piece is told by its knots alone.
fn is_plain(piece: &Piece) -> bool {
    !piece.is_rehung() && piece.straight().is_empty() && piece.joins().is_empty()
}

/// A piece with these knots in place of others.
fn with(piece: &Piece, others: &[OtherKnots]) -> Option<Piece> {
    let all = piece.knots();
    let step = |knot: &Knot| (knot.gap, knot.kind);
    let mut steps =
        Vec::with_capacity(all.len() + others.iter().map(|other| other.knots.len()).sum::<usize>());
    let mut done = 0;
    for other in others {
        steps.extend(all.get(done..other.instead_of.start)?.iter().map(step));
        steps.extend_from_slice(&other.knots);
        done = other.instead_of.end;
    }
    steps.extend(all.get(done..)?.iter().map(step));
    Piece::tie(piece.strands(), steps).ok()
}

/// What a step ties each time that its place is passed. `None` if it does not fit there.
fn knots_added(passes: &[Passing], added: Added) -> Option<Vec<OtherKnots>> {
    let kinds = added.runs.runs().flat_map(|(kind, count)| std::iter::repeat_n(kind_of(kind), count.into()));
    let own: Vec<(u8, Kind)> = spots(added)?.into_iter().zip(kinds).collect();
    let each = |pass: &Passing| {
        let at = pass.knots.to_usize();
        let mut knots = Vec::with_capacity(own.len() * if added.both { 2 } else { 1 });
        for pass in
            [*pass, Passing { mirrored: !pass.mirrored, ..*pass }].iter().take(1 + usize::from(added.both))
        {
            // In a mirror, two that meet are tied as they are outside of it.
            let turns = pass.mirrored && !added.meets;
            let seen =
                |&(spot, kind): &(u8, Kind)| (gap_of(pass, spot), if turns { kind.mirrored() } else { kind });
            knots.extend(own.iter().map(seen));
        }
        (Some(pass.width()) == added.width).then_some(OtherKnots { instead_of: at..at, knots })
    };
    passes.iter().map(each).collect()
}

/// How the band lies without an edit.
pub(super) struct LaidBand {
    pub(super) pieces: Pieces,
    /// By part, how many places are empty.
    empty: [usize; 3],
    /// By part, how it lies, once somebody has asked for it.
    lies: OnceCell<[Option<u64>; 3]>,
}

impl LaidBand {
    /// `None` if what was studied is not what is tied.
    pub(super) fn of(studied: &Studied) -> Option<Self> {
        let pieces = studied.parts.each_ref().map(|part| part.piece.clone());
        let is_as_tied = studied.is_as_tied() && !pieces.iter().flatten().any(Piece::is_rehung);
        is_as_tied.then(|| Self::of_pieces(pieces))
    }

    pub(super) fn of_pieces(pieces: Pieces) -> Self {
        // Where an `expect` fails, others hang from there on; with the edit it does not fail.
        let empty = |piece: &Option<Piece>| empty_places_with(piece.as_ref()?, &[]);
        let empty = pieces.each_ref().map(|piece| empty(piece).unwrap_or_default());
        Self { empty, pieces, lies: OnceCell::new() }
    }

    /// How many places are empty with what an edit ties.
    pub(super) fn empty_places_with(&self, PartKnots { part, others }: &PartKnots) -> Option<usize> {
        let own = empty_places_with(self.pieces[*part].as_ref()?, others)?;
        Some(self.empty.iter().sum::<usize>() - self.empty[*part] + own)
    }

    /// How the band lies with what an edit ties.
    pub(super) fn lie_with(&self, PartKnots { part, others }: &PartKnots) -> Option<KnotsLie> {
        let (above, piece) = (self.pieces[..*part].iter().flatten(), self.pieces[*part].as_ref()?);
        let own = lie_with(piece, others)?;
        let is_torn = match above.clone().all(|above| above.knots().is_empty()) {
            true => own.is_torn,
            false => is_torn_below(above, piece, others),
        };
        let each = |piece: &Option<Piece>| piece.as_ref().map(lie_of_piece);
        let mut lies = *self.lies.get_or_init(|| self.pieces.each_ref().map(each));
        lies[*part] = Some(own.lie);
        Some(KnotsLie { lie: lie_of_parts(lies), is_torn })
    }
}

/// What an edit ties, if that is known.
pub(super) fn known_knots<'k>(
    choice: &Choice,
    known: &'k KnownKnots,
    studied: &Studied,
) -> Option<Cow<'k, PartKnots>> {
    let Choice::Step(candidate) = choice else { return None };
    match known {
        KnownKnots::None | KnownKnots::Lie(_) => None,
        KnownKnots::Others(others) => Some(Cow::Borrowed(others)),
        KnownKnots::Added => added_knots(candidate, studied).map(Cow::Owned),
    }
}

/// What a step that is put in ties, each time that its place is passed. `None` if it does not fit there.
pub(super) fn added_knots(candidate: &Candidate, studied: &Studied) -> Option<PartKnots> {
    let (added, is_after) = added(candidate)?;
    let mut all = studied.parts.iter().enumerate();
    let (part, passes) =
        all.find_map(|(number, part)| Some((number, passes_of(part, candidate, is_after)?)))?;
    Some(PartKnots { part, others: knots_added(passes, added)? })
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
