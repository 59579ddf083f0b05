//! An `expect` that is itself wrong: it stands a step too early or too late, or `mirrored` is missing or too much.

use super::lines::{begin_of_line, line};
use super::reread::Rereader;
use super::search::{Goal, study_goal};
use crate::tie::{Failing, PartStudy, Studied};
use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Expect, Statement};
use knotwright_numbers::ToNumber;

/// How many statements farther up or down it is tried.
const FAR: usize = 3;

/// Edits of the first `expect` that fails, after which nothing is wrong.
pub(crate) fn mend_expects(goal: &Goal, rereader: &Rereader) -> Vec<Mend> {
    let fails = |fact: &&Fact| {
        matches!(fact.kind, FactKind::ExpectFails { .. }) && fact.place.file == FileId::CHECKED
    };
    let source = rereader.source();
    let found = goal.facts.iter().find(fails).and_then(|fact| find(source, fact.place.span));
    let Some((block, at)) = found else { return Vec::new() };
    if study_goal(goal).is_some_and(|studied| !is_alone(&studied, block.statements[at].span.start)) {
        return Vec::new();
    }
    let edits = mirror(source, &block.statements[at]).into_iter().chain(moves(source, block, at));
    let holds = |mend: &Mend| rereader.after(&mend.edits).is_some_and(|reread| reread.holds());
    edits.filter(holds).collect()
}

/// Whether nothing else is wrong but the `expect` that starts there, as far as is known: it moves no strand, wherever it stands.
fn is_alone(studied: &Studied, start: u32) -> bool {
    let is_only = |part: &PartStudy| {
        let passes = part.begun.get(&start).map_or(&[][..], Vec::as_slice);
        // It asks no more than once of each strand.
        let is_own = |failing: &Failing| {
            let begun = passes.partition_point(|pass| pass.time <= failing.time);
            passes[..begun].last().is_some_and(|pass| failing.time < pass.time + u32::from(pass.width()))
        };
        part.walls.is_empty() && part.failing.iter().all(is_own)
    };
    studied.is_blind() || studied.parts.iter().all(is_only)
}

/// The block of the `expect` that starts there, and its number.
fn find(source: &Source, span: Span) -> Option<(&Block, usize)> {
    source.parsed.tree.walk().filter_map(|holder| holder.node.block()).find_map(|block| {
        let at = block.statements.iter().position(|inner| {
            inner.is::<Expect>() && inner.span.start <= span.start && span.end <= inner.span.end
        })?;
        Some((block, at))
    })
}

fn place(span: Span) -> Place {
    Place { file: FileId::CHECKED, span }
}

fn mirror(source: &Source, expect: &Statement) -> Option<Mend> {
    let Some(Expect::Start { mirrored }) = expect.get() else { return None };
    let (says, span, text) = match mirrored {
        None => {
            let end = expect.span.end;
            ("write `expect start mirrored`", Span { start: end, end }, " mirrored")
        }
        Some(word) => {
            let before = source.text[..word.start.to_usize()].trim_end().len().to_u32();
            ("leave out `mirrored`", Span { start: before, end: word.end }, "")
        }
    };
    let edits = vec![Edit { place: place(span), text: text.to_owned() }];
    Some(Mend::new(format!("{says}: every promise holds then"), edits, false))
}

/// The line of the `expect`, put before or after others, the nearest first.
fn moves(source: &Source, block: &Block, at: usize) -> Vec<Mend> {
    let text = |statement: &Statement| statement.span.of(&source.text);
    let expect = &block.statements[at];
    let own = line(source, expect.span);
    let is_alone = own.of(&source.text).trim() == text(expect);
    let steps = |numbers: Vec<usize>| {
        numbers.into_iter().filter(|&other| block.statements[other].is_step()).take(FAR)
    };
    let up = steps((0..at).rev().collect()).map(|other| {
        let before = begin_of_line(source, block.statements[other].span).0;
        (other, "before", before)
    });
    let down = steps((at + 1..block.statements.len()).collect()).map(|other| {
        let after = line(source, block.statements[other].span).end;
        (other, "after", after)
    });
    let mend = |(other, side, to): (usize, &str, u32)| {
        let shown = text(&block.statements[other]).lines().next().unwrap_or_default().to_owned();
        let to = Span { start: to, end: to };
        let mut edits = vec![
            Edit { place: place(own), text: String::new() },
            Edit { place: place(to), text: own.of(&source.text).to_owned() },
        ];
        edits.sort_by_key(|edit| edit.place);
        let title = format!("put `{}` {side} `{shown}`: every promise holds then", text(expect));
        Mend::new(title, edits, false)
    };
    let mut moves: Vec<_> = up.chain(down).filter(|_| is_alone).collect();
    moves.sort_by_key(|&(other, ..)| other.abs_diff(at));
    moves.into_iter().map(mend).collect()
}
