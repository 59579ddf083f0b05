//! Wider and wider selections around a cursor.

use crate::site::{Site, token_at};
use knotwright_checker::Source;
use knotwright_grammar::tree::{Block, Chart, Child, Run, Statement};
use knotwright_grammar::{Span, TokenKind};

/// The spans around `offset`, each within the next: the word, the number, the run, the statement, the block ...
pub fn selection_ranges(source: &Source, offset: u32) -> Vec<Span> {
    let mut spans = Vec::new();
    if let Some(token) = token_at(source, offset) {
        spans.push(token.span);
        if token.kind == TokenKind::String {
            spans.push(Span { start: token.span.start + 1, end: token.span.end - 1 });
        }
    }
    for statement in Site::at(source, offset).path {
        of_statement(statement, &mut spans);
    }
    spans.push(Span::new(0, source.text.len()));
    spans.retain(|span| span.touches(offset));
    spans.sort_by_key(|span| (span.len(), span.start));
    nested(spans)
}

/// Each within the next; those that overlap otherwise are left out.
fn nested(spans: Vec<Span>) -> Vec<Span> {
    let mut kept: Vec<Span> = Vec::new();
    for span in spans {
        let holds = |inner: &Span| span.start <= inner.start && inner.end <= span.end && *inner != span;
        if kept.last().is_none_or(holds) {
            kept.push(span);
        }
    }
    kept
}

fn of_statement(statement: &Statement, spans: &mut Vec<Span>) {
    spans.extend([statement.span, statement.head]);
    statement.node.children(&mut |child| match child {
        Child::Number(_, number) => spans.push(number.span()),
        Child::Strand(strand) => spans.push(strand.span),
        Child::Run(run) => spans.push(run.span),
        Child::Runs(runs) => spans.extend(whole(runs)),
        Child::Then(then) => spans.push(whole(&then.runs).map_or(then.word, |runs| then.word.to(runs))),
        Child::List(list) => spans.push(list.span),
        Child::Chart(chart) => rows(chart, spans),
        Child::Block(block) => inner(block, spans),
        Child::Gives(..) | Child::Calls(..) | Child::Text(_) => {}
    });
}

/// From the first run to the last.
fn whole(runs: &[Run]) -> Option<Span> {
    Some(runs.first()?.span.to(runs.last()?.span))
}

fn rows(chart: &Chart, spans: &mut Vec<Span>) {
    spans.extend(chart.rows.iter().map(|row| row.span));
    if let (Some(first), Some(last)) = (chart.rows.first(), chart.rows.last()) {
        spans.push(first.span.to(last.span));
    }
    spans.extend(chart.close.map(|close| chart.open.to(close)));
}

fn inner(block: &Block, spans: &mut Vec<Span>) {
    if let (Some(first), Some(last)) = (block.statements.first(), block.statements.last()) {
        spans.push(first.span.to(last.span));
    }
    spans.extend(block.close.map(|close| block.open.to(close)));
}
