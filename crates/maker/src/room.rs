//! Which bands there is room to work on as a whole.

use knotwright_checker::{PartKind, Pattern};
use knotwright_numbers::ToNumber;

/// A part, or a picture, of more knots is not worked on as a whole. A long belt has some thousand knots; planning and
/// comparing keep up to 160 bytes for each, so this is what bounds their memory.
pub const MOST_KNOTS: u64 = 1_000_000;

/// Why there is no room to plan or compare a band, in words; `None` if there is.
pub fn too_large(pattern: &Pattern) -> Option<String> {
    let knots = |kind: &PartKind| pattern.part(*kind).map_or(0, |part| part.piece.knots().len()).to_u64();
    let kind = PartKind::ALL.into_iter().find(|kind| knots(kind) > MOST_KNOTS)?;
    Some(format!(
        "its {} has {} knots; for more than a million, this command would take more than 160 MB of memory. Check the \
         numbers of its `repeat` and series",
        kind.word(),
        knots(&kind),
    ))
}
