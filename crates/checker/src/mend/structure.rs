//! Statements and rows of charts left out, doubled, exchanged, put in a mirror: which such edits there are.

use crate::Source;
use crate::tie::{RowEdit, StatementEdit};
use knotwright_grammar::tree::{Block, BothBlock, Chart, Meet, MirroredBlock, RowsChart, Statement, Take};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashSet as HashSet;

/// A chart with more rows than this gets no copies of its rows.
const MOST_ROWS: usize = 60;

/// Statements farther apart than this are no copies of one another.
const FAR: usize = 12;

/// Whether it gives a label: that is to be given once, where it is known to the steps that call it.
fn gives_label(statement: &Statement) -> bool {
    statement.get::<Take>().is_some_and(|take| take.label.is_some())
}

/// Whether every statement of a block is on lines of its own.
pub(super) fn is_open(source: &Source, block: &Block) -> bool {
    let starts_line = |statement: &Statement| {
        let before = &source.text[..statement.span.start.to_usize()];
        before.rsplit(['\n', '\r']).next().is_some_and(|line| line.trim().is_empty())
    };
    block.statements.iter().all(starts_line)
}

/// A block, and what its statements' edits depend on.
#[derive(Debug, Clone, Copy)]
pub(super) struct EditedBlock<'a> {
    pub(super) block: &'a Block,
    /// Whose block it is.
    pub(super) holder: &'a Statement,
    /// Whether every statement stands on lines of its own.
    is_open: bool,
}

impl<'a> EditedBlock<'a> {
    /// The block of a statement that has one.
    pub(super) fn of(source: &Source, holder: &'a Statement) -> Option<Self> {
        let block = holder.node.block()?;
        Some(Self { block, holder, is_open: is_open(source, block) })
    }
}

/// The edits of the statement of that number in a block, and how great each is.
pub(super) fn list_edits(
    source: &Source,
    EditedBlock { block, holder, is_open }: EditedBlock,
    index: usize,
) -> Vec<(StatementEdit, u8)> {
    let statement = &block.statements[index];
    let mut edits = Vec::new();
    if !statement.is_step() || gives_label(statement) {
        return edits;
    }
    if is_open {
        let above = index.checked_sub(1).map(|above| &block.statements[above]);
        let text = |statement: &Statement| statement.span.of(&source.text);
        let is_twin = above.is_some_and(|above| text(above) == text(statement));
        edits.push((StatementEdit::LeftOut, if is_twin { 2 } else { 3 }));
        if !is_twin {
            edits.push((StatementEdit::Doubled, 3));
            edits.extend(
                above
                    .filter(|above| above.is_step() && !gives_label(above))
                    .map(|_| (StatementEdit::Swapped, 3)),
            );
        }
        edits.extend(copies(source, block, index).map(|copied| (StatementEdit::CopyBefore(copied), 4)));
    }
    let is_mirror = |statement: &Statement| statement.is::<BothBlock>() || statement.is::<MirroredBlock>();
    let is_symmetric = statement.is::<Meet>() || statement.is::<RowsChart>();
    if !statement.span.of(&source.text).contains(['\n', '\r']) && !is_symmetric {
        match is_mirror(statement) {
            true => edits.push((StatementEdit::Plain, 3)),
            false if is_mirror(holder) => {}
            false => edits.extend([(StatementEdit::Both, 3), (StatementEdit::Mirrored, 3)]),
        }
    }
    edits
}

/// Statements not far from this one that might have been forgotten before it.
fn copies<'s>(source: &'s Source, block: &'s Block, index: usize) -> impl Iterator<Item = u16> + use<'s> {
    let text = |at: usize| block.statements[at].span.of(&source.text);
    let near = index.saturating_sub(FAR)..(index + FAR).min(block.statements.len());
    let mut seen: HashSet<&str> = index.checked_sub(1).map(text).into_iter().chain([text(index)]).collect();
    let is_new = move |&at: &usize| {
        let statement = &block.statements[at];
        statement.is_step() && !gives_label(statement) && seen.insert(text(at))
    };
    near.filter(is_new).map(|at| at.to_u16())
}

/// The edits of a chart's rows: the row's number, the edit, and how great it is.
pub(super) fn list_row_edits(source: &Source, chart: &Chart) -> Vec<(usize, RowEdit, u8)> {
    let mut edits = Vec::new();
    let text = |row: usize| -> Option<String> {
        let row = chart.rows.get(row)?;
        Some(row.span.of(&source.text).split_whitespace().collect())
    };
    let mut seen = HashSet::default();
    let different: Vec<usize> = (0..chart.rows.len()).filter(|&row| seen.insert(text(row))).collect();
    for row in 0..chart.rows.len() {
        edits.push((row, RowEdit::LeftOut, if row > 0 && text(row - 1) == text(row) { 2 } else { 3 }));
        if row + 1 < chart.rows.len() && text(row) != text(row + 1) {
            edits.push((row, RowEdit::Swapped, 3));
        }
        if chart.rows.len() > MOST_ROWS {
            continue;
        }
        for &copied in &different {
            if text(copied) != text(row) {
                edits.push((row, RowEdit::Before(copied.to_u16()), 4));
            }
            if row + 1 == chart.rows.len() || text(copied) == text(row) {
                // A row that stands there twice is the likelier one to be forgotten.
                let size = if text(copied) == text(row) { 3 } else { 4 };
                edits.push((row, RowEdit::After(copied.to_u16()), size));
            }
        }
    }
    edits
}
