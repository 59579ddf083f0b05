//! Is the house in order? Arrows between the rooms, sizes, words, outside crates.

#![allow(clippy::disallowed_methods, reason = "tests read files")]

mod arrows;
mod closed;
mod files;
mod licenses;
mod names;
mod needs;
mod parameters;
mod rules;
mod sizes;
mod suppliers;
mod words;
