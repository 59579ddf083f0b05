//! The same band with fewer pick-ups.

use super::Proposal;
use crate::wording::count;
use crate::{Checked, TextEdit, World};
use knotwright_checker::PartKind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Statement, Title};
use knotwright_maker::{fewest_pick_ups, left_out};
use knotwright_numbers::ToNumber;

/// Offered at the head of what is tied and at the name of the pattern: the whole file is planned for it, which is too
/// much for wherever the cursor goes. What the new text does not hold any longer is said.
pub(super) fn pick_ups(checked: &Checked, world: &World, range: Span) -> Option<Proposal> {
    let is_head = |statement: &&Statement| {
        (statement.is::<Title>() || PartKind::of(statement).is_some())
            && statement.head.start <= range.start
            && range.end <= statement.head.end
    };
    checked.top().iter().find(is_head).filter(|_| (world.is_wanted)())?;
    let fewest = fewest_pick_ups(checked.source(), checked.pattern()?, world.library).ok()?;
    let edits: Vec<TextEdit> =
        fewest.edits.into_iter().map(|edit| TextEdit { span: edit.span, text: edit.text }).collect();
    let gone = left_out(fewest.left_out).map(|gone| format!(" ({gone})")).unwrap_or_default();
    let after = count(fewest.after.to_u64(), "pick-up");
    let title = format!("Tie the same band with {after} instead of {}{gone}", fewest.before);
    (!edits.is_empty()).then(|| Proposal::new(title, edits))
}
