//! A chart becomes steps, with the fewest pick-ups.

use super::Proposal;
use super::pieces::{Siblings, begins_line, indent};
use crate::steps::kind_word;
use crate::{Checked, TextEdit};
use knotwright_band::{Knot, Piece, plan_pick_ups};
use knotwright_grammar::Span;
use knotwright_grammar::tree::RowsChart;
use knotwright_numbers::ToNumber;
use knotwright_rewriter::line_end;

/// More steps than this are no help.
const MOST_STEPS: usize = 400;

/// The `rows` around the cursor as `take` statements.
pub(super) fn from_rows(checked: &Checked, range: Span) -> Option<Proposal> {
    let siblings = Siblings::of(checked, range)?;
    let [statement] = siblings.statements() else { return None };
    if !statement.is::<RowsChart>() || siblings.has_comments(checked) {
        return None;
    }
    let (_, piece) = siblings.piece(checked)?;
    let text = checked.text();
    let takes = takes(&piece);
    if takes.len() > MOST_STEPS || !begins_line(text, statement.span.start) {
        return None;
    }
    let gap = format!("{}{}", line_end(text), indent(text, statement.span.start));
    let edit = TextEdit { span: statement.span, text: takes.join(&gap) };
    Some(Proposal::new("Write the chart as steps", vec![edit]))
}

/// One line for each time a strand is picked up.
fn takes(piece: &Piece) -> Vec<String> {
    let plan = plan_pick_ups(piece, None);
    let mut order: Vec<u8> = (0..=u8::MAX).take(piece.strands()).collect();
    let mut lines = Vec::with_capacity(plan.series.len());
    for series in &plan.series {
        let numbers =
            plan.knots.get(series.knots.start.to_usize()..series.knots.end.to_usize()).unwrap_or_default();
        let knots: Vec<Knot> =
            numbers.iter().filter_map(|&knot| piece.knots().get(knot.to_usize()).copied()).collect();
        let at = order.iter().position(|&strand| strand == series.strand).unwrap_or_default();
        lines.push(format!("take {}: {}", place(at, piece.strands()), runs(&knots)));
        knots.iter().for_each(|knot| crate::hang::follow(&mut order, knot));
    }
    lines
}

fn place(at: usize, width: usize) -> String {
    if 2 * at < width { format!("left {}", at + 1) } else { format!("right {}", width - at) }
}

fn runs(knots: &[Knot]) -> String {
    let runs = knots.chunk_by(|one, other| one.kind == other.kind);
    let runs_in_words: Vec<String> =
        runs.map(|run| format!("{} {}", kind_word(run[0].kind), run.len())).collect();
    runs_in_words.join(", ")
}
