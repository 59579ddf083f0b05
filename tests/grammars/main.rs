//! The editors' grammars against the parser: one notation, accepted and refused alike.

#![allow(clippy::disallowed_methods, reason = "tests read files")]

mod disturb;
mod samples;
mod statements;
mod tree_corpus;
mod tree_sitter_alike;
