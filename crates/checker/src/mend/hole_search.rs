//! Edits after which a band has no hole any more. There are many that hold all the rest, and most fill no hole: so what the
//! knots say alone is asked first, and a band is only looked at as a whole if it may be offered.

use super::candidates::{Candidate, list_candidates};
use super::edits::EditSearch;
use super::filling::FillingSieve;
use super::holes;
use super::in_hand::spots;
use super::insertions::find_harmless;
use super::lie;
use super::search::{Goal, MOST_COST, MOST_MENDS, begun_last, go_through, is_added, study_goal};
use super::shape::{Blemishes, KnownBands, is_far_worse};
use super::splice::{LaidBand, added};
use super::torn::Torn;
use super::trial::{Choice, ChoiceOrder, FIRST_ADDED, FIRST_LINE, Pieces, SiftedChoice, Workshop};
use super::words;
use crate::rules::{holes_closed_at, is_open_on_purpose};
use crate::tie::Studied;
use crate::{Mend, Pattern, Place};
use knotwright_band::Hole;
use rustc_hash::FxHashSet as HashSet;
use std::collections::BTreeMap;
use std::rc::Rc;

/// Of bands that cost more to tie, the holes are counted at once: to keep their knots until somebody asks would take much room.
const MOST_WAITING: u64 = 2_000;

/// Single edits after which the band has no hole any more; the hole was found by the step at `place`.
pub(crate) fn mend_hole(goal: &Goal, place: Place) -> Vec<Mend> {
    if goal.cost > MOST_COST {
        return Vec::new();
    }
    let Some(studied) = study_goal(goal).map(Rc::new) else { return Vec::new() };
    let looked = Workshop::new(goal).looked_at(None, |look| {
        let closed = look.sound.as_ref().map_or(Vec::new(), |sound| holes_closed_at(sound, place));
        (Blemishes::of(look, &mut KnownBands::default()), closed, look.pattern.clone())
    });
    let Some((before, closed, pattern)) = looked else { return Vec::new() };
    // A row may be put in so that a chart has as many as those beside it: that comes before all else.
    let is_likely = |candidate: &Candidate| candidate.is_word() || candidate.is_row();
    let edits = NearEdits::of(goal, place, &studied);
    let mut filler = Filler::new(goal, &studied, pattern, before);
    filler.try_all(edits.sift(is_likely));
    // People write a wrong word more often than a wrong line, and a wrong line more often than they forget one.
    if filler.may_come_first(FIRST_LINE) {
        let is_line = |candidate: &Candidate| !is_likely(candidate) && !candidate.is_added();
        filler.try_all(edits.sift(is_line));
    }
    if filler.may_come_first(FIRST_ADDED) {
        filler.try_all(list_added(&edits, place, &closed));
    }
    filler.best().map(|choice| words::no_hole(goal, choice)).collect()
}

/// All edits near a hole.
struct NearEdits<'a> {
    goal: &'a Goal<'a>,
    studied: &'a Rc<Studied>,
    all: Vec<Candidate>,
}

impl<'a> NearEdits<'a> {
    fn of(goal: &'a Goal<'a>, place: Place, studied: &'a Rc<Studied>) -> Self {
        let near = holes::is_near(goal.script, studied, place);
        let age = |start: u32| near(begun_last(studied, start)?);
        let mut all = list_candidates(goal.script, goal.facts, goal.given_up, age);
        all.retain(|candidate| !candidate.keeps_knots_in_place());
        Self { goal, studied, all }
    }

    /// Those that are sought, without what only a tie of the whole shows to break something else.
    fn sift(&self, is_sought: impl Fn(&Candidate) -> bool) -> Vec<SiftedChoice> {
        let sought = self.all.iter().copied().filter(is_sought).collect();
        let search = EditSearch::new(sought, Rc::clone(self.studied), self.goal.given_up.clone());
        let (kept, _) = go_through(self.goal, search.keeping_knots());
        let kept = kept.into_iter().filter(|kept| kept.closes);
        kept.map(|kept| SiftedChoice::edit(self.goal, kept)).collect()
    }
}

