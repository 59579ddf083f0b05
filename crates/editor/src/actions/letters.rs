//! Letters become rows of marks, to be changed by hand.

use super::Proposal;
use super::pieces::{begins_line, indent};
use crate::Checked;
use crate::TextEdit;
use crate::letters::{laid, marks};
use crate::site::Site;
use crate::steps::TiedStep;
use knotwright_grammar::Span;
use knotwright_rewriter::line_end;

/// The rows of the letters at the cursor, in place of them.
pub(super) fn to_rows(checked: &Checked, range: Span) -> Option<Proposal> {
    let site = Site::at(checked.source(), range.start);
    let rows = &site.inner()?.node.chart()?.rows;
    let row = rows.iter().find(|row| row.span.touches(range.start) && row.span.touches(range.end))?;
    let letters = row.letters.as_ref()?;
    let moment = checked.moments().from(row.span.start)?;
    let (low, high) = TiedStep::of(checked, moment)?.step.within;
    let laid = laid(letters, usize::from(high - low))?;
    let text = checked.text();
    if !begins_line(text, row.span.start) {
        return None;
    }
    let between = format!("{}{}", line_end(text), indent(text, row.span.start));
    let rows: Vec<&Vec<bool>> = laid.letters.iter().flat_map(|letter| &letter.rows).collect();
    let edit = TextEdit { span: row.span, text: marks(&rows, &between) };
    Some(Proposal::new("Write the letters as rows", vec![edit]))
}
