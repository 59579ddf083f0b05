//! Single edits after which a picture is symmetric that nearly is.

use super::candidates::{Around, Candidate, What, list_around, list_candidates};
use super::edits::KeptEdit;
use super::holes;
use super::search::{Goal, MOST_COST, MOST_MENDS, begun_last, search_mends, study_goal};
use super::shape::{Blemishes, KnownBands};
use super::trial::{Choice, Look, SiftedChoice, Trial, Workshop};
use super::words;
use crate::reflection::mirrored_mark;
use crate::uneven::find_uneven;
use crate::{FileId, Finding, Mend, PartKind, Place};
use knotwright_band::{Face, FaceSpot, Symmetry};
use knotwright_grammar::tree::Sign;
use std::cmp::Reverse;

/// The most edits after which all holds and whose band is looked at.
const MOST_LOOKS: usize = 60;

/// Edits after which the picture has the symmetry that `finding` says it nearly has.
pub(crate) fn mend_symmetry(goal: &Goal, finding: &Finding) -> Vec<Mend> {
    if goal.cost > MOST_COST {
        return Vec::new();
    }
    let (Some(studied), mut workshop) = (study_goal(goal), Workshop::new(goal)) else { return Vec::new() };
    let near = holes::is_near(goal.script, &studied, finding.place);
    let places: Vec<Place> =
        std::iter::once(finding.place).chain(finding.notes.iter().map(|note| note.place)).collect();
    let mut all =
        list_candidates(goal.script, goal.facts, goal.given_up, |start| near(begun_last(&studied, start)?));
    all.retain(|candidate| is_worth_trying(candidate, &places));
    let mut kept = search_mends(goal, all, studied);
    kept.retain(|kept| kept.closes);
    kept.sort_by_key(|KeptEdit { candidate, .. }| (far(candidate, &places), candidate.age, candidate.size));
    let mut known = KnownBands::default();
    let before = workshop.looked_at(None, |look| Picture::of(look, &mut known));
    let Some(Some(before)) = before else { return Vec::new() };
    let mut found = Vec::new();
    for kept in kept.into_iter().take(MOST_LOOKS) {
        if !workshop.affords(1) {
            break;
        }
        let Some(trial) = workshop.judge(SiftedChoice::edit(goal, kept)).filter(|trial| trial.closes) else {
            continue;
        };
        let now = workshop.looked_at(Some(&trial.choice), |look| before.mended(look, &mut known));
        found.extend(now.flatten().map(|rank| (rank, trial)));
    }
    found.sort_by_cached_key(|((missing, warnings, likeness), trial)| {
        let choice = &trial.choice;
        // Of a leader's marks, what is seen says more than how they stand.
        let fit = if choice.leads() { 0 } else { workshop.gain(choice) };
        (*missing, *warnings, choice.takes_away(), Reverse(fit), *likeness, choice.odds(), choice.near())
    });
    let mends = found.iter().map(|(_, trial): &(_, Trial)| words::mend_symmetry(goal, &trial.choice));
    mends.take(MOST_MENDS).collect()
}

/// In a leader's chart a mark only changes its own knot: only those are tried that are off.
fn is_worth_trying(candidate: &Candidate, places: &[Place]) -> bool {
    match candidate.what {
        What::Mark { written, read } if Sign::Hash == written || Sign::Hash == read => {
            places.contains(&candidate.overlay.place)
        }
        _ => true,
    }
}

/// How far a candidate stands from the nearest place that is off, in signs.
fn far(candidate: &Candidate, places: &[Place]) -> u32 {
    let span = candidate.overlay.place.span;
    let apart = |place: &Place| match () {
        () if place.span.end < span.start => span.start - place.span.end,
        () => place.span.start.saturating_sub(span.end),
    };
    places.iter().filter(|place| place.file == FileId::CHECKED).map(apart).min().unwrap_or(u32::MAX)
}

/// A mark of a chart as its counterpart in the mirror asks for it, or the other way round; only if all the rest holds.
pub(crate) fn mend_chart(goal: &Goal, finding: &Finding) -> Vec<Mend> {
    let [note, ..] = &finding.notes[..] else { return Vec::new() };
    let places = [finding.place, note.place];
    let text = &goal.script.source().text;
    let asked = |place: Place| mirrored_mark(place.span.of(text));
    let wanted = [(places[0], asked(places[1])), (places[1], asked(places[0]))];
    let mut workshop = Workshop::new(goal);
    let around = Around::of(goal.script, goal.facts);
    let mut all = list_around(goal.script, &around, goal.given_up, |_| Some(0));
    all.retain(|candidate| {
        matches!(candidate.what, What::Mark { .. }) && places.contains(&candidate.overlay.place)
    });
    let mut trials = Vec::new();
    for (place, sign) in wanted {
        let is_wanted = |candidate: &&Candidate| {
            let edits = words::write_candidate(goal.script, candidate).edits;
            candidate.overlay.place == place && edits.first().map(|edit| edit.1.as_str()) == sign
        };
        let Some(&candidate) = all.iter().find(is_wanted).filter(|_| workshop.affords(1)) else { continue };
        trials.extend(workshop.tried(Choice::Step(candidate), 0).filter(|trial| trial.closes));
    }
    trials.sort_by_cached_key(|Trial { choice, .. }| (choice.takes_away(), Reverse(workshop.gain(choice))));
    trials.iter().map(|trial| words::mirrored_chart(goal, &trial.choice)).collect()
}

/// A picture that is nearly symmetric.
struct Picture {
    kind: PartKind,
    face: Face,
    near: Vec<Symmetry>,
    off: Vec<FaceSpot>,
    warnings: usize,
}

/// Less is better: symmetries that are still not there, other warnings, and how little the picture fits together.
type PictureRank = (usize, usize, Reverse<u32>);

impl Picture {
    fn of(look: &Look, known: &mut KnownBands) -> Option<Self> {
        let sound = look.sound.as_ref()?;
        let first = find_uneven(|kind| sound.seen(kind)).into_iter().next()?;
        let off = first.face.off(*first.near.first()?);
        let warnings = Blemishes::of(look, known).warnings;
        Some(Self { kind: first.kind, face: first.face.clone(), near: first.near, off, warnings })
    }

    /// How good the picture is that came of an edit; `None` if it has no more symmetries than before, or something
    /// else is worse.
    fn mended(&self, look: &Look, known: &mut KnownBands) -> Option<PictureRank> {
        let seen = look.sound.as_ref()?.seen(self.kind)?;
        let face = &seen.face;
        let is_same_size = (face.rows(), face.gaps()) == (self.face.rows(), self.face.gaps());
        let is_turned =
            |near: &&Symmetry| seen.symmetries().exact.iter().any(|exact| exact.turning == near.turning);
        let has = match is_same_size {
            true => face.symmetric_by(&self.near),
            false => self.near.iter().filter(is_turned).count(),
        };
        if has == 0 {
            return None;
        }
        let warnings = Blemishes::of(look, known).warnings;
        let likeness = if is_same_size { face.likeness(&self.off) } else { 0 };
        (warnings < self.warnings).then_some((self.near.len() - has, warnings, Reverse(likeness)))
    }
}
