//! Wider and wider selections around a cursor.

use crate::exprs::exprs;
use crate::site::{Site, token_at};
use knotwright_checker::Source;
use knotwright_grammar::tree::{Block, Chart, Expect, Node, Run, Statement, Strands};
use knotwright_grammar::{Span, TokenKind};

/// The spans around `offset`, each within the next: the word, the number, the run, the statement, the block ...
pub fn selections(source: &Source, offset: u32) -> Vec<Span> {
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
    spans.extend(exprs(&statement.node).iter().map(|(expr, _)| expr.span()));
    spans.extend([statement.span, statement.head]);
    match &statement.node {
        Node::Take(take) => {
            spans.push(take.strand.span);
            runs(&take.runs, spans);
            for then in &take.thens {
                runs(&then.runs, spans);
                let end = then.runs.last().map_or(then.word.end, |run| run.span.end);
                spans.push(Span { start: then.word.start, end });
            }
        }
        Node::Expect(Expect::List(list)) | Node::Strands(Strands::Across(list)) => spans.push(list.span),
        Node::Rows { chart, .. } | Node::Leader { chart, .. } => rows(chart, spans),
        node => node.block().into_iter().for_each(|block| inner(block, spans)),
    }
}

fn runs(runs: &[Run], spans: &mut Vec<Span>) {
    spans.extend(runs.iter().map(|run| run.span));
    if let (Some(first), Some(last)) = (runs.first(), runs.last()) {
        spans.push(first.span.to(last.span));
    }
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
