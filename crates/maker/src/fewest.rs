//! The same band with the fewest pick-ups, as the text of its pattern.

use crate::planned::Planned;
use crate::rewritten::not_rewritten;
use crate::room::too_large;
use knotwright_band::pick_ups;
use knotwright_checker::{Library, Pattern, Source};
use knotwright_formatter::Edit;
use knotwright_rewriter::{LeftOut, Original, rewrite};

/// A pattern with the fewest pick-ups.
#[derive(Debug, Clone, PartialEq)]
pub struct Fewest {
    /// The whole text.
    pub text: String,
    /// The same as edits, in order and apart from one another; none if nothing can be gained.
    pub edits: Vec<Edit>,
    /// Pick-ups as it is written: of opening, one set and closing.
    pub before: usize,
    /// Pick-ups then.
    pub after: usize,
    /// What stood in the old text and is not in the new one.
    pub left_out: LeftOut,
}

/// Writes a pattern with the fewest pick-ups. Parts that have nothing to gain stay as they are. What is given out
/// was read and tied again, and is the same band, knot for knot.
///
/// # Errors
/// In words.
pub fn fewest_pick_ups(source: &Source, pattern: &Pattern, library: &dyn Library) -> Result<Fewest, String> {
    if let Some(reason) = too_large(pattern) {
        return Err(reason);
    }
    let planned = Planned::all(pattern, None);
    let before = planned.iter().map(|of| pick_ups(&of.written)).sum();
    let after = planned.iter().map(|of| of.plan.series.len()).sum();
    let changed = planned.iter().filter(|of| of.plan.series.len() < pick_ups(&of.written));
    let bodies: Vec<_> = changed.map(|of| (of.part, of.body(pattern))).collect();
    if bodies.is_empty() {
        let text = source.text.to_string();
        return Ok(Fewest { text, edits: Vec::new(), before, after, left_out: LeftOut::default() });
    }
    let written =
        rewrite(Original { source, pattern, library }, &bodies).map_err(|error| not_rewritten(&error))?;
    Ok(Fewest { text: written.text, edits: written.edits, before, after, left_out: written.left_out })
}
