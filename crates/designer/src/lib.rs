//! From a face, what is to be seen, to the knots that show it with the fewest turning knots.
//!
//! A knot shows one of its two strands and lets them cross or not, freely: the four kinds are all four combinations. So a
//! face can be tied exactly if there is an order of strands at the start, and a choice of crossings, such that every knot
//! meets a strand of its color. That is asked of a solver of clauses ([`clauses`]), which also proves that no answer has
//! fewer turning knots. Two colors are looked up in a table of all orders of strands instead, where that is small.
//!
//! Only numbers: no text, no file and no clock. Whoever asks says when to stop, and is shown each better answer.

mod clauses;
mod design;
mod encoded;
mod least;
mod resampled;
mod totalizer;
mod two_colors;
mod wished;

pub use design::{DesignEnd, DesignStart, DesignTask, DesignWatch, Designed, design_band};
pub use wished::{FaceDifference, MOST_FACE_KNOTS, NoFace, Parting, WishedFace, WishedKnot};
