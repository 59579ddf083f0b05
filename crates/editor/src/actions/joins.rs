//! Strands that are longer than a skein are joined.

use super::Proposal;
use crate::wording::count;
use crate::{Checked, TextEdit, World};
use knotwright_checker::PartKind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Statement, Title};
use knotwright_maker::{MeasureOptions, Measured, USUAL_SKEIN, join_long_strands};
use knotwright_numbers::ToNumber;
use knotwright_rewriter::Original;

/// Offered where the whole band is meant: at the name of the pattern and at the head of what is tied.
pub(super) fn long_strands(checked: &Checked, world: &World, range: Span) -> Option<Proposal> {
    let is_head = |statement: &&Statement| {
        (statement.is::<Title>() || PartKind::of(statement).is_some())
            && statement.head.start <= range.start
            && range.end <= statement.head.end
    };
    checked.top().iter().find(is_head).filter(|_| (world.is_wanted)())?;
    let (pattern, wish) = (checked.pattern()?, MeasureOptions::default());
    let longer = Measured::new(pattern, wish).ok()?.longer_than_skein();
    if longer.is_empty() || !(world.is_wanted)() {
        return None;
    }
    let original = Original { source: checked.source(), pattern, library: world.library };
    let joined = join_long_strands(original, wish, USUAL_SKEIN).ok()?;
    let edits: Vec<TextEdit> =
        joined.edits.into_iter().map(|edit| TextEdit { span: edit.span, text: edit.text }).collect();
    let joins = count(joined.proposed.joins.len().to_u64(), "join");
    let title = format!("Join the strands that are longer than a skein ({joins})");
    (!edits.is_empty()).then(|| Proposal::new(title, edits))
}
