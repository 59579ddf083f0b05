//! Statements and rows of charts left out, doubled, exchanged, put in a mirror: which such edits there are.

use super::copies::Copies;
use crate::Source;
use crate::tie::{RowEdit, StatementEdit};
use knotwright_grammar::tree::{
    Block, BothBlock, Chart, ChartRow, Expect, Meet, MirroredBlock, RowsChart, Sign, Statement, Take,
};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashSet as HashSet;

/// A chart with more rows than this gets no copies of its rows.
const MOST_ROWS: usize = 60;

/// Whether it gives a label: that is to be given once, where it is known to the steps that call it.
pub(super) fn gives_label(statement: &Statement) -> bool {
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

/// Whether a text is all on one line.
pub(super) fn is_line(text: &str) -> bool {
    !text.contains('\n') && !text.contains('\r')
}

/// What the edits of a block's statements depend on, besides the block itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct BlockKind {
    /// Whether every statement stands on lines of its own.
    is_open: bool,
    /// Whether it is the block of a `both` or `mirrored`.
    is_of_mirror: bool,
}

impl BlockKind {
    /// That of the block of `holder`.
    pub(super) fn of(source: &Source, holder: &Statement, block: &Block) -> Self {
        Self::new(source, block, is_mirror(holder))
    }

    pub(super) fn new(source: &Source, block: &Block, is_of_mirror: bool) -> Self {
        Self { is_open: is_open(source, block), is_of_mirror }
    }
}

pub(super) fn is_mirror(statement: &Statement) -> bool {
    statement.is::<BothBlock>() || statement.is::<MirroredBlock>()
}

/// How great a change it is that two statements change places, if these are the one of that number in a block and the one above
/// it. Where both are the same, that is none.
pub(super) fn swapped(source: &Source, block: &Block, kind: BlockKind, index: usize) -> Option<u8> {
    let (statement, above) = (&block.statements[index], &block.statements[index.checked_sub(1)?]);
    let may_move = |statement: &Statement| statement.is_step() && !gives_label(statement);
    let text = |statement: &Statement| statement.span.of(&source.text);
    (kind.is_open && may_move(statement) && may_move(above) && text(statement) != text(above)).then_some(3)
}

/// The edits of the statement of that number in a block, and how great each is.
pub(super) fn list_edits(
    source: &Source,
    block: &Block,
    kind: BlockKind,
    index: usize,
    copies: Option<&Copies>,
) -> Vec<(StatementEdit, u8)> {
    let BlockKind { is_open, is_of_mirror } = kind;
    let statement = &block.statements[index];
    let mut edits = Vec::new();
    let before = || copies.into_iter().flat_map(|copies| copies.before(block, index));
    if is_open && statement.is::<Expect>() {
        edits.extend(before().map(|copied| (StatementEdit::CopyBefore(copied), 4)));
    }
    if !statement.is_step() || gives_label(statement) {
        return edits;
    }
    if is_open {
        let above = index.checked_sub(1).map(|above| &block.statements[above]);
        let text = |statement: &Statement| statement.span.of(&source.text);
        let is_twin = above.is_some_and(|above| text(above) == text(statement));
        let near = |index: Option<usize>| block.statements.get(index?).map(text);
        let around = [index.checked_sub(2), index.checked_sub(1), Some(index + 1)].map(near);
        if is_one_of_its_kind(text(statement), around) {
            edits.push((StatementEdit::LeftOut, if is_twin { 2 } else { 3 }));
        }
        if !is_twin {
            edits.push((StatementEdit::Doubled, 3));
        }
        edits.extend(swapped(source, block, kind, index).map(|size| (StatementEdit::Swapped, size)));
        edits.extend(before().map(|copied| (StatementEdit::CopyBefore(copied), 4)));
        if index + 1 == block.statements.len() {
            let after = copies.into_iter().flat_map(|copies| copies.after(block, index));
            edits.extend(after.map(|copied| (StatementEdit::CopyAfter(copied), 4)));
        }
    }
    let is_symmetric = statement.is::<Meet>() || statement.is::<RowsChart>();
    if is_line(statement.span.of(&source.text)) && !is_symmetric {
        match is_mirror(statement) {
            true => edits.push((StatementEdit::Plain, 3)),
            false if is_of_mirror => {}
            false => edits.extend([(StatementEdit::Both, 3), (StatementEdit::Mirrored, 3)]),
        }
    }
    edits
}

