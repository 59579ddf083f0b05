//! What many sentences need: counts, ordinals, lists and lengths in English words, and text from outside as it may stand
//! in them.
//!
//! There is nothing here about bands. Every room that puts something before people may use this one, so that a count or
//! a hidden sign is treated alike in findings, hovers, words, pictures and at the terminal.

pub mod digits;
mod hidden;
mod lengths;
mod lists;
mod quoted;
pub mod spelled;

pub use hidden::{is_hidden, printable, without_hidden};
pub use lengths::length;
pub use lists::{both, either, sentence};
pub use quoted::{cleaned, quoted};

/// What follows the digits of an ordinal: `st`, `nd`, `rd` or `th`.
fn ordinal_ending(number: u64) -> &'static str {
    match (number % 100, number % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    }
}
