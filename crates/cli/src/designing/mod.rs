//! From a picture, a text or a pattern to a face, and the watch over the search.

mod job;
mod letters;
mod palette;
mod picture;
mod resized;
mod watch;

pub(crate) use job::DesignJob;
pub(crate) use letters::draw_letters;
pub(crate) use palette::read_palette;
pub(crate) use picture::{FaceSize, Picture, is_png};
pub(crate) use resized::ResizedFace;
pub(crate) use watch::DesignTimer;

use crate::terminal::Failure;
use knotwright_designer::{MOST_FACE_KNOTS, NoFace};

/// Why there is no such face, in words.
pub(crate) fn explain_no_face(reason: NoFace) -> Failure {
    match reason {
        NoFace::StrandCount { strands } => Failure::said(format_args!(
            "a band has from 2 to {} strands, not {strands}",
            knotwright_band::MOST_STRANDS
        )),
        NoFace::RowLength { row, marks, wanted } => Failure::said(format_args!(
            "row {} of the face has {marks} marks, and there are {wanted} pairs of strands",
            row + 1
        )),
        NoFace::Empty => Failure::said("there is no knot in this face"),
        NoFace::TooManyKnots { knots } => Failure::said(format_args!(
            "this face has {knots} knots, and at most {MOST_FACE_KNOTS} can be searched; use fewer `--strands` or `--rows`"
        )),
    }
}
