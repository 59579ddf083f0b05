//! The edits after which nothing is wrong any more.

use super::candidates::{Candidate, are_all_edited, list_candidates};
use super::edits::{EditSearch, KeptEdit};
use super::insertions::{Insertions, Sought, find_insertions};
use super::listing::Listing;
use super::offered::offered;
use super::rehung::Rehung;
use super::reread::Rereader;
use super::retied::TiedBand;
use super::settled::Settled;
use super::trial::{BUDGET, Choice, Fault, SiftedChoice, Trial, Workshop, fault_of};
use super::words;
use crate::resolve::{Script, ThreadId};
use crate::rules::is_open_on_purpose;
use crate::tie::{Keep, Limits, Studied, tie_searched, tie_studied};
use crate::{Fact, GivenUp, Mend};
use knotwright_numbers::ToNumber;
use std::rc::Rc;
use std::sync::Arc;

/// The most mends that are offered for one mistake.
pub(super) const MOST_MENDS: usize = 8;

/// A pattern that costs more to tie is not searched.
pub(super) const MOST_COST: u64 = 2_000_000;

/// Where fewer edits could be tied, it would be chance which of them are.
const FEWEST_TRIES: u64 = 8;

/// A pattern as it is, and what is to be mended.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Goal<'a> {
    pub(crate) script: &'a Arc<Script>,
    /// What was wrong when it was tied; what was wrong with names is not among it.
    pub(crate) facts: &'a [Fact],
    /// Whether the set closes, if that is known.
    pub(crate) closes: Option<bool>,
    /// What a tie costs.
    pub(crate) cost: u64,
    /// How many knots were tied.
    pub(crate) knots: u64,
    /// How many mistakes there are in words and names: no edit that is tried for the tie puts them right.
    pub(crate) misread: usize,
    /// The band, as it is tied with what is wrong in it.
    pub(crate) band: Option<TiedBand<'a>>,
    /// How many mends of a finding are shown, if not all.
    pub(crate) shown: Option<usize>,
    /// Set as soon as nobody wants the mends any more: then the search ends soon, and what it found is of no use.
    pub(crate) given_up: &'a GivenUp,
}

impl Goal<'_> {
    /// Whether nothing is wrong with words and names.
    pub(crate) fn is_clean(&self) -> bool {
        self.misread == 0
    }

    /// How many mends of a finding are put in order.
    pub(super) fn most_in_order(&self) -> usize {
        self.shown.unwrap_or(MOST_MENDS).clamp(1, MOST_MENDS)
    }

    pub(super) fn is_given_up(&self) -> bool {
        self.given_up.is_so()
    }
}

/// What would mend the facts.
#[derive(Debug, Default)]
pub(crate) struct Mended {
    /// For each of them its mends, the best first.
    pub(crate) facts: Vec<Vec<Mend>>,
    /// Whether one edit would settle all of them: then they are one mistake.
    pub(crate) is_one: bool,
    /// What the pattern was found to rest on, if anybody asked.
    studied: Option<Rc<Studied>>,
}

impl Mended {
    /// No mends, as nobody has looked for any.
    pub(crate) fn none(facts: &[Fact]) -> Self {
        Self { facts: vec![Vec::new(); facts.len()], ..Self::default() }
    }

    /// What the pattern rests on. `None` if it is not tied to its end.
    pub(super) fn studied(&self, goal: &Goal) -> Option<Rc<Studied>> {
        self.studied.clone().or_else(|| study_goal(goal).map(Rc::new))
    }

    /// With edits that settle all facts, if nothing else does; else behind all others.
    pub(crate) fn or_last(mut self, mends: Vec<Mend>) -> Self {
        if !self.is_one {
            return self.or_first(mends);
        }
        if let Some(first) = self.facts.first_mut() {
            // One that is the only one of all is not, with these.
            first.iter_mut().for_each(|mend| mend.certain &= mends.is_empty());
            first.truncate(MOST_MENDS.saturating_sub(mends.len()));
            first.extend(mends);
        }
        self
    }

    /// With lists of strands as they hang, after which the set closes: before edits after which it does not, and behind others
    /// unless one of these is certain.
    pub(crate) fn or_lists(self, lists: Vec<Mend>, rereader: &Rereader) -> Self {
        if lists.is_empty() {
            return self;
        }
        let first = self.facts.first().and_then(|mends| mends.first()).filter(|_| self.is_one);
        let holds = |mend: &Mend| rereader.after(&mend.edits).is_some_and(|reread| reread.holds());
        match first {
            Some(first) if first.certain => self,
            Some(first) if holds(first) => self.or_last(lists),
            _ => self.or_first(lists),
        }
    }

