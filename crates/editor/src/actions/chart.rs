//! Steps become a chart.

use super::Proposal;
use super::pieces::{Siblings, begins_line, indent};
use crate::{Checked, TextEdit};
use knotwright_band::{Kind, KnotChart, Piece};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{LeaderChart, RowsChart, Statement};
use knotwright_rewriter::line_end;

/// Charts longer than this are no help.
const MOST_ROWS: u32 = 400;

/// The selected statements as `rows`; for a cursor in the first line of an opening, a set, a closing or another block,
/// all that stands in it.
pub(super) fn from_steps(checked: &Checked, range: Span) -> Option<Proposal> {
    let whole = whole_block(checked, range);
    let siblings = whole.or_else(|| Siblings::of(checked, range))?;
    let lost = siblings.statements().iter().any(|statement| !is_tied_only(statement));
    if lost || siblings.has_comments(checked) || is_chart(&siblings) {
        return None;
    }
    let (_, piece) = siblings.piece(checked)?;
    let chart = KnotChart::of(&piece);
    if chart.height() > MOST_ROWS {
        return None;
    }
    let span = siblings.span();
    let text = checked.text();
    if !begins_line(text, span.start) {
        return None;
    }
    let new = written(&piece, indent(text, span.start), line_end(text));
    Some(Proposal::new("Write it as a chart", vec![TextEdit { span, text: new }]))
}

fn is_chart(siblings: &Siblings) -> bool {
    matches!(siblings.statements(), [only] if only.is::<RowsChart>())
}

/// All statements of the block whose first line the cursor is in.
fn whole_block(checked: &Checked, range: Span) -> Option<Siblings<'_>> {
    let site = crate::site::Site::at(checked.source(), range.start);
    let statement = site.inner()?;
    let block = statement.node.block().filter(|_| statement.head.touches(range.end) && range.is_empty())?;
    (!block.statements.is_empty()).then_some(Siblings { block, first: 0, last: block.statements.len() })
}

/// Whether nothing but knots would be lost: no heading, remark or promise.
fn is_tied_only(statement: &Statement) -> bool {
    is_kept(statement) && statement.node.block().is_none_or(|block| block.walk().all(is_kept))
}

/// Whether a chart says all that this statement says itself.
fn is_kept(statement: &Statement) -> bool {
    statement.is_step() && !statement.is::<LeaderChart>()
}

/// `rows { ... }` in bricks, indented like its neighbors.
fn written(piece: &Piece, indent: &str, end: &str) -> String {
    let chart = KnotChart::of(piece);
    let mut text = format!("rows {}{{{end}", if chart.offset() { "offset " } else { "" });
    for (number, row) in chart.rows().enumerate() {
        let brick = if (number % 2 == 1) != chart.offset() { " " } else { "" };
        let marks: Vec<&str> = row.iter().map(|mark| sign(*mark)).collect();
        text.push_str(&format!("{indent}  {brick}{}{end}", marks.join(" ")));
    }
    text + indent + "}"
}

fn sign(mark: Option<Kind>) -> &'static str {
    match mark {
        None => ".",
        Some(Kind::Forward) => "\\",
        Some(Kind::Backward) => "/",
        Some(Kind::ForwardBackward) => ">",
        Some(Kind::BackwardForward) => "<",
    }
}
