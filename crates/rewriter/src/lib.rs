//! From a band back to text: the opening, the set or the closing of a pattern is written anew, so that it ties what it
//! is told to tie.
//!
//! The rest of the file stays byte for byte, but for motifs that nothing works any longer. What is given out was read,
//! tied and compared first: a text that does not tie the wanted knots is an error, never an answer. There is no file
//! and no terminal here.

mod body;
mod chart;
mod headings;
mod rewrite;
mod steps;
mod strands;
mod unworked;

pub use body::{Body, Part};
pub use chart::mark;
pub use headings::{Heading, headings};
pub use rewrite::{LeftOut, Original, RewriteError, Rewritten, begins, rewrite};
pub use steps::{takes, word};
pub use strands::{list, with_strands};
