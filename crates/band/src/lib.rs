//! The knotted band as pure numbers: strands, knots, layout, repeats, thread.
//!
//! There is no text, no color name and no file here. Positions, strands, gaps and rows count from 0;
//! whoever speaks to a person adds one.

mod knot;
mod tying;

pub use knot::{Kind, Knot, MOST_KNOTS, MOST_STRANDS};
pub use tying::Tying;
