//! Edits after which a band has no hole any more. There are many that hold all the rest, and most fill no hole: so what the
//! knots say alone is asked first, and a band is only looked at as a whole if it may be offered.

use super::candidates::list_candidates;
use super::edits::EditSearch;
use super::holes;
use super::in_hand::spots;
use super::insertions::find_harmless;
use super::lie;
use super::search::{Goal, MOST_COST, MOST_MENDS, begun_last, go_through, is_added, study_goal};
use super::shape::Blemishes;
use super::torn::Torn;
use super::trial::{Choice, Look, Pieces, SiftedChoice, Trial, Workshop};
use super::words;
use crate::rules::{holes_closed_at, is_open_on_purpose};
use crate::tie::{Change, StatementEdit, Studied};
use crate::{Mend, Place};
use knotwright_band::Hole;
use rustc_hash::FxHashSet as HashSet;
use std::collections::BTreeMap;

/// Of bands that cost more to tie, the holes are counted at once: to keep their knots until somebody asks would take much room.
const MOST_WAITING: u64 = 2_000;

/// Single edits after which the band has no hole any more; the hole was found by the step at `place`.
pub(crate) fn mend_hole(goal: &Goal, place: Place) -> Vec<Mend> {
    if goal.cost > MOST_COST {
        return Vec::new();
    }
    let Some(studied) = study_goal(goal) else { return Vec::new() };
    let mut workshop = Workshop::new(goal);
    let Some(before) = workshop.blemishes(None) else { return Vec::new() };
    let closed = |look: &Look| look.sound.as_ref().map_or(Vec::new(), |sound| holes_closed_at(sound, place));
    let looked = workshop.looked_at(None, |look| (closed(look), look.pattern.clone()));
    let Some((closed, pattern)) = looked else { return Vec::new() };
    let (choices, studied) = list_choices(goal, place, studied, &closed);
    // Of knots put in at one place all lie alike, whatever their kind, if no step looks at colors and none at a label.
    let is_blind = !studied.reads_strands() && !workshop.promises_a_face();
    let mut band = Torn::new(*goal, pattern);
    let mut workshop = workshop.knowing(studied);
    let before_edits = band.pieces();
    let waits = goal.cost <= MOST_WAITING;
    let mut fillings = Vec::new();
    let mut in_vain = HashSet::default();
    for choice in choices {
        if !workshop.affords(1) {
            break;
        }
        let spots = spots_of(&choice.choice).filter(|_| is_blind);
        if spots.as_ref().is_some_and(|spots| in_vain.contains(spots)) {
            continue;
        }
        let tied = workshop.knots_of(choice, &before_edits);
        let Some((trial, pieces)) = tied.filter(|(trial, _)| trial.closes) else { continue };
        let is_filled = (!waits || spots.is_some()).then(|| band.is_filled(&pieces));
        match is_filled {
            Some(false) => in_vain.extend(spots),
            _ => fillings.push(Filling { trial, pieces, is_filled: is_filled.is_some(), band: None }),
        }
    }
    let best = best(&mut workshop, &mut band, fillings, before);
    best.iter().map(|choice| words::no_hole(goal, choice)).collect()
}

/// Everything that may be edited near a hole, the nearest first, without what only a tie of the whole shows to break something
/// else.
fn list_choices(
    goal: &Goal,
    place: Place,
    studied: Studied,
    closed: &[Hole],
) -> (Vec<SiftedChoice>, Studied) {
    let near = holes::is_near(goal.script, &studied, place);
    let age = |start: u32| near(begun_last(&studied, start)?);
    let mut all = list_candidates(goal.script, goal.facts, goal.given_up, age);
    all.retain(|candidate| !candidate.keeps_knots_in_place());
    let search = EditSearch::new(all, studied, goal.given_up.clone()).keeping_knots();
    let (kept, studied, _) = go_through(goal, search);
    let filling = holes::fill_hole(goal.script, &studied, place, closed).into_iter();
    // A strand that is tied nowhere may be missing in a run, wherever that is.
    let runs = match holes::is_somewhere(goal.script, &studied, place) {
        true => Vec::new(),
        false => find_harmless(goal, &studied, goal.closes.is_some() && !is_open_on_purpose(goal.script)),
    };
    let filling = filling.map(|candidate| SiftedChoice::unsure(Choice::Step(candidate)));
    let kept = kept.into_iter().chain(runs).filter(|kept| kept.closes);
    let mut choices: Vec<SiftedChoice> =
        kept.map(|kept| SiftedChoice::edit(goal, kept)).chain(filling).collect();
    choices.sort_by_key(|sifted| sifted.choice.near());
    (choices, studied)
}

