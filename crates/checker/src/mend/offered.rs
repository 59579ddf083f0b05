//! Which of the edits after which nothing is wrong are offered. What is there is written otherwise more often than a line is
//! forgotten: so what may be missing is only looked for where it may come first, or where one edit alone would be certain.

use super::added::AddedSteps;
use super::edits::KeptEdit;
use super::ranks::{LookedAt, Ranks};
use super::search::{Goal, MOST_MENDS, Sifted, is_added, is_many};
use super::trial::{Choice, FIRST_ADDED, FIRST_LINE, SiftedChoice, Trial, Workshop};
use super::words;
use crate::Mend;
use crate::rules::is_open_on_purpose;
use rustc_hash::FxHashSet as HashSet;

/// The most candidates with which everything holds that are searched for holes in the band.
const MOST_WOVEN: usize = 200;

/// For how many of them room is made at once.
const USUAL: usize = 32;

/// The best first. `hangs`: whether who hangs where may be to blame.
pub(super) fn offered(goal: &Goal, sifted: &Sifted, hangs: bool) -> Vec<Mend> {
    // The band itself goes on from what an `expect` says that fails, so its steps by color may tie other knots there.
    let goal = &Goal { knots: sifted.studied.knots(), ..*goal };
    let mut workshop = Workshop::new(goal).knowing(&sifted.studied);
    let closes = |kept: &KeptEdit| kept.closes || !sifted.must_close;
    let (edits, mut open): (Vec<KeptEdit>, Vec<KeptEdit>) = sifted.kept.iter().cloned().partition(closes);
    // A pattern may stay open on purpose; but an edit that closes it too is the better guess.
    let is_exempt = is_open_on_purpose(goal.script);
    let is_closed = |trial: &Trial| trial.closes || is_exempt;

    let mut judged = Judged { trials: Vec::with_capacity(USUAL), whole: sifted.whole };
    judged.add_edits(goal, &mut workshop, edits);
    let (mut ranks, mut first) = (Ranks::default(), None);
    // If one edit is alone, it is certain unless something else may be missing.
    if judged.trials.iter().filter(|trial| is_closed(trial)).count() > 1 && workshop.affords_looks(2) {
        judged.trials.retain(is_closed);
        ranks.add(&mut workshop, std::mem::take(&mut judged.trials));
        first = ranks.first(&mut workshop);
    }
    let may_come_first = |earliest| first.is_none_or(|first| first >= earliest);
    if may_come_first(FIRST_ADDED) {
        let (copies, whole) = sifted.copies(goal);
        let (copies, open_too): (Vec<KeptEdit>, Vec<KeptEdit>) = copies.into_iter().partition(closes);
        open.extend(open_too);
        let added = AddedSteps { copies, runs: sifted.runs(goal) };
        judged.whole &= whole && added.runs.is_whole;
        judged.add(&mut workshop, added.in_turn().map(|kept| SiftedChoice::edit(goal, kept)));
    }
    if hangs && may_come_first(FIRST_LINE) {
        judged.add(&mut workshop, sifted.hangings(goal).into_iter());
    }
    let closes = |judged: &Judged| !ranks.is_empty() || judged.trials.iter().any(is_closed);
    // Where nothing else is wrong, what leaves the set open mends nothing.
    if !closes(&judged) && !goal.facts.is_empty() {
        judged.add_edits(goal, &mut workshop, open);
    }
    if closes(&judged) {
        judged.trials.retain(is_closed);
    }
    judged.trials.retain(|trial| trial.closes || !goal.facts.is_empty());
    let looked = ranks.in_order(&mut workshop, judged.trials);
    in_words(goal, &workshop, looked, judged.whole)
}

/// Choices after which all holds.
struct Judged {
    trials: Vec<Trial>,
    /// Whether all could be tried.
    whole: bool,
}

impl Judged {
    fn add(&mut self, workshop: &mut Workshop, choices: impl Iterator<Item = SiftedChoice>) {
        for choice in choices {
            // Near ones come first, and of many the far ones are not offered anyway.
            if self.trials.len() >= MOST_WOVEN || !workshop.affords(1) {
                self.whole = false;
                break;
            }
            // Where nothing is tied, nothing can be wrong.
            self.trials.extend(workshop.judge(choice).filter(|trial| trial.knots > 0));
        }
    }

    fn add_edits(&mut self, goal: &Goal, workshop: &mut Workshop, mut edits: Vec<KeptEdit>) {
        edits.sort_by_key(|kept| (kept.candidate.is_added(), kept.candidate.near()));
        self.add(workshop, edits.into_iter().map(|kept| SiftedChoice::edit(goal, kept)));
        // Those that leave out what others only write otherwise are no mends.
        let is_word =
            |trial: &&Trial| matches!(&trial.choice, Choice::Step(candidate) if candidate.is_word());
        let most = self.trials.iter().filter(is_word).map(|trial| trial.knots).max().unwrap_or(0);
        self.trials.retain(|trial| match &trial.choice {
            Choice::Step(candidate) if candidate.leaves_out() => trial.knots * 10 >= most * 9,
            _ => true,
        });
    }
}

fn in_words(goal: &Goal, workshop: &Workshop, mut looked: Vec<LookedAt>, whole: bool) -> Vec<Mend> {
    if workshop.promises_a_face() {
        looked.retain(|looked| looked.found.is_some());
    }
    let certain = goal.is_clean() && whole && is_certain(&looked) && !workshop.warns_of_names();
    looked.retain(|looked| !looked.is_far);
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
