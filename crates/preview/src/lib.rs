//! The live picture: a page on this machine that shows a band while its pattern is typed.
//!
//! Whoever holds the text (an editor's language server, or the program that watches a file) is the [`Owner`] of a
//! [`Preview`]. It says when something has [changed](Preview::changed) and where the [cursor](Preview::cursor) is; the
//! preview asks for the newest text when it has time for it, and never for one that has passed. It runs on a thread
//! of its own and ends when it is dropped.
//!
//! The page gets knots as numbers, and after a change only those that are not as they were. Whoever asks must know the
//! address, which holds a secret, must ask this machine by its own name, and must not come from another page.

mod band;
mod changes;
mod chart;
mod colors;
mod door;
mod lengths;
mod line;
mod looking;
mod message;
mod owner;
mod page;
mod place;
mod preview;

pub use owner::{Destination, Owner, Recolor};
pub use preview::{Preview, PreviewPlace};