/// Everything that may be put in near a hole: what stands there already, and knots.
fn list_added(edits: &NearEdits, place: Place, closed: &[Hole]) -> Vec<SiftedChoice> {
    let NearEdits { goal, studied, .. } = *edits;
    let copies = edits.sift(Candidate::is_added).into_iter();
    let filling = holes::fill_hole(goal.script, studied, place, closed).into_iter();
    // A strand that is tied nowhere may be missing in a run, wherever that is.
    let runs = match holes::is_somewhere(goal.script, studied, place) {
        true => Vec::new(),
        false => find_harmless(goal, studied, goal.closes.is_some() && !is_open_on_purpose(goal.script)),
    };
    let runs = runs.into_iter().filter(|run| run.closes).map(|kept| SiftedChoice::edit(goal, kept));
    let mut sieve = FillingSieve::of(studied);
    let filling = filling.filter_map(|candidate| sieve.sift(candidate)).filter(|sifted| sifted.closes);
    copies.chain(runs).chain(filling).collect()
}

/// Where knots are put in: the statement, whether they come after it, and between which strands.
type KnotSpots = (u32, bool, Vec<u8>);

fn spots_of(choice: &Choice) -> Option<KnotSpots> {
    let Choice::Step(candidate) = choice else { return None };
    let (added, is_after) = added(candidate)?;
    let spots = spots(added).filter(|_| !added.both)?;
    Some((candidate.statement, is_after, spots))
}

/// An edit that may fill a hole.
enum Filling {
    /// How many places are empty with it was foreseen, and nothing is tied yet.
    Foreseen(SiftedChoice),
    /// With its knots; whether it is known that they fill a hole.
    Tied(Choice, Pieces, bool),
    /// What distinguishes its band from others.
    Filled(Choice, u64),
}

/// The order in which they are offered; the less, the better, and what stands first weighs most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct FillingOrder {
    warnings: usize,
    leaves_out: bool,
    unlike: u8,
    empty: usize,
    lopsided: usize,
    misfit: i32,
    size: u8,
}

/// A hole is where something is missing: so what leaves out a step comes behind. How far it is from the hole, matters less.
fn filling_order(order: ChoiceOrder, leaves_out: bool) -> FillingOrder {
    let ChoiceOrder { warnings, unlike, empty, lopsided, age: _, misfit, size } = order;
    FillingOrder { warnings, leaves_out, unlike, empty, lopsided, misfit, size }
}

/// Where it comes at the earliest with this many empty places.
fn earliest(choice: &Choice, empty: usize) -> FillingOrder {
    FillingOrder {
        warnings: 0,
        leaves_out: leaves_out(choice),
        unlike: choice.unlike(i32::MAX),
        empty: empty + choice.odds(),
        lopsided: 0,
        misfit: i32::MIN,
        size: 0,
    }
}

fn leaves_out(choice: &Choice) -> bool {
    matches!(choice, Choice::Step(candidate) if candidate.leaves_out())
}

/// Tries what may fill a hole.
struct Filler<'a> {
    workshop: Workshop<'a>,
    studied: &'a Studied,
    band: Torn<'a>,
    /// How it lies without an edit.
    laid: LaidBand,
    /// How the band looks without an edit.
    before: Blemishes,
    /// Whether of knots put in at one place all lie alike, whatever their kind: no step looks at colors, and none at a label.
    is_blind: bool,
    /// Whether the holes are only counted when somebody asks.
    waits: bool,
    /// Where no knots fill a hole.
    in_vain: HashSet<KnotSpots>,
    /// What was put in: of steps that may stand at many places, with the same band, one is enough.
    seen: HashSet<u64>,
    /// Those that leave fewer warnings, the best first.
    kept: Vec<(FillingOrder, Choice)>,
}

impl<'a> Filler<'a> {
    fn new(goal: &Goal<'a>, studied: &'a Studied, pattern: Pattern, before: Blemishes) -> Self {
        let (workshop, band) = (Workshop::new(goal).knowing(studied), Torn::new(*goal, pattern));
        Self {
            is_blind: !studied.reads_strands() && !workshop.promises_a_face(),
            workshop,
            studied,
            laid: LaidBand::of_pieces(band.pieces()),
            band,
            before,
            waits: goal.cost <= MOST_WAITING,
            in_vain: HashSet::default(),
            seen: HashSet::default(),
            kept: Vec::new(),
        }
    }

    /// Whether what comes there at the earliest may come before all that was tried.
    fn may_come_first(&self, earliest: ChoiceOrder) -> bool {
        self.kept.first().is_none_or(|first| first.0 >= filling_order(earliest, false))
    }

