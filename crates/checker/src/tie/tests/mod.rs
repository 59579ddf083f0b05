//! The body of a pattern: every sentence of the notation that says what is tied.

mod charts;
mod extents;
mod facts;
mod joins;
mod limits;
mod mirrors;
mod motifs;
mod parts;
mod recovery;
mod strands;
