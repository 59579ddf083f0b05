//! Where something stands after an edit.

use crate::{FileId, Finding, Place};
use knotwright_grammar::{Difference, Span};

/// Where a place is now; `None` if it touches what differs.
pub(super) fn moved(place: Place, difference: Difference) -> Option<Place> {
    let Place { file, span } = place;
    if file != FileId(0) || (span.end as usize) < difference.start {
        return Some(place);
    }
    let behind = span.start as usize > difference.before;
    let shift = |offset: u32| offset.wrapping_add_signed(difference.by());
    behind.then(|| Place { file, span: Span { start: shift(span.start), end: shift(span.end) } })
}

/// The same finding there; `None` if some place of it touches what differs.
pub(super) fn moved_finding(mut finding: Finding, difference: Difference) -> Option<Finding> {
    finding.place = moved(finding.place, difference)?;
    for note in &mut finding.notes {
        note.place = moved(note.place, difference)?;
    }
    Some(finding)
}
