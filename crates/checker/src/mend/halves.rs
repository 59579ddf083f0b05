//! Halves of `strands` that are not equally long: who may be missing in one of them, or too many.

use super::search::{Goal, MOST_MENDS};
use super::strands::{StrandsEdit, list_hangings};
use super::trial::{Choice, SiftedChoice, Workshop};
use super::words;
use crate::facts::Facts;
use crate::tie::{Limits, tie_hung};
use crate::{Fact, FactKind, Finding};

/// A pattern that costs more to tie gets no such mends.
const MOST_COST: u64 = 200_000;

/// Edits of `strands` after which its halves are equal and nothing else is wrong, if that alone is wrong with names: those
/// first after which the halves mirror each other. `named`: what is wrong with names; `findings`: all that is wrong.
pub(crate) fn mend_halves(goal: &Goal, named: &[Fact], findings: &mut [Finding]) {
    let ([Fact { kind: FactKind::UnequalHalves { .. }, place, .. }], [finding]) = (named, findings) else {
        return;
    };
    let mut all = list_hangings(goal.script);
    if finding.place != *place {
        return;
    }
    let is_mirrored = |hung: &StrandsEdit| hung.threads.iter().eq(hung.threads.iter().rev());
    all.sort_by_key(|hung| !is_mirrored(hung));
    let Some(goal) = all.first().and_then(|hung| with_cost(goal, hung)) else { return };
    let mut workshop = Workshop::new(&goal);
    let mut found = Vec::new();
    for hung in all {
        if !workshop.affords(1) {
            break;
        }
        let lopsided = !is_mirrored(&hung);
        let choice = SiftedChoice::unsure(Choice::Strands(hung));
        let Some(trial) = workshop.judge(choice).filter(|trial| trial.closes) else { continue };
        let now = workshop.blemishes(Some(&trial.choice));
        found.extend(now.map(|now| ((now.warnings, lopsided, now.rank(0), trial.choice.near()), trial)));
    }
    found.sort_by_key(|(rank, _)| *rank);
    let mends = found.iter().take(MOST_MENDS);
    finding.mends.extend(mends.map(|(_, trial)| words::equal_halves(&goal, &trial.choice)));
}

/// What a tie costs, with some strands: as it is, nothing is tied.
fn with_cost<'a>(goal: &Goal<'a>, hung: &StrandsEdit) -> Option<Goal<'a>> {
    let limits = Limits { facts: usize::MAX, ..Limits::trial(MOST_COST, goal.given_up) };
    let tied = tie_hung(goal.script, hung.threads.clone(), limits, &mut Facts::default())?;
    Some(Goal { cost: tied.cost, ..*goal }).filter(|goal| goal.cost <= MOST_COST)
}
