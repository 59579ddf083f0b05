//! Is the house in order? Arrows between the rooms, sizes, words, outside crates.

#![allow(clippy::disallowed_methods, reason = "tests read files")]

mod arrows;
mod files;
mod licenses;
mod sizes;
mod suppliers;
mod words;
