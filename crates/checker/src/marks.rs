//! Where in the text a knot was tied: of a chart the very mark.

use crate::{Named, Part, Pattern, Place, Source, Step};
use knotwright_band::Knot;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{ChartRow, LeaderChart, RowsChart, Sign, Statement};
use knotwright_numbers::ToNumber;
use std::sync::Arc;

/// The mark of a chart that tied a knot of a part, or the whole step.
pub(crate) fn place_of(pattern: &Pattern, part: &Part, knot: u32) -> Option<Place> {
    place_in(pattern.sources(), part, knot)
}

/// As [`place_of`]; `sources`: the checked file first, then those it uses.
pub(crate) fn place_in<'a>(
    mut sources: impl Iterator<Item = &'a Arc<Source>>,
    part: &Part,
    knot: u32,
) -> Option<Place> {
    let step = &part.steps[part.step_of(knot)?];
    let source = sources.nth(step.place.file.0.to_usize())?;
    let is_row = matches!(step.named, Named::Row | Named::Leader);
    let row = is_row.then(|| chart_row(source, step.place)).flatten();
    let mark = row.and_then(|row| mark_in(row, part, step, knot));
    Some(mark.map_or(step.place, |span| Place { span, ..step.place }))
}

/// The row of a chart at a place.
fn chart_row(source: &Source, place: Place) -> Option<&ChartRow> {
    source
        .parsed
        .tree
        .walk()
        .find_map(|statement| rows_of(statement)?.iter().find(|row| row.span == place.span))
}

fn rows_of(statement: &Statement) -> Option<&[ChartRow]> {
    let rows = statement.get::<RowsChart>().map(|rows| &rows.chart);
    let chart = rows.or_else(|| statement.get::<LeaderChart>().map(|leader| &leader.chart))?;
    Some(&chart.rows)
}

fn mark_in(row: &ChartRow, part: &Part, step: &Step, knot: u32) -> Option<Span> {
    let nth = (knot - step.knots.start).to_usize();
    let mark = match step.named {
        // They are tied as they are read, and a dot ties nothing.
        Named::Row => row.marks.iter().filter(|mark| mark.sign != Sign::Dot).nth(nth)?,
        Named::Leader => &row.marks[column(row, part.knots_of(step), nth)?],
        _ => return None,
    };
    Some(mark.span())
}

/// The column of a leader's knot: they are read from the left of the face, in a mirror from its right.
fn column(row: &ChartRow, knots: &[Knot], nth: usize) -> Option<usize> {
    let first = knots.iter().map(|knot| knot.gap).min()?;
    let column = |knot: &Knot| usize::from(knot.gap - first);
    let leader = leader(knots)?;
    let last = row.marks.len().checked_sub(1)?;
    let is_read = |at: &dyn Fn(usize) -> Option<usize>| {
        knots.iter().all(|knot| {
            let mark = at(column(knot)).and_then(|at| row.marks.get(at));
            mark.is_some_and(|mark| (mark.sign == Sign::Dot) == (knot.working == leader))
        })
    };
    let own = column(knots.get(nth)?);
    let is_plain = is_read(&Some);
    if is_plain { Some(own) } else { last.checked_sub(own) }
}

/// The strand that all knots of a row share.
fn leader(knots: &[Knot]) -> Option<u8> {
    let [first, rest @ ..] = knots else { return None };
    let shared = |strand: u8| rest.iter().all(|knot| knot.working == strand || knot.base == strand);
    // In a row of one knot, which is of two strands, the working one may be taken for it.
    if shared(first.working) { Some(first.working) } else { Some(first.base).filter(|&base| shared(base)) }
}
