//! The edits after which nothing is wrong any more, in the order in which they are offered.

use super::candidates::{Candidate, are_all_edited, list_candidates};
use super::choices::Choices;
use super::edits::{EditSearch, KeptEdit};
use super::follower::{FollowedEdit, Follower};
use super::insertions::{Sought, find_insertions};
use super::listing::Listing;
use super::ranks::{LookedAt, in_order};
use super::renaming::Outlook;
use super::reread::Rereader;
use super::retied::TiedBand;
use super::settled::Settled;
use super::trial::{BUDGET, Choice, Fault, Trial, Workshop, fault_of};
use super::{strands, words};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId};
use crate::rules::is_open_on_purpose;
use crate::tie::{Limits, Studied, tie_searched, tie_studied};
use crate::{Fact, GivenUp, Mend};
use knotwright_grammar::tree::{Expect, Statement};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashSet as HashSet;
use std::sync::Arc;

/// The most mends that are offered for one mistake.
pub(super) const MOST_MENDS: usize = 8;

/// The most candidates with which everything holds that are searched for holes in the band.
const MOST_WOVEN: usize = 200;

/// A pattern that costs more to tie is not searched.
pub(super) const MOST_COST: u64 = 2_000_000;

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
    /// Set as soon as nobody wants the mends any more: then the search ends soon, and what it found is of no use.
    pub(crate) given_up: &'a GivenUp,
}

impl Goal<'_> {
    /// Whether nothing is wrong with words and names.
    pub(crate) fn is_clean(&self) -> bool {
        self.misread == 0
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
}

impl Mended {
    /// No mends, as nobody has looked for any.
    pub(crate) fn none(facts: &[Fact]) -> Self {
        Self { facts: vec![Vec::new(); facts.len()], is_one: false }
    }
}

impl Mended {
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
    let Some(mut sifted) = Sifted::of(goal) else { return mended };
    sifted.add_hangings(goal);
    let mends = best(goal, sifted);
    mended.is_one = !mends.is_empty();
    if mended.is_one {
        mended.facts[0] = mends;
    } else if goal.facts.len() > 1 && goal.cost < BUDGET / 8 {
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
    let Some(mut sifted) = Sifted::of(goal) else { return Vec::new() };
    // Who hangs where is hardly to blame, as long as every promise holds,
    // unless some thread hangs nowhere.
    let hung = goal.script.head.strands.as_deref().unwrap_or_default();
    let is_one_unused = (0..goal.script.head.threads.len()).any(|thread| !hung.contains(&thread.to_u16()));
    let must_close = sifted.must_close;
    if is_one_unused {
        sifted.add_hangings(goal);
    }
    sifted.choices.kept.retain(|kept| kept.closes || !must_close);
    best(goal, sifted)
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

/// Edits after which, by the law of renaming, nothing is wrong.
pub(super) struct Sifted {
    pub(super) choices: Choices,
    /// Whether a set is to close.
    must_close: bool,
    /// Whether all edits could be tried.
    whole: bool,
    pub(super) studied: Studied,
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
        let listing = Listing::of(goal.script, goal.facts, mistake);
        let search = EditSearch::listing(listing, settled, studied, goal.given_up.clone());
        let (kept, studied, mut whole) = go_through(goal, search);
        let must_close = goal.closes.is_some() && !is_open_on_purpose(goal.script);
        let age = |nth: u32| mistake.nth.abs_diff(nth);
        let added = find_insertions(goal, &studied, Sought { must_close, is_right: false, settled }, age);
        whole &= added.is_whole && are_all_edited(goal.script);
        let choices = Choices { kept, added, hung: Vec::new() };
        Some(Self { choices, must_close, whole, studied })
    }

    /// With edits of who hangs where.
    fn add_hangings(&mut self, goal: &Goal) {
        let mut hung = strands::list_hangings(goal.script);
        let is_start = |statement: &Statement| matches!(statement.get(), Some(Expect::Start { .. }));
        // With other strands, something else is promised by `expect start`.
        let asks_start = goal.script.source().parsed.tree.walk().any(is_start);
        let mut facts = Facts::default();
        let mut may_hang = likely_hangings(goal, &self.studied, &mut facts);
        hung.retain(|hung| asks_start || may_hang(&hung.threads));
        drop(may_hang);
        self.choices.hung = hung;
    }
}

/// Whether nothing in the first part is wrong with strands of these threads, as far as can be said without tying all of it.
fn likely_hangings<'s>(
    goal: &Goal<'s>,
    studied: &'s Studied,
    facts: &'s mut Facts,
) -> impl FnMut(&[ThreadId]) -> bool + 's {
    let part = studied.parts.iter().find(|part| !part.threads.is_empty());
    let limits = Limits::trial(goal.cost, goal.given_up);
    let mut follower = part.map(|part| (part, Follower::new(goal.script, part, limits, facts)));
    move |threads| {
        let Some((part, follower)) = follower.as_mut().filter(|known| known.0.width == threads.len()) else {
            return true;
        };
        let mut edit = FollowedEdit::default();
        edit.renamed.hang(threads, &part.threads);
        follower.follow(&mut edit, 0..part.end) != Outlook::Fails
    }
}

