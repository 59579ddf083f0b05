//! A step that ties nothing: another word in it with which it ties, or the step left out.

use super::candidates::list_candidates;
use super::search::{Goal, MOST_COST, MOST_MENDS, search_mends, study_goal};
use super::trial::{SiftedChoice, Workshop};
use super::words;
use crate::tie::{Change, StatementEdit};
use crate::{FileId, Finding, Mend};

/// Edits of the step of `finding` after which every step ties something, and all the rest holds.
pub(crate) fn mend_idle_step(goal: &Goal, finding: &Finding) -> Vec<Mend> {
    if goal.cost > MOST_COST || finding.place.file != FileId::CHECKED {
        return Vec::new();
    }
    let Some(studied) = study_goal(goal) else { return Vec::new() };
    let step = finding.place.span;
    let within = goal.script.source().parsed.tree.walk().filter(|statement| {
        statement.span.start <= step.start
            && step.end <= statement.span.end
            && statement.node.block().is_none()
    });
    let Some(start) = within.map(|statement| statement.span.start).last() else { return Vec::new() };
    let mut all = list_candidates(goal.script, goal.facts, |at| (at == start).then_some(0));
    let left_out = Change::Statement(StatementEdit::LeftOut);
    all.retain(|candidate| {
        candidate.statement == start && (candidate.is_word() || candidate.overlay.change == left_out)
    });
    let (kept, ..) = search_mends(goal, all, studied);
    let mut workshop = Workshop::new(goal);
    let Some(before) = workshop.blemishes(None) else { return Vec::new() };
    let mut found = Vec::new();
    for kept in kept.into_iter().filter(|kept| kept.closes) {
        let Some(trial) = workshop.judge(SiftedChoice::edit(goal, kept)).filter(|trial| trial.closes) else {
            continue;
        };
        let now = workshop.blemishes(Some(&trial.choice)).filter(|now| now.warnings < before.warnings);
        found.extend(now.map(|now| (workshop.order(&trial.choice, &now), trial)));
    }
    found.sort_by_key(|(order, _)| *order);
    found.iter().take(MOST_MENDS).map(|(_, trial)| words::no_idle_step(goal, &trial.choice)).collect()
}