    /// With edits that settle all facts, before all others.
    pub(crate) fn or_first(mut self, mends: Vec<Mend>) -> Self {
        if let Some(first) = self.facts.first_mut().filter(|_| !mends.is_empty()) {
            if !self.is_one {
                first.clear();
            }
            first.iter_mut().for_each(|mend| mend.certain = false);
            first.splice(0..0, mends);
            first.truncate(MOST_MENDS);
            self.is_one = true;
        }
        self
    }
}

/// Looks for single edits that settle all facts; if there is none, for those that settle some.
pub(crate) fn mend_facts(goal: &Goal) -> Mended {
    let mut mended = Mended::none(goal.facts);
    if goal.facts.is_empty() || goal.cost > MOST_COST {
        return mended;
    }
    let Some(sifted) = Sifted::of(goal) else { return mended };
    mended.studied = Some(Rc::clone(&sifted.studied));
    let mends = offered(goal, &sifted, true);
    mended.is_one = !mends.is_empty();
    if mended.is_one {
        mended.facts[0] = mends;
    } else if goal.facts.len() > 1 && goal.cost < BUDGET / FEWEST_TRIES {
        let trials = settle_some(goal);
        share_out(goal, &trials, &mut mended);
    }
    mended
}

/// Single edits after which a set closes that does not.
pub(crate) fn mend_closing(goal: &Goal) -> Vec<Mend> {
    if goal.cost > MOST_COST {
        return Vec::new();
    }
    let Some(sifted) = Sifted::of(goal) else { return Vec::new() };
    // Who hangs where is hardly to blame, as long as every promise holds,
    // unless some thread hangs nowhere.
    let hung = goal.script.head.strands.as_deref().unwrap_or_default();
    let is_one_unused = (0..goal.script.head.threads.len()).any(|thread| !hung.contains(&thread.to_u16()));
    offered(goal, &sifted, is_one_unused)
}

/// Whether the same may be put in at many places with the same band: a step, a row, a strand.
pub(super) fn is_many(choice: &Choice) -> bool {
    match choice {
        Choice::Step(candidate) => candidate.is_added() || candidate.adds_row(),
        Choice::Strands(_) => false,
    }
}

pub(super) fn is_added(choice: &Choice) -> bool {
    matches!(choice, Choice::Step(candidate) if candidate.is_added())
}

/// Edits of what is there after which, by the law of renaming, nothing is wrong; and what else may be edited, for those who ask.
pub(super) struct Sifted {
    pub(super) kept: Vec<KeptEdit>,
    /// Whether a set is to close.
    pub(super) must_close: bool,
    /// Whether all edits could be tried.
    pub(super) whole: bool,
    pub(super) studied: Rc<Studied>,
    settled: Option<Settled>,
    mistake: Mistake,
}

impl Sifted {
    /// `None` if the pattern is not tied to its end.
    pub(super) fn of(goal: &Goal) -> Option<Self> {
        let mut studied = study_goal(goal)?;
        if goal.is_given_up() {
            return None;
        }
        let settled = Settled::before_mistake(&studied);
        studied.find_echoes(goal.script.source(), |part| Settled::since(settled, part));
        let mistake = Mistake::first(&studied);
        let must_close = goal.closes.is_some() && !is_open_on_purpose(goal.script);
        let whole = are_all_edited(goal.script);
        let studied = Rc::new(studied);
        let mut sifted = Self { kept: Vec::new(), must_close, whole, studied, settled, mistake };
        let (kept, whole) = sifted.search(goal, Listing::of(goal.script, goal.facts, mistake));
        sifted.kept = kept;
        sifted.whole &= whole;
        Some(sifted)
    }

    fn search(&self, goal: &Goal, listing: Listing) -> (Vec<KeptEdit>, bool) {
        let studied = Rc::clone(&self.studied);
        go_through(goal, EditSearch::listing(listing, self.settled, studied, goal.given_up.clone()))
    }

    /// Lines that stand elsewhere and may have been forgotten; whether all could be tried.
    pub(super) fn copies(&self, goal: &Goal) -> (Vec<KeptEdit>, bool) {
        self.search(goal, Listing::of(goal.script, goal.facts, self.mistake).of_copies())
    }

    /// Every run at every place where one may have been forgotten.
    pub(super) fn runs(&self, goal: &Goal) -> Insertions {
        let sought = Sought { must_close: self.must_close, is_right: false, settled: self.settled };
        find_insertions(goal, &self.studied, sought, |nth| self.mistake.nth.abs_diff(nth))
    }

    /// Edits of who hangs where, after which nothing is wrong as far as can be said without tying the text.
    pub(super) fn hangings(&self, goal: &Goal) -> Vec<SiftedChoice> {
        Rehung::of(goal, &self.studied).all()
    }
}

pub(super) fn study_goal(goal: &Goal) -> Option<Studied> {
    let mut studied = Studied::default();
    let limits = Limits { keep: Keep::Knots, ..Limits::trial(goal.cost, goal.given_up) };
    tie_studied(goal.script, goal.script.head.strands.clone()?, limits, &mut studied)?;
    Some(studied)
}

