//! What the author surely meant: the one edit after which every promise holds and the set closes.
//!
//! Where a promise breaks, or the set does not close, every single edit of an earlier step is tried: a count or a
//! place by 1 or 2, a kind turned round, left for right, a mark of a chart. No text is edited for that: the tree is
//! tied again under an [`Overlay`](crate::tie::Overlay). Candidates are tried nearest first until the budget of
//! knots is used up, so the same file has the same mends everywhere.

mod candidates;
mod search;
mod shape;
mod spelling;
mod trace;
mod trial;
mod words;

pub(crate) use search::{Goal, Mended, mend_closing, mend_facts, mend_hole};
pub(crate) use shape::is_hole;
pub(crate) use spelling::{prove_word, respell};
pub(crate) use trace::Trace;
