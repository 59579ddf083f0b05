//! A pattern with its strands joined where they would be longer than what there is.

use crate::measured::{MeasureOptions, Measured, ProposedJoins, propose_joins};
use knotwright_formatter::Edit;
use knotwright_rewriter::{NewJoin, NotJoined, Original, add_joins};

/// A pattern with new lines that join strands.
#[derive(Debug, Clone)]
pub struct JoinedText {
    /// The whole text.
    pub text: String,
    /// The same as edits, in order and apart from one another; none if nothing need be joined.
    pub edits: Vec<Edit>,
    /// Where strands are joined.
    pub proposed: ProposedJoins,
}

/// Writes lines into a pattern that join its strands so that no piece is longer than `longest` millimeters. What is given out
/// was read, tied and measured again.
///
/// # Errors
/// In words; also if some strand has no place where it could be joined: then it is better to say so than to write half of
/// it.
pub fn join_long_strands(
    original: Original<'_>,
    wish: MeasureOptions,
    longest: f64,
) -> Result<JoinedText, String> {
    let measured = Measured::new(original.pattern, wish).map_err(|reason| reason.said(wish.unit))?;
    let proposed = propose_joins(&measured, longest, wish.unit).map_err(|reason| reason.said().to_owned())?;
    if !proposed.without_place.is_empty() {
        return Err(proposed.said(&measured, longest, wish.unit).pop().unwrap_or_default());
    }
    let lines: Vec<NewJoin> = proposed.joins.iter().map(|join| join.line).collect();
    let added = add_joins(original, &lines).map_err(not_joined)?;
    let again = Measured::new(&added.pattern, wish).map_err(|reason| reason.said(wish.unit))?;
    let is_within = again.strand_pieces.iter().flatten().all(|piece| piece.cut <= longest)
        && again.pieces.iter().all(|piece| piece.length() <= longest);
    if !is_within {
        return Err(not_joined(NotJoined::NotProved));
    }
    Ok(JoinedText { text: added.text, edits: added.edits, proposed })
}

fn not_joined(why: NotJoined) -> String {
    match why {
        NotJoined::Unsound => "it has errors; fix what `knotwright check` reports first",
        NotJoined::NoSpot | NotJoined::NotProved => {
            "the new text does not tie the same band of shorter pieces, so it is not written; this is a bug in Knotwright"
        }
    }
    .to_owned()
}
