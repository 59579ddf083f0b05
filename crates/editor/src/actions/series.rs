//! A series instead of a list of steps, and the other way about.

use super::Proposal;
use super::pieces::{Siblings, begins_line, indent};
use crate::exprs::value;
use crate::{Checked, TextEdit};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Direction, Expr, Extent, Run, Series, StrandBy, Take};
use knotwright_rewriter::line_end;

/// A longer list is no help.
const MOST: i64 = 40;

/// `take left 1: forward 4 down to 1` as `forward 4` and a `then` for each other number.
pub(super) fn to_list(checked: &Checked, range: Span) -> Option<Proposal> {
    let siblings = Siblings::of(checked, range)?;
    let [statement] = siblings.statements() else { return None };
    let take = statement.get::<Take>()?;
    let run = take.runs.iter().find(|run| matches!(run.extent, Extent::Series(_)))?;
    let Extent::Series(series) = &run.extent else { return None };
    let numbers = numbers(series)?;
    let text = checked.text();
    let whole = take.runs.first()?.span.to(take.runs.last()?.span);
    if !begins_line(text, statement.span.start) || siblings.has_comments(checked) {
        return None;
    }
    let written = series_span(series);
    let (head, tail) =
        (Span { end: written.start, ..whole }.of(text), Span { start: written.end, ..whole }.of(text));
    let gap = format!("{}{}  then ", line_end(text), indent(text, statement.span.start));
    let lines: Vec<String> = numbers.iter().map(|number| format!("{head}{number}{tail}")).collect();
    Some(Proposal::new("Write the series as a list", vec![TextEdit { span: whole, text: lines.join(&gap) }]))
}

fn series_span(series: &Series) -> Span {
    series.first.span().to(series.by.as_ref().unwrap_or(&series.last).span())
}

/// The numbers of a series that is written in digits.
fn numbers(series: &Series) -> Option<Vec<i64>> {
    let by = series.by.as_ref().map_or(Some(1), |by| value(by, &[]))?;
    let (first, last) = (value(&series.first, &[])?, value(&series.last, &[])?);
    let count = (first - last).abs() / by.max(1) + 1;
    let step = if series.direction == Direction::Down { -by } else { by };
    (2..=MOST).contains(&count).then(|| (0..count).map(|pass| first + pass * step).collect())
}

/// A `take` with `then`, or several `take` of one place, whose one number goes up or down evenly.
pub(super) fn to_series(checked: &Checked, range: Span) -> Option<Proposal> {
    let mut siblings = Siblings::of(checked, range)?;
    if range.is_empty() {
        siblings = alike(checked, siblings);
    }
    let takes: Option<Vec<&Take>> =
        siblings.statements().iter().map(|statement| statement.get::<Take>()).collect();
    let takes = takes?;
    let first = takes.first()?;
    let strand = first.strand.span.of(checked.text());
    let same = |take: &&Take| by_place(take) && take.strand.span.of(checked.text()) == strand;
    if !takes.iter().all(same) || siblings.has_comments(checked) {
        return None;
    }
    let phases: Vec<&[Run]> = takes
        .iter()
        .flat_map(|take| {
            std::iter::once(take.runs.as_slice()).chain(take.thens.iter().map(|then| then.runs.as_slice()))
        })
        .collect();
    let runs = merged(checked, &phases)?;
    let text = format!("take {strand}: {runs}");
    Some(Proposal::new("Write it as a series", vec![TextEdit { span: siblings.span(), text }]))
}

fn by_place(take: &Take) -> bool {
    let place = !matches!(take.strand.by, StrandBy::Color { .. } | StrandBy::Label(_));
    place && take.promise.is_none() && take.label.is_none()
}

/// The `take` statements around this one that take the same place.
fn alike<'c>(checked: &'c Checked, siblings: Siblings<'c>) -> Siblings<'c> {
    let all = &siblings.block.statements;
    let strand = |at: usize| {
        let take = all[at].get::<Take>().filter(|take| by_place(take))?;
        Some(take.strand.span.of(checked.text()))
    };
    let own = strand(siblings.first);
    if own.is_none() {
        return siblings;
    }
    let first =
        (0..siblings.first).rev().take_while(|&at| strand(at) == own).last().unwrap_or(siblings.first);
    let last = (siblings.last..all.len())
        .take_while(|&at| strand(at) == own)
        .last()
        .map_or(siblings.last, |at| at + 1);
    Siblings { first, last, ..siblings }
}

/// The runs of all phases as one, with a series in place of the number that changes.
fn merged(checked: &Checked, phases: &[&[Run]]) -> Option<String> {
    let (first, rest) = phases.split_first().filter(|(_, rest)| rest.len() >= 2)?;
    let number = |run: &Run| match &run.extent {
        Extent::Count { count: Expr::Number(number), over: None } => {
            Some((i64::from(number.value), number.span))
        }
        _ => None,
    };
    let changes = (0..first.len()).find(|&at| {
        rest.iter().any(|runs| runs.get(at).and_then(number).map(|n| n.0) != number(&first[at]).map(|n| n.0))
    })?;
    let numbers: Option<Vec<i64>> = phases.iter().map(|runs| Some(number(runs.get(changes)?)?.0)).collect();
    let written = series_of(&numbers?)?;
    let (_, span) = number(&first[changes])?;
    let whole = first.first()?.span.to(first.last()?.span);
    let text = checked.text();
    Some(format!(
        "{}{written}{}",
        Span { end: span.start, ..whole }.of(text),
        Span { start: span.end, ..whole }.of(text)
    ))
}

/// `4 down to 1`, `1 up to 5 by 2`
fn series_of(numbers: &[i64]) -> Option<String> {
    let step = numbers.get(1)? - numbers.first()?;
    if step == 0 || numbers.windows(2).any(|pair| pair[1] - pair[0] != step) {
        return None;
    }
    let by = if step.abs() == 1 { String::new() } else { format!(" by {}", step.abs()) };
    let way = if step < 0 { "down" } else { "up" };
    Some(format!("{} {way} to {}{by}", numbers[0], numbers.last()?))
}
