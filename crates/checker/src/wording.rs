//! Small words that many sentences need: counts, lists, a strand and its place, quoted text.

use crate::{Side, Sighting};
use knotwright_numbers::ToNumber;

pub(crate) use knotwright_wording::spelled::{count, number, ordinal};
pub(crate) use knotwright_wording::{both, cleaned, either, length, sentence};

/// Longer text of a pattern is cut in a sentence.
const LONGEST_QUOTE: usize = 40;

/// Text of a pattern as it may be in a sentence: in quotation marks of the notation, without hidden signs.
pub(crate) fn quoted(text: &str) -> String {
    knotwright_wording::quoted(text, LONGEST_QUOTE)
}

/// "write `kelp`", and in how many places if there are several: "write `kelp` in both places".
pub(crate) fn write_in_places(word: &str, places: usize) -> String {
    match places {
        0 | 1 => format!("write `{word}`"),
        2 => format!("write `{word}` in both places"),
        _ => format!("write `{word}` in all {} places", number(places.to_u64())),
    }
}

/// "left" or "right".
pub(crate) fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// "the third strand from the left".
pub(crate) fn strand_at(position: usize) -> String {
    format!("the {} strand from the left", ordinal(position))
}

/// "the third strand from the left is foam".
pub(crate) fn strand_is(sighting: &Sighting) -> String {
    format!("{} is {}", strand_at(sighting.position), sighting.thread)
}
