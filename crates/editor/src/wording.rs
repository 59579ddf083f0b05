//! Small words that many answers need.

pub(crate) use knotwright_wording::digits::{count, ordinal};
pub(crate) use knotwright_wording::{both, length, sentence};

/// Longer text of a pattern is cut in an answer.
const LONGEST_QUOTE: usize = 60;

/// Text of a pattern as it may be in an answer: between backticks, without hidden signs.
pub(crate) fn quoted(text: &str) -> String {
    // An empty pair of backticks is no code.
    if text.is_empty() { "` `".to_owned() } else { knotwright_wording::quoted(text, LONGEST_QUOTE) }
}
