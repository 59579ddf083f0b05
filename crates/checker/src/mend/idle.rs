//! A step that ties nothing: another word in it with which it ties, or the step left out.

use super::candidates::{Around, list_around};
use super::search::{Goal, MOST_COST, MOST_MENDS, search_mends, study_goal};
use super::trial::{SiftedChoice, Workshop};
use super::words;
use crate::tie::{Change, StatementEdit};
use crate::{FileId, Finding, Mend};
use knotwright_grammar::tree::Statement;

/// Edits of the step of `finding` after which every step ties something, and all the rest holds.
pub(crate) fn mend_idle_step(goal: &Goal, finding: &Finding) -> Vec<Mend> {
    if goal.cost > MOST_COST || finding.place.file != FileId::CHECKED {
        return Vec::new();
    }
    let Some(studied) = study_goal(goal) else { return Vec::new() };
    let step = finding.place.span;
    let holds = |statement: &&Statement| statement.span.start <= step.start && step.end <= statement.span.end;
    let holders: Vec<&Statement> = goal.script.source().parsed.tree.walk().filter(holds).collect();
    let Some((idle, holders)) = holders.split_last().filter(|(idle, _)| idle.node.block().is_none()) else {
        return Vec::new();
    };
    // Where nothing else is in the braces, they are left out with it.
    let is_alone =
        |holder: &&&Statement| holder.node.block().is_some_and(|block| block.statements.len() == 1);
    let around = holders.iter().rev().take_while(is_alone).map(|holder| holder.span.start);
    let lines: Vec<u32> = around.chain([idle.span.start]).collect();
    let around = Around::of(goal.script, goal.facts);
    let mut all = list_around(goal.script, &around, goal.given_up, |at| lines.contains(&at).then_some(0));
    let left_out = Change::Statement(StatementEdit::LeftOut);
    all.retain(|candidate| {
        let is_word = candidate.statement == idle.span.start && candidate.is_word();
        is_word || (lines.contains(&candidate.statement) && candidate.overlay.change == left_out)
    });
    let kept = search_mends(goal, all, studied);
    let mut workshop = Workshop::new(goal);
    let Some(before) = workshop.blemishes(None) else { return Vec::new() };
    let mut found = Vec::new();
    for kept in kept.into_iter().filter(|kept| kept.closes) {
        let Some(trial) = workshop.judge(SiftedChoice::edit(goal, kept)).filter(|trial| trial.closes) else {
            continue;
        };
        let now = workshop.blemishes(Some(&trial.choice)).filter(|now| now.warnings < before.warnings);
        let gain = workshop.gain(&trial.choice);
        found.extend(now.map(|now| (workshop.order(&trial.choice, gain, &now), trial)));
    }
    found.sort_by_key(|(order, _)| *order);
    found.iter().take(MOST_MENDS).map(|(_, trial)| words::no_idle_step(goal, &trial.choice)).collect()
}
