//! Edits after which a band has no hole any more. There are many that hold all the rest, and most fill no hole: so what the
//! knots say alone is asked first, and a band is only looked at as a whole if it may be offered.

use super::candidates::{Around, Candidate, What, list_around};
use super::edits::{EditSearch, KnownKnots};
use super::filling::FillingSieve;
use super::holes;
use super::in_hand::spots;
use super::insertions::find_harmless;
use super::lie::{empty_places, lie_of};
use super::search::{Goal, MOST_COST, MOST_MENDS, begun_last, go_through, is_added, study_goal};
use super::shape::{Blemishes, is_far_worse};
use super::splice::{LaidBand, added, known_knots};
use super::torn::Torn;
use super::trial::{Choice, ChoiceOrder, FIRST_ADDED, FIRST_LINE, Pieces, SiftedChoice, Workshop};
use super::words;
use crate::rules::is_open_on_purpose;
use crate::tie::Studied;
use crate::{Mend, Place};
use knotwright_band::Hole;
use knotwright_numbers::ToNumber;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::rc::Rc;

/// Of bands that cost more to tie, the holes are counted at once: to keep their knots until somebody asks would take much room.
const MOST_WAITING: u64 = 2_000;

/// Single edits after which the band has no hole any more; the hole was found by the step at `place`.
pub(crate) fn mend_hole(goal: &Goal, place: Place) -> Vec<Mend> {
    if goal.cost > MOST_COST {
        return Vec::new();
    }
    // Where no band could be looked at, none would be offered.
    let is_worth_it = Workshop::new(goal).affords_looks(1);
    let Some(band) = goal.band.filter(|_| is_worth_it).and_then(|band| Torn::of(*goal, band.pattern)) else {
        return Vec::new();
    };
    let Some(studied) = study_goal(goal).map(Rc::new) else { return Vec::new() };
    // A row may be put in so that a chart has as many as those beside it: that comes before all else.
    let is_likely = |candidate: &Candidate| candidate.is_word() || candidate.is_row();
    let near = Near { goal, studied: &studied, place, torn: band.torn_after() };
    let edits = near.list(&Around::of(goal.script, goal.facts));
    let mut filler = Filler::new(goal, &studied, band);
    filler.try_all(near.sift(&edits, is_likely));
    // People write a wrong word more often than a wrong line, and a wrong line more often than they forget one.
    if filler.may_come_first(FIRST_LINE) {
        filler.try_all(near.sift(&edits, |candidate| !is_likely(candidate)));
    }
    if filler.may_come_first(FIRST_ADDED) {
        let closed = filler.band.holes_closed_at(place);
        filler.try_all(near.list_added(&closed));
    }
    filler.best().map(|choice| words::no_hole(goal, choice)).collect()
}

/// What is near a hole.
struct Near<'a> {
    goal: &'a Goal<'a>,
    studied: &'a Rc<Studied>,
    /// Where the step stands that closes it.
    place: Place,
    /// By part, after how many knots it is there whatever is tied then.
    torn: [Option<usize>; 3],
}

impl Near<'_> {
    /// The edits near it, as far as they are sought.
    fn list(&self, around: &Around) -> Vec<Candidate> {
        let Self { goal, studied, place, .. } = *self;
        let near = holes::is_near(goal.script, studied, place);
        let age = |start: u32| near(begun_last(studied, start)?);
        let mut all = list_around(goal.script, around, goal.given_up, age);
        all.retain(|candidate| !candidate.keeps_knots_in_place() && !self.is_too_late(candidate));
        all
    }

    /// Whether the hole is there whatever an edit ties.
    fn is_too_late(&self, candidate: &Candidate) -> bool {
        let start = match candidate.what {
            What::Statement { above: Some(above) } => above.start,
            _ => candidate.statement,
        };
        let mut parts = self.studied.parts.iter().zip(self.torn);
        let first = parts.find_map(|(part, torn)| Some((part.begun.get(&start)?.first()?, torn)));
        first.is_some_and(|(first, torn)| torn.is_some_and(|torn| torn <= first.knots.to_usize()))
    }

    /// Those that are sought, without what only a tie of the whole shows to break something else.
    fn sift(&self, all: &[Candidate], is_sought: impl Fn(&Candidate) -> bool) -> Vec<Fresh> {
        let sought = all.iter().copied().filter(is_sought).collect();
        let search = EditSearch::new(sought, Rc::clone(self.studied), self.goal.given_up.clone());
        let (kept, _) = go_through(self.goal, search.keeping_knots());
        let kept = kept.into_iter().filter(|kept| kept.closes);
        kept.map(|kept| Fresh::sifted(SiftedChoice::edit(self.goal, kept))).collect()
    }

    /// Everything that may be put in: what stands there already, and knots. `closed`: the holes that the step closes.
    fn list_added(&self, closed: &[Hole]) -> Vec<Fresh> {
        let Self { goal, studied, place, .. } = *self;
        let around = Around::of(goal.script, goal.facts).of_copies(goal.script);
        let copies = self.sift(&self.list(&around), |_| true).into_iter();
        let filling = holes::fill_hole(goal.script, studied, place, closed).into_iter();
        // A strand that is tied nowhere may be missing in a run, wherever that is.
        let runs = match holes::is_somewhere(goal.script, studied, place) {
            true => Vec::new(),
            false => find_harmless(goal, studied, goal.closes.is_some() && !is_open_on_purpose(goal.script)),
        };
        let runs = runs.into_iter().filter(|run| run.closes);
        let runs = runs.map(|kept| Fresh::sifted(SiftedChoice::edit(goal, kept)));
        let filling = filling.filter(|candidate| !self.is_too_late(candidate));
        copies.chain(runs).chain(filling.map(Fresh::put_in)).collect()
    }
}