    /// Those that are offered, the best first.
    fn best(&self) -> impl Iterator<Item = &Choice> {
        let is_near = |kept: &&(FillingOrder, Choice)| !is_far_worse(kept.0.empty, self.kept[0].0.empty);
        self.kept.iter().filter(is_near).take(MOST_MENDS).map(|kept| &kept.1)
    }

    /// Keeps of them as many as are offered.
    fn try_all(&mut self, mut choices: Vec<SiftedChoice>) {
        choices.sort_by_key(|sifted| sifted.choice.near());
        let mut fillings = Vec::new();
        for choice in choices {
            if !self.workshop.affords(1) {
                break;
            }
            let spots = spots_of(&choice.choice).filter(|_| self.is_blind);
            if spots.as_ref().is_some_and(|spots| self.in_vain.contains(spots)) {
                continue;
            }
            // A long band is not laid for each of its edits.
            let foresee = || self.laid.empty_places_with(&choice.choice, &choice.known, self.studied);
            if let Some(empty) = self.waits.then(foresee).flatten() {
                fillings.push((earliest(&choice.choice, empty), Filling::Foreseen(choice)));
                continue;
            }
            let Some((choice, pieces)) = self.tied(choice) else { continue };
            let is_filled = (!self.waits || spots.is_some()).then(|| self.band.is_filled(&pieces));
            if is_filled == Some(false) {
                self.in_vain.extend(spots);
                continue;
            }
            let empty = lie::empty_places(pieces.iter().flatten());
            fillings.push((earliest(&choice, empty), Filling::Tied(choice, pieces, is_filled.is_some())));
        }
        self.keep_best(fillings);
    }

    /// With its knots. `None` if something is wrong then, or the set does not close.
    fn tied(&mut self, choice: SiftedChoice) -> Option<(Choice, Pieces)> {
        let (trial, pieces) = self.workshop.knots_of(choice, &self.laid.pieces)?;
        trial.closes.then_some((trial.choice, pieces))
    }

    /// Each is looked at no further than to see that it comes behind those that are kept: most fill no hole.
    fn keep_best(&mut self, fillings: Vec<(FillingOrder, Filling)>) {
        let numbered =
            (0..).zip(fillings).map(|(number, (key, filling)): (usize, _)| ((key, number), filling));
        let mut waiting: BTreeMap<_, _> = numbered.collect();
        while let Some(((key, number), filling)) = waiting.pop_first() {
            // A closer look finds no less: what comes after enough others so, comes after them all the same.
            if self.kept.get(MOST_MENDS - 1).is_some_and(|last| last.0 <= key) {
                break;
            }
            if self
                .kept
                .first()
                .is_some_and(|(best, _)| best.warnings <= key.warnings && is_far_worse(key.empty, best.empty))
            {
                continue;
            }
            let tied = match filling {
                Filling::Filled(choice, band) => {
                    self.keep(choice, band);
                    continue;
                }
                Filling::Foreseen(choice) => {
                    let spots = spots_of(&choice.choice).filter(|_| self.is_blind);
                    if spots.is_some_and(|spots| self.in_vain.contains(&spots)) {
                        continue;
                    }
                    self.tied(choice).map(|(choice, pieces)| (choice, pieces, false))
                }
                Filling::Tied(choice, pieces, is_filled) => Some((choice, pieces, is_filled)),
            };
            let Some((choice, pieces, is_filled)) = tied else { continue };
            if !is_filled && !self.band.is_filled(&pieces) {
                self.in_vain.extend(spots_of(&choice).filter(|_| self.is_blind));
            } else {
                let found = Blemishes::of_pieces(pieces.iter().flatten());
                let key = self.order(&choice, &found);
                waiting.insert((key, number), Filling::Filled(choice, found.band));
            }
        }
    }

    /// Keeps an edit, of which the knots fill a hole, if its band has fewer warnings.
    fn keep(&mut self, choice: Choice, band: u64) {
        if is_added(&choice) && !self.seen.insert(band) {
            return;
        }
        let found = self.workshop.blemishes_below(&choice, self.before.holes);
        if let Some(found) = found.filter(|found| found.warnings < self.before.warnings) {
            let key = self.order(&choice, &found);
            let at = self.kept.partition_point(|other| other.0 <= key);
            self.kept.insert(at, (key, choice));
        }
    }

    fn order(&self, choice: &Choice, found: &Blemishes) -> FillingOrder {
        filling_order(self.workshop.order(choice, self.workshop.gain(choice), found), leaves_out(choice))
    }
}
