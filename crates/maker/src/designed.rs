//! From a face to the text of a pattern that shows it.
//!
//! What is given out was read and tied, and its knots compared with the face.

mod drawn_face;
mod improving;
mod written;

pub use drawn_face::{DrawnFace, FaceThread};
pub use improving::{ImprovableSet, NotImprovable};
pub use written::{DesignedText, NotDesigned, write_part, write_pattern};