/// Where knots are put in: the statement, whether they come after it, and between which strands.
type KnotSpots = (u32, bool, Vec<u8>);

fn spots_of(choice: &Choice) -> Option<KnotSpots> {
    let Choice::Step(candidate) = choice else { return None };
    let (added, is_after) = added(candidate)?;
    let spots = spots(added).filter(|_| !added.both)?;
    Some((candidate.statement, is_after, spots))
}

/// An edit of which nothing is tied yet.
struct Fresh {
    choice: SiftedChoice,
    /// Whether it was asked whether all holds with it.
    is_sifted: bool,
}

impl Fresh {
    fn sifted(choice: SiftedChoice) -> Self {
        Self { choice, is_sifted: true }
    }

    /// A step that is put in.
    fn put_in(candidate: Candidate) -> Self {
        let unsure = SiftedChoice::unsure(Choice::Step(candidate));
        Self { choice: SiftedChoice { known: KnownKnots::Added, ..unsure }, is_sifted: false }
    }
}

/// An edit that may fill a hole.
enum Filling {
    /// How many places are empty with it was foreseen, and nothing is tied yet; and where its knots are put in.
    Foreseen(Fresh, Option<KnotSpots>),
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
    /// Asks of steps that are put in whether all holds with them.
    sieve: FillingSieve<'a>,
    /// Whether of knots put in at one place all lie alike, whatever their kind: no step looks at colors, and none at a label.
    is_blind: bool,
    /// Whether the holes are only counted when somebody asks.
    waits: bool,
    /// Where no knots fill a hole.
    in_vain: HashSet<KnotSpots>,
    /// How many places are empty with knots at one place.
    foreseen: HashMap<KnotSpots, Option<usize>>,
    /// What was put in: of steps that may stand at many places, with the same band, one is enough.
    seen: HashSet<u64>,
    /// Those that leave fewer warnings, the best first.
    kept: Vec<(FillingOrder, Choice)>,
}

