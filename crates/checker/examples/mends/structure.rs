//! Slips in the lines of a file: a step, a row or a strand forgotten, written twice, exchanged.

use crate::Slip;
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, BothBlock, ChartRow, LeaderChart, ListItem, ListShape, Meet, MirroredBlock, RowsChart, Statement,
    Strands, Take, Work,
};
use knotwright_numbers::ToNumber;

/// Every such slip in a file.
pub(crate) fn gather(source: &Source) -> Vec<Slip> {
    let mut slips = all(source);
    slips.retain(|slip| !is_block(source, slip));
    slips
}

/// Several lines that are left out at once: what stood in them, nobody can say.
pub(crate) fn gather_blocks(source: &Source) -> Vec<Slip> {
    let mut slips = all(source);
    slips.retain(|slip| is_block(source, slip));
    slips
}

fn is_block(source: &Source, slip: &Slip) -> bool {
    let [(span, text)] = &slip.edits[..] else { return false };
    text.is_empty() && span.of(&source.text).trim_end().contains('\n')
}

fn all(source: &Source) -> Vec<Slip> {
    let mut slips = Vec::new();
    for statement in source.parsed.tree.walk() {
        if let Some(Strands::Across(list)) = statement.get::<Strands>() {
            let items: Vec<&[ListItem]> = match &list.shape {
                ListShape::Plain(all) | ListShape::Mirror(all) => vec![all],
                ListShape::Halves(left, right) => vec![left, right],
                ListShape::MirrorAround(half, _) => vec![half],
            };
            items.into_iter().for_each(|items| strands(source, items, &mut slips));
        }
        if let Some(chart) = statement.get::<RowsChart>() {
            rows(source, &chart.chart.rows, &mut slips);
        }
        if let Some(chart) = statement.get::<LeaderChart>() {
            rows(source, &chart.chart.rows, &mut slips);
        }
        mirrors(source, statement, &mut slips);
        if let Some(block) = statement.node.block() {
            steps(source, block, &mut slips);
        }
    }
    slips
}

fn steps(source: &Source, block: &Block, slips: &mut Vec<Slip>) {
    for (index, statement) in block.statements.iter().enumerate() {
        let Some(line) = whole_lines(source, statement.span).filter(|_| statement.is_step()) else {
            continue;
        };
        let sort = match () {
            () if statement.is::<Meet>() => "`meet` left out",
            () if statement.is::<Take>() => "step left out",
            () => "block left out",
        };
        slips.push(Slip::one(sort, line, String::new()));
        let lines = line.of(&source.text).to_owned();
        slips.push(Slip::one("step doubled", Span { start: line.end, end: line.end }, lines));
        if let Some(next) = block.statements.get(index + 1).filter(|next| next.is_step()) {
            swap(source, "steps exchanged", (statement.span, next.span), slips);
        }
    }
}

fn rows(source: &Source, rows: &[ChartRow], slips: &mut Vec<Slip>) {
    for (index, row) in rows.iter().enumerate() {
        let Some(line) = whole_lines(source, row.span) else { continue };
        slips.push(Slip::one("row left out", line, String::new()));
        let lines = line.of(&source.text).to_owned();
        slips.push(Slip::one("row doubled", Span { start: line.end, end: line.end }, lines));
        if let Some(next) = rows.get(index + 1) {
            swap(source, "rows exchanged", (row.span, next.span), slips);
        }
    }
}

fn mirrors(source: &Source, statement: &Statement, slips: &mut Vec<Slip>) {
    let is_mirror = statement.is::<BothBlock>() || statement.is::<MirroredBlock>();
    if let Some(block) = statement.node.block().filter(|_| is_mirror)
        && let (Some(first), Some(last)) = (block.statements.first(), block.statements.last())
        && !statement.span.of(&source.text).contains('\n')
    {
        let inner = first.span.to(last.span).of(&source.text).to_owned();
        slips.push(Slip::one("mirror forgotten", statement.span, inner));
    }
    if let Some(word) = statement.get::<Work>().and_then(|work| work.mirrored) {
        slips.push(Slip::one("mirror forgotten", word, String::new()));
    }
}

fn strands(source: &Source, items: &[ListItem], slips: &mut Vec<Slip>) {
    let span = |item: &ListItem| match &item.count {
        Some(count) => count.span().to(item.thread.span),
        None => item.thread.span,
    };
    for (index, item) in items.iter().enumerate() {
        if items.len() > 1 && item.count.is_none() {
            slips.push(Slip::one("strand left out", span(item), String::new()));
        }
        if let Some(next) = items.get(index + 1) {
            swap(source, "strands exchanged", (span(item), span(next)), slips);
        }
    }
}

fn swap(source: &Source, sort: &'static str, (one, other): (Span, Span), slips: &mut Vec<Slip>) {
    let (first, second) = (one.of(&source.text), other.of(&source.text));
    if first != second {
        let edits = vec![(one, second.to_owned()), (other, first.to_owned())];
        slips.push(Slip { sort, edits });
    }
}

/// The lines a piece is on, if nothing else does.
fn whole_lines(source: &Source, span: Span) -> Option<Span> {
    let text = &source.text;
    let start = text[..span.start.to_usize()].rfind('\n').map_or(0, |at| at + 1);
    let end = text[span.end.to_usize()..].find('\n').map(|at| span.end.to_usize() + at)?;
    let is_alone = text[start..span.start.to_usize()].trim().is_empty()
        && text[span.end.to_usize()..end].trim().is_empty();
    is_alone.then(|| Span::new(start, end + 1))
}
