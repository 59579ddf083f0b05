//! A thread that hangs nowhere: it may have been left out of `strands`.

use super::search::{Goal, MOST_COST};
use super::strands::list_hangings;
use super::trial::{Choice, SiftedChoice, Workshop};
use super::words;
use crate::{FileId, Finding, Mend};

/// The most places in `strands` that are proposed.
const MOST_PLACES: usize = 3;

/// Edits of `strands` after which a strand is made of the thread that `finding` is about, and all the rest holds.
pub(crate) fn mend_unhung(goal: &Goal, finding: &Finding) -> Vec<Mend> {
    let name = finding.place.span.of(&goal.script.source().text);
    let Some(thread) = goal.script.thread(FileId::CHECKED, name).filter(|_| goal.cost <= MOST_COST) else {
        return Vec::new();
    };
    let mut workshop = Workshop::new(goal);
    let Some(before) = workshop.blemishes(None) else { return Vec::new() };
    let mut found = Vec::new();
    for hung in list_hangings(goal.script).into_iter().filter(|hung| hung.threads.contains(&thread)) {
        let choice = SiftedChoice::unsure(Choice::Strands(hung));
        if !workshop.affords(1) {
            break;
        }
        let Some(trial) = workshop.judge(choice).filter(|trial| trial.closes) else { continue };
        let now = workshop.blemishes(Some(&trial.choice)).filter(|now| now.warnings < before.warnings);
        found.extend(now.map(|now| (now.rank(trial.choice.odds()), trial)));
    }
    found.sort_by_key(|(rank, trial)| (*rank, trial.choice.near()));
    let mends = found.iter().take(MOST_PLACES);
    mends.map(|(_, trial)| Mend { is_guess: true, ..words::hung(goal, &trial.choice) }).collect()
}
