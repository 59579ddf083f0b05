//! A text in letters made of knots, for the straight rows of a leader.
//!
//! The letters are those of the fixed-width bitmap fonts that have come with the X Window System since its early days and
//! are in the public domain. Here each letter is as wide as its ink, with one knot between two.

mod font;
mod laid;

pub use laid::{LaidLetters, LetterRows, LetterTrouble, Lettering, TooNarrow};

/// The heights of capitals that there are letters in, in knots.
pub const HEIGHTS: [usize; 6] = [5, 6, 7, 9, 10, 13];

/// A text has at most this many signs, spaces included: what is longer is a line for each word.
pub const MOST_SIGNS: usize = 32;
