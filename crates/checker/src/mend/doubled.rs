//! Steps that stand twice, one below the other, where once would do.

use super::candidates::{Candidate, What};
use super::search::Goal;
use super::structure::{gives_label, is_line, is_open};
use super::trial::{Choice, Workshop};
use crate::rules::{is_open_on_purpose, word_twice};
use crate::tie::{Change, Overlay, StatementEdit};
use crate::{FileId, Finding, Place};
use knotwright_grammar::tree::{ForBlock, RepeatBlock, Statement, Work};

/// The most that are looked at.
const MOST: usize = 3;

/// A pattern that costs more to tie is not looked through.
const MOST_COST: u64 = 5_000;

/// What is found in a pattern in which nothing is wrong.
pub(crate) fn find_doubled(goal: &Goal) -> Vec<Finding> {
    let closes = goal.closes != Some(false) || is_open_on_purpose(goal.script);
    if goal.cost > MOST_COST || !goal.facts.is_empty() || !goal.is_clean() || !closes {
        return Vec::new();
    }
    let twins = list_twins(goal);
    if twins.is_empty() || !has_other_steps(goal, twins[0].0) {
        return Vec::new();
    }
    let source = goal.script.source();
    let mut workshop = Workshop::new(goal);
    let Some(before) = workshop.blemishes(None) else { return Vec::new() };
    let mut is_idle = |second: &Statement| {
        let trial = workshop.tried(Choice::Step(left_out(second)), 0).filter(|trial| trial.closes);
        let now = trial.and_then(|trial| workshop.blemishes(Some(&trial.choice)));
        now.is_some_and(|now| now.warnings <= before.warnings && now.asymmetric <= before.asymmetric)
    };
    let idle = twins.into_iter().filter(|(_, second)| is_idle(second));
    let place = |statement: &Statement| Place { file: FileId::CHECKED, span: statement.span };
    idle.map(|(first, second)| {
        let text = second.span.of(&source.text);
        word_twice(text, place(first), place(second), super::lines::line(source, second.span))
    })
    .collect()
}

/// Statements that stand exactly twice, each on a line of its own.
fn list_twins<'s>(goal: &Goal<'s>) -> Vec<(&'s Statement, &'s Statement)> {
    let source = goal.script.source();
    let text = |statement: &Statement| statement.span.of(&source.text);
    let mut twins = Vec::new();
    for block in source.parsed.tree.walk().filter_map(|holder| holder.node.block()) {
        let same = block.statements.chunk_by(|one, other| text(one) == text(other));
        for two in same.filter(|same| same.len() == 2 && may_be_slip(&same[0], text(&same[0]))) {
            if twins.len() < MOST && is_open(source, block) {
                twins.push((&two[0], &two[1]));
            }
        }
    }
    twins
}

/// Whether anything else is tied than this step.
fn has_other_steps(goal: &Goal, step: &Statement) -> bool {
    let source = goal.script.source();
    let text = |statement: &Statement| statement.span.of(&source.text);
    let mut others = source.parsed.tree.walk();
    others.any(|other| other.is_step() && other.node.block().is_none() && !text(step).contains(text(other)))
}

/// Motifs and loops are worked several times on purpose.
fn may_be_slip(statement: &Statement, text: &str) -> bool {
    let is_whole = statement.is::<Work>() || statement.is::<RepeatBlock>() || statement.is::<ForBlock>();
    statement.is_step() && !is_whole && !gives_label(statement) && is_line(text)
}

fn left_out(statement: &Statement) -> Candidate {
    let place = Place { file: FileId::CHECKED, span: statement.span };
    Candidate {
        overlay: Overlay { place, change: Change::Statement(StatementEdit::LeftOut) },
        what: What::Statement { above: None },
        statement: statement.span.start,
        from_above: false,
        age: 0,
        size: 2,
    }
}
