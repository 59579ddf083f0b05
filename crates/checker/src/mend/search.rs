//! Candidates are tried, and those kept after which more holds than before.

use super::Trace;
use super::candidates::{Candidate, candidates};
use super::trial::{BUDGET, Fault, Trial, Workshop, fault};
use super::words;
use crate::resolve::Script;
use crate::tie::{Limits, tie_traced};
use crate::{Fact, Mend, Place};
use std::sync::Arc;

/// So many mends are offered for one mistake.
const MOST_MENDS: usize = 8;

/// So many candidates after which all holds are looked at for holes in the band.
const MOST_WOVEN: usize = 200;

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
    /// Whether nothing is wrong with words and names.
    pub(crate) clean: bool,
}

/// What would mend the facts.
#[derive(Debug, Default)]
pub(crate) struct Mended {
    /// For each of them its mends, the best first.
    pub(crate) facts: Vec<Vec<Mend>>,
    /// Whether one edit would settle all of them: then they are one mistake.
    pub(crate) is_one: bool,
}

/// Looks for single edits that settle all facts; if there is none, for those that settle some.
pub(crate) fn mend_facts(goal: &Goal) -> Mended {
    let mut mended = Mended { facts: vec![Vec::new(); goal.facts.len()], is_one: false };
    if goal.facts.is_empty() || !is_short(goal) {
        return mended;
    }
    let trace = traced(goal, Limits { facts: 0, ..Limits::trial(goal.cost) });
    let all = candidates(&goal.script.source().parsed.tree, |start| trace.age(start));
    let mut workshop = Workshop::new(goal);
    let mends = best(goal, &mut workshop, &all, |_| true);
    mended.is_one = !mends.is_empty();
    if mended.is_one {
        mended.facts[0] = mends;
    } else if goal.facts.len() > 1 {
        let trials = settle_some(goal, &mut workshop);
        share_out(goal, &trials, &mut mended);
    }
    mended
}

/// Single edits after which a set closes that does not.
pub(crate) fn mend_closing(goal: &Goal) -> Vec<Mend> {
    if !is_short(goal) {
        return Vec::new();
    }
    let trace = traced(goal, Limits { facts: usize::MAX, ..Limits::trial(goal.cost) });
    let all = candidates(&goal.script.source().parsed.tree, |start| trace.age(start));
    best(goal, &mut Workshop::new(goal), &all, |trial| trial.closes)
}

/// Single edits after which the band has no hole any more; the hole was found by the step at `place`.
pub(crate) fn mend_hole(goal: &Goal, place: Place) -> Vec<Mend> {
    if !is_short(goal) {
        return Vec::new();
    }
    let trace = traced(goal, Limits { facts: usize::MAX, ..Limits::trial(goal.cost) });
    let at = trace.age(place.span.start).unwrap_or_default();
    let near = |start| trace.age(start).map(|age| age.abs_diff(at));
    let all = candidates(&goal.script.source().parsed.tree, near);
    let mut workshop = Workshop::new(goal);
    let Some(before) = workshop.blemishes(None) else { return Vec::new() };
    let mut kept = Vec::new();
    for trial in workshop.settle_all(&all, |trial| trial.closes).0 {
        let blemishes = workshop.blemishes(Some(&trial.candidate.overlay));
        if let Some(blemishes) =
            blemishes.filter(|now| now.holes < before.holes && now.warnings < before.warnings)
        {
            kept.push((blemishes, trial));
        }
    }
    kept.sort_by_key(|&(blemishes, _)| blemishes);
    kept.iter().take(MOST_MENDS).map(|(_, trial)| words::no_hole(goal, &trial.candidate)).collect()
}

/// Whether the pattern is short enough that several trials can be afforded.
fn is_short(goal: &Goal) -> bool {
    goal.cost < BUDGET / 8
}

/// Which statements were tied, until something was wrong if `limits` says so.
fn traced(goal: &Goal, limits: Limits) -> Trace {
    let mut trace = Trace::default();
    tie_traced(goal.script, limits, &mut trace);
    trace
}

/// The candidates after which all holds, in the order in which they are offered.
fn best(goal: &Goal, workshop: &mut Workshop, all: &[Candidate], keep: impl Fn(&Trial) -> bool) -> Vec<Mend> {
    let (mut trials, whole) = workshop.settle_all(all, keep);
    // A pattern may stay open on purpose; but an edit that closes it too is the better guess.
    if trials.iter().any(|trial| trial.closes) {
        trials.retain(|trial| trial.closes);
    }
    let certain = goal.clean && whole && trials.len() == 1 && trials[0].closes;
    if trials.len() > 1 {
        trials.truncate(MOST_WOVEN);
        trials.sort_by_cached_key(|trial| {
            let found = workshop.blemishes(Some(&trial.candidate.overlay));
            // Those that could not be looked at come last.
            (found.is_none(), found)
        });
    }
    trials
        .iter()
        .take(MOST_MENDS)
        .map(|trial| words::all_holds(goal, &trial.candidate, trial.closes, certain))
        .collect()
}

/// Those candidates that break nothing new and settle one of several mistakes at least. What settles a mistake was
/// tied before it, so the latest comes first.
fn settle_some(goal: &Goal, workshop: &mut Workshop) -> Vec<Trial> {
    let trace = traced(goal, Limits { facts: usize::MAX, ..Limits::trial(goal.cost) });
    let all = candidates(&goal.script.source().parsed.tree, |start| trace.age(start));
    let before: Vec<Fault> = goal.facts.iter().map(fault).collect();
    let mut kept = workshop.settle_some(&all, &before);
    kept.sort_by_key(|trial| trial.faults.len());
    kept
}

/// Gives each mistake the mends that settle it; the first it is settled by gets them.
fn share_out(goal: &Goal, trials: &[Trial], mended: &mut Mended) {
    for trial in trials {
        let settled = |fact: &Fact| !trial.faults.contains(&fault(fact));
        let first = goal.facts.iter().position(settled);
        if let Some(mends) = first.and_then(|first| mended.facts.get_mut(first))
            && mends.len() < MOST_MENDS
        {
            mends.push(words::some_holds(goal, &trial.candidate, trial.faults.len()));
        }
    }
}