impl<'a> Filler<'a> {
    fn new(goal: &Goal<'a>, studied: &'a Studied, band: Torn<'a>) -> Self {
        let workshop = Workshop::new(goal).knowing(studied);
        Self {
            is_blind: !studied.reads_strands() && !workshop.promises_a_face(),
            workshop,
            studied,
            laid: LaidBand::of_pieces(band.pieces()),
            band,
            sieve: FillingSieve::of(studied),
            waits: goal.cost <= MOST_WAITING,
            in_vain: HashSet::default(),
            foreseen: HashMap::default(),
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
    fn try_all(&mut self, mut all: Vec<Fresh>) {
        all.sort_by_cached_key(|fresh| fresh.choice.choice.near());
        let mut fillings = Vec::with_capacity(all.len());
        for fresh in all {
            if !self.workshop.affords(1) {
                break;
            }
            let spots = spots_of(&fresh.choice.choice).filter(|_| self.is_blind);
            if spots.as_ref().is_some_and(|spots| self.in_vain.contains(spots)) {
                continue;
            }
            let Some(fresh) = self.or_sifted(fresh, spots.as_ref()) else { continue };
            // A long band is not laid for each of its edits.
            let foreseen = if self.waits { self.foresee(&fresh, spots.as_ref()) } else { None };
            if let Some(empty) = foreseen {
                fillings.push((earliest(&fresh.choice.choice, empty), Filling::Foreseen(fresh, spots)));
                continue;
            }
            let is_filled = !self.waits || spots.is_some();
            let tied = if is_filled { self.filled(fresh, spots) } else { self.tied(fresh) };
            let Some((choice, pieces)) = tied else { continue };
            let empty = empty_places(pieces.iter().flatten());
            fillings.push((earliest(&choice, empty), Filling::Tied(choice, pieces, is_filled)));
        }
        self.keep_best(fillings);
    }

    /// The edit, unless something is wrong with it. Of a step of which the knots lie the same whether all holds or not, that is
    /// only asked once it may come first.
    fn or_sifted(&mut self, fresh: Fresh, spots: Option<&KnotSpots>) -> Option<Fresh> {
        match self.waits && spots.is_some() && self.sieve.is_sure() {
            true => Some(fresh),
            false => self.sift(fresh).map(Fresh::sifted),
        }
    }

    /// `None` if something is wrong with it.
    fn sift(&mut self, fresh: Fresh) -> Option<SiftedChoice> {
        match &fresh.choice.choice {
            Choice::Step(candidate) if !fresh.is_sifted => {
                self.sieve.sift(*candidate).filter(|sifted| sifted.closes)
            }
            _ => Some(fresh.choice),
        }
    }

    /// How many places are empty with an edit, if it is known what it ties.
    fn foresee(&mut self, fresh: &Fresh, spots: Option<&KnotSpots>) -> Option<usize> {
        let spots = spots.filter(|_| !fresh.is_sifted);
        if let Some(&known) = spots.and_then(|spots| self.foreseen.get(spots)) {
            return known;
        }
        let SiftedChoice { choice, known, .. } = &fresh.choice;
        let known = known_knots(choice, known, self.studied);
        let found = known.and_then(|known| self.laid.empty_places_with(&known));
        self.foreseen.extend(spots.map(|spots| (spots.clone(), found)));
        found
    }

    /// With its knots. `None` if something is wrong then, or the set does not close.
    fn tied(&mut self, fresh: Fresh) -> Option<(Choice, Pieces)> {
        let choice = self.sift(fresh)?;
        let (trial, pieces) = self.workshop.knots_of(choice, &self.laid.pieces)?;
        trial.closes.then_some((trial.choice, pieces))
    }

    /// Each is looked at no further than to see that it comes behind those that are kept: most fill no hole.
    fn keep_best(&mut self, fillings: Vec<(FillingOrder, Filling)>) {
        let (keys, fillings): (Vec<_>, Vec<_>) = fillings.into_iter().unzip();
        let mut fillings: Vec<Option<Filling>> = fillings.into_iter().map(Some).collect();
        let mut waiting: BinaryHeap<_> = keys.into_iter().zip(0_usize..).map(Reverse).collect();
        while let Some(Reverse((key, number))) = waiting.pop() {
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
            let (choice, pieces) = match fillings[number].take() {
                None => continue,
                Some(Filling::Filled(choice, band)) => {
                    self.keep(choice, band);
                    continue;
                }
                Some(Filling::Foreseen(_, Some(spots))) if self.in_vain.contains(&spots) => continue,
                Some(Filling::Foreseen(fresh, spots)) => match self.filled(fresh, spots) {
                    Some(filled) => filled,
                    None => continue,
                },
                Some(Filling::Tied(choice, pieces, is_filled)) => {
                    if !is_filled && !self.band.is_filled(&pieces, lie_of(&pieces)) {
                        continue;
                    }
                    (choice, pieces)
                }
            };
            let found = Blemishes::of_pieces(pieces.iter().flatten());
            waiting.push(Reverse((self.order(&choice, &found), number)));
            fillings[number] = Some(Filling::Filled(choice, found.band));
        }
    }

    /// With its knots, if they fill a hole. Most of those that do not lie as others did.
    fn filled(&mut self, fresh: Fresh, spots: Option<KnotSpots>) -> Option<(Choice, Pieces)> {
        let SiftedChoice { choice, known, .. } = &fresh.choice;
        let known = known_knots(choice, known, self.studied);
        let lie = known.and_then(|known| self.laid.lie_with(&known));
        let tied = if lie.is_some_and(|lie| self.band.is_torn(lie)) {
            self.workshop.spend_for_knots();
            None
        } else {
            Some(self.tied(fresh)?)
        };
        let is_filled = |(_, pieces): &(_, Pieces)| {
            self.band.is_filled(pieces, lie.map_or_else(|| lie_of(pieces), |lie| lie.lie))
        };
        let filled = tied.filter(is_filled);
        if filled.is_none() {
            self.in_vain.extend(spots);
        }
        filled
    }

    /// Keeps an edit, of which the knots fill a hole, if its band has fewer warnings.
    fn keep(&mut self, choice: Choice, band: u64) {
        if is_added(&choice) && !self.seen.insert(band) {
            return;
        }
        let found = self.workshop.blemishes_below(&choice, self.band.reported);
        if let Some(found) = found.filter(|found| self.band.warns_more(found.warnings)) {
            let key = self.order(&choice, &found);
            let at = self.kept.partition_point(|other| other.0 <= key);
            self.kept.insert(at, (key, choice));
        }
    }

    fn order(&self, choice: &Choice, found: &Blemishes) -> FillingOrder {
        filling_order(self.workshop.order(choice, self.workshop.gain(choice), found), leaves_out(choice))
    }
}
