//! Where something is after an edit.

use crate::{FileId, Finding, Place};
use knotwright_grammar::Splice;

/// Where a place is now; `None` if it touches what was edited.
pub(super) fn move_place(place: Place, edit: Splice) -> Option<Place> {
    match place {
        Place { file: FileId::CHECKED, span } => Some(Place { span: edit.moved(span)?, ..place }),
        elsewhere => Some(elsewhere),
    }
}

/// The same finding there; `None` if some place of it touches what was edited.
pub(super) fn moved_finding(mut finding: Finding, edit: Splice) -> Option<Finding> {
    finding.place = move_place(finding.place, edit)?;
    for note in &mut finding.notes {
        note.place = move_place(note.place, edit)?;
    }
    Some(finding)
}