pub(super) fn study_goal(goal: &Goal) -> Option<Studied> {
    let mut studied = Studied::default();
    let limits = Limits { facts: usize::MAX, ..Limits::trial(goal.cost, goal.given_up) };
    tie_studied(goal.script, limits, &mut studied)?;
    Some(studied)
}

pub(super) fn search_mends(
    goal: &Goal,
    all: Vec<Candidate>,
    studied: Studied,
) -> (Vec<KeptEdit>, Studied, bool) {
    go_through(goal, EditSearch::new(all, studied, goal.given_up.clone()))
}

/// The edits of a search after which nothing is wrong; whether all could be tried.
pub(super) fn go_through(goal: &Goal, mut search: EditSearch) -> (Vec<KeptEdit>, Studied, bool) {
    let limits = Limits { facts: usize::MAX, ..Limits::trial(goal.cost, goal.given_up) };
    let whole = tie_searched(goal.script, limits, &mut search).is_some() && search.is_whole();
    let (kept, studied) = search.into_kept();
    (kept, studied, whole)
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

/// The choices after which all holds, in the order in which they are offered.
fn best(goal: &Goal, sifted: Sifted) -> Vec<Mend> {
    let Sifted { choices, must_close, whole, studied } = sifted;
    // The band itself goes on from what an `expect` says that fails, so its steps by color may tie other knots there.
    let goal = &Goal { knots: studied.knots(), ..*goal };
    let mut workshop = Workshop::new(goal).knowing(studied);
    let (closing, open): (Vec<u32>, Vec<u32>) =
        choices.in_order().into_iter().partition(|&number| choices.closes(number) || !must_close);
    let mut tried_all = whole;
    let mut trials = Vec::new();
    // A pattern may stay open on purpose; but an edit that closes it too is the better guess.
    for numbers in [closing, open] {
        for number in numbers {
            // Near ones come first, and of many the far ones are not offered anyway.
            if trials.len() >= MOST_WOVEN || !workshop.affords(1) {
                tried_all = false;
                break;
            }
            trials.extend(workshop.judge(choices.get(goal, number)));
        }
        let is_exempt = is_open_on_purpose(goal.script);
        if trials.iter().any(|trial| trial.closes || is_exempt) {
            trials.retain(|trial| trial.closes || is_exempt);
            break;
        }
    }
    // Where nothing else is wrong, what leaves the set open mends nothing.
    trials.retain(|trial| trial.closes || !goal.facts.is_empty());
    drop(choices);
    ranked(goal, &mut workshop, trials, tried_all)
}

fn ranked(goal: &Goal, workshop: &mut Workshop, mut trials: Vec<Trial>, whole: bool) -> Vec<Mend> {
    // Those that leave out what others only write otherwise are no mends.
    let is_word = |trial: &&Trial| matches!(&trial.choice, Choice::Step(candidate) if candidate.is_word());
    let most = trials.iter().filter(is_word).map(|trial| trial.knots).max().unwrap_or(0);
    trials.retain(|trial| match &trial.choice {
        Choice::Step(candidate) if candidate.leaves_out() => trial.knots * 10 >= most * 9,
        _ => true,
    });
    let mut looked = in_order(workshop, trials);
    if workshop.promises_a_face() {
        looked.retain(|looked| looked.found.is_some());
    }
    let certain = goal.is_clean() && whole && is_certain(&looked) && !workshop.warns_of_names();
    // Of steps that may be put in at many places, with the same band, one is enough.
    let mut seen = HashSet::default();
    looked.retain(|LookedAt { found, trial, .. }| {
        !is_many(&trial.choice) || found.is_none_or(|found| seen.insert(found.band))
    });
    looked
        .iter()
        .take(MOST_MENDS)
        .enumerate()
        .map(|(at, LookedAt { trial, .. })| {
            words::all_holds(goal, &trial.choice, trial.closes, certain && at == 0)
        })
        .collect()
}

/// Whether the first choice is the only one, but for steps put in that tie the very same band.
fn is_certain(looked: &[LookedAt]) -> bool {
    let Some((LookedAt { found: Some(first), trial, .. }, others)) = looked.split_first() else {
        return false;
    };
    let says_the_same = |other: &LookedAt| {
        is_added(&other.trial.choice) && other.found.is_some_and(|found| found.band == first.band)
    };
    trial.closes && first.warnings == 0 && is_usual(&trial.choice) && others.iter().all(says_the_same)
}

/// Whether people make such slips: only then the only mend is certain.
fn is_usual(choice: &Choice) -> bool {
    match choice {
        Choice::Step(candidate) => candidate.is_usual(),
        Choice::Strands(hung) => hung.size == 1,
    }
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