/// The edits of a chart's rows: the row's number, the edit, and how great it is. `is_uneven`: a row of it is too long or too
/// short.
pub(super) fn list_row_edits(source: &Source, chart: &Chart, is_uneven: bool) -> Vec<(usize, RowEdit, u8)> {
    let mut edits = Vec::new();
    let rows: Vec<String> = chart.rows.iter().map(|row| row.span.of(&source.text)).map(squeezed).collect();
    let mut seen = HashSet::default();
    let different: Vec<usize> = (0..rows.len()).filter(|&row| seen.insert(&rows[row])).collect();
    for row in 0..rows.len() {
        let next = rows.get(row + 1);
        let is_twin = row > 0 && rows[row - 1] == rows[row];
        // Rows take turns in how long they are: with one more or one fewer, no row after it would be as long as it must.
        let keeps_turns = next.is_none_or(|next| is_uneven || next.len() == rows[row].len());
        let near = |row: Option<usize>| rows.get(row?).map(String::as_str);
        let around = [row.checked_sub(2), row.checked_sub(1), Some(row + 1)].map(near);
        if is_one_of_its_kind(&rows[row], around) && keeps_turns {
            edits.push((row, RowEdit::LeftOut, if is_twin { 2 } else { 3 }));
        }
        if next.is_some_and(|next| *next != rows[row] && (is_uneven || next.len() == rows[row].len())) {
            edits.push((row, RowEdit::Swapped, 3));
        }
        if rows.len() > MOST_ROWS {
            continue;
        }
        for &copied in &different {
            let is_same = rows[copied] == rows[row];
            if !is_same && keeps_turns {
                edits.push((row, RowEdit::Before(copied.to_u16()), 4));
            }
            if next.is_none() || (is_same && keeps_turns) {
                // A row that stands there twice is the likelier one to be forgotten.
                edits.push((row, RowEdit::After(copied.to_u16()), if is_same { 3 } else { 4 }));
            }
        }
    }
    edits
}

/// Of several side by side that are the same, it makes no difference which one is left out: whether it is the second of
/// them, or not like its neighbors. `around`: the two before it, and the one after it.
fn is_one_of_its_kind(own: &str, around: [Option<&str>; 3]) -> bool {
    match around.map(|other| other == Some(own)) {
        [before, true, _] => !before,
        [_, false, after] => !after,
    }
}

fn squeezed(row: &str) -> String {
    row.split_whitespace().collect()
}

/// The edits of a row that has a mark too many, or one too few: `signs` are those that may be put in.
pub(super) fn list_mark_edits(row: &ChartRow, is_short: bool, signs: &[Sign]) -> Vec<RowEdit> {
    // Beside one that is the same, a mark gives the same row on either side.
    let before = |at: usize| at.checked_sub(1).map(|before| row.marks[before].sign);
    let places = 0..row.marks.len() + usize::from(is_short);
    let edits = |at: usize| -> Vec<RowEdit> {
        let signs = signs.iter().filter(|&&sign| before(at) != Some(sign));
        match is_short {
            true => signs.map(|&sign| RowEdit::MarkPutIn(at.to_u8(), sign)).collect(),
            false if before(at) == Some(row.marks[at].sign) => Vec::new(),
            false => vec![RowEdit::MarkLeftOut(at.to_u8())],
        }
    };
    places.flat_map(edits).collect()
}