/// A study of the pattern with strands of these threads, as far as something may be right.
pub(super) fn study_hung(goal: &Goal, threads: Vec<ThreadId>) -> Studied {
    let mut studied = Studied::default();
    let limits = Limits { tells: false, keep: Keep::Knots, ..Limits::trial(goal.cost, goal.given_up) };
    tie_studied(goal.script, threads, limits, &mut studied);
    studied
}

/// Those of some edits after which nothing is wrong.
pub(super) fn search_mends(goal: &Goal, all: Vec<Candidate>, studied: Studied) -> Vec<KeptEdit> {
    go_through(goal, EditSearch::new(all, Rc::new(studied), goal.given_up.clone())).0
}

/// The edits of a search after which nothing is wrong; whether all could be tried.
pub(super) fn go_through(goal: &Goal, mut search: EditSearch) -> (Vec<KeptEdit>, bool) {
    let limits = Limits { facts: usize::MAX, ..Limits::trial(goal.cost, goal.given_up) };
    let whole = tie_searched(goal.script, limits, &mut search).is_some() && search.is_whole();
    (search.into_kept(), whole)
}

/// Where something is wrong first: at the set's end, if only that is wrong.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mistake {
    part: usize,
    time: u32,
    /// How many statements were begun in its part by then.
    nth: u32,
}

impl Mistake {
    pub(super) fn first(studied: &Studied) -> Self {
        let faults = studied.parts.iter().enumerate();
        let first = faults.clone().find_map(|(part, study)| Some((part, study.first_fault()?)));
        let end = || {
            let last = faults.clone().rfind(|(_, study)| !study.begun.is_empty());
            (last.map_or(0, |last| last.0), u32::MAX)
        };
        let (part, time) = first.unwrap_or_else(end);
        let begun = studied.parts[part].begun.values().flatten();
        let nth = begun.filter(|begun| begun.time <= time).map(|begun| begun.nth).max().unwrap_or(0);
        Self { part, time, nth }
    }

    /// How far before it, in statements, the one that starts there was begun last; `None` if it was not.
    pub(super) fn age(&self, studied: &Studied, start: u32) -> Option<u32> {
        let last = |number: usize| {
            let begun = studied.parts[number].begun.get(&start)?;
            begun.iter().rev().find(|begun| number < self.part || begun.time <= self.time)
        };
        // What was tied in a part before is farther than all of this one.
        let nth = last(self.part).map(|begun| begun.nth);
        let nth = nth.or_else(|| (0..self.part).rev().find_map(last).map(|_| 0))?;
        Some(self.nth.saturating_sub(nth))
    }
}

pub(super) fn begun_last(studied: &Studied, start: u32) -> Option<u32> {
    studied.parts.iter().find_map(|part| part.begun.get(&start)?.last().map(|begun| begun.nth))
}

/// Those candidates that break nothing new and settle one of several mistakes at least. What settles a mistake was
/// tied before it, so the latest comes first.
fn settle_some(goal: &Goal) -> Vec<Trial> {
    let Some(studied) = study_goal(goal) else { return Vec::new() };
    let most =
        studied.parts.iter().flat_map(|part| part.begun.values().flatten()).map(|begun| begun.nth).max();
    let age = |start: u32| begun_last(&studied, start).map(|nth| most.unwrap_or(0) - nth);
    let mut all = list_candidates(goal.script, goal.facts, goal.given_up, age);
    all.sort_by_key(|candidate| (candidate.age, candidate.size, candidate.overlay.place));
    let before: Vec<Fault> = goal.facts.iter().map(fault_of).collect();
    let mut workshop = Workshop::new(goal);
    let mut kept = Vec::new();
    for candidate in all.into_iter().filter(|candidate| candidate.size <= 2) {
        if !workshop.affords(1) {
            break;
        }
        kept.extend(workshop.tried(Choice::Step(candidate), before.len()).filter(|trial| {
            trial.faults.len() < before.len() && trial.faults.iter().all(|fault| before.contains(fault))
        }));
    }
    kept.sort_by_key(|trial| trial.faults.len());
    kept
}

/// Gives each mistake the mends that settle it; the first it is settled by gets them.
fn share_out(goal: &Goal, trials: &[Trial], mended: &mut Mended) {
    for trial in trials {
        let settled = |fact: &Fact| !trial.faults.contains(&fault_of(fact));
        let first = goal.facts.iter().position(settled);
        if let Some(mends) = first.and_then(|first| mended.facts.get_mut(first))
            && mends.len() < MOST_MENDS
        {
            mends.push(words::some_holds(goal, &trial.choice, trial.faults.len()));
        }
    }
}