/// Where knots are put in: the statement, whether they come after it, and between which strands.
fn spots_of(choice: &Choice) -> Option<(u32, bool, Vec<u8>)> {
    let Choice::Step(candidate) = choice else { return None };
    let Change::Statement(edit) = candidate.overlay.change else { return None };
    let (added, is_after) = match edit {
        StatementEdit::Before(added) => (added, false),
        StatementEdit::After(added) => (added, true),
        _ => return None,
    };
    let spots = spots(added).filter(|_| !added.both)?;
    Some((candidate.statement, is_after, spots))
}

/// An edit that may fill a hole.
struct Filling {
    trial: Trial,
    pieces: Pieces,
    /// Whether it is known that its knots fill one.
    is_filled: bool,
    /// What distinguishes its band from others, once that was found.
    band: Option<u64>,
}

/// The order in which they are offered; the less, the better.
type FillingOrder = (usize, bool, u8, usize, usize, i32, u8);

fn order(workshop: &Workshop, choice: &Choice, found: &Blemishes) -> FillingOrder {
    let (warnings, unlike, empty, lopsided, _, fit, size) = workshop.order(choice, found);
    (warnings, leaves_out(choice), unlike, empty, lopsided, fit, size)
}

/// Where it comes at the earliest with this many empty places.
fn earliest(choice: &Choice, empty: usize) -> FillingOrder {
    (0, leaves_out(choice), choice.unlike(i32::MAX), empty + choice.odds(), 0, i32::MIN, 0)
}

/// A hole is where something is missing.
fn leaves_out(choice: &Choice) -> bool {
    matches!(choice, Choice::Step(candidate) if candidate.leaves_out())
}

/// Those that leave fewer warnings, as many as are offered, the best first. Each is looked at no further than to see that it
/// comes behind these: most fill no hole.
fn best(workshop: &mut Workshop, torn: &mut Torn, fillings: Vec<Filling>, before: Blemishes) -> Vec<Choice> {
    let at_first = |(number, filling): (usize, Filling)| {
        let empty = lie::empty_places(filling.pieces.iter().flatten());
        ((earliest(&filling.trial.choice, empty), number), filling)
    };
    let mut waiting: BTreeMap<_, _> = fillings.into_iter().enumerate().map(at_first).collect();
    // Of steps that may be put in at many places, with the same band, one is enough.
    let mut seen = HashSet::default();
    let mut kept: Vec<(FillingOrder, Choice)> = Vec::new();
    while let Some(((key, number), filling)) = waiting.pop_first() {
        // A closer look finds no less: what comes after enough others so, comes after them all the same.
        if kept.get(MOST_MENDS - 1).is_some_and(|last| last.0 <= key) {
            break;
        }
        let Some(band) = filling.band else {
            if filling.is_filled || torn.is_filled(&filling.pieces) {
                let found = Blemishes::of_pieces(filling.pieces.iter().flatten());
                let key = order(workshop, &filling.trial.choice, &found);
                waiting.insert((key, number), Filling { band: Some(found.band), ..filling });
            }
            continue;
        };
        let trial = filling.trial;
        if is_added(&trial.choice) && !seen.insert(band) {
            continue;
        }
        let found = workshop.blemishes_below(&trial.choice, before.holes);
        if let Some(found) = found.filter(|found| found.warnings < before.warnings) {
            let key = order(workshop, &trial.choice, &found);
            let at = kept.partition_point(|other| other.0 <= key);
            kept.insert(at, (key, trial.choice));
        }
    }
    kept.into_iter().take(MOST_MENDS).map(|kept| kept.1).collect()
}
