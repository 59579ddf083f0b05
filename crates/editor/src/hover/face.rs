//! The picture of a face: a brick of its color for each knot.

use super::{HoverLook, LARGEST_PICTURE, Picture};
use crate::wording::{count, quoted};
use knotwright_checker::PartKind;
use knotwright_designer::WishedKnot;
use knotwright_grammar::tree::{FaceChart, Statement};
use knotwright_numbers::ToNumber;
use std::fmt::Write;

/// Half a brick's width, and its height, in pixels.
const SIZE: (u32, u32) = (7, 10);

/// A letter where it is said what it stands for.
pub(super) fn letter(look: &HoverLook) -> Option<Vec<String>> {
    let face: &FaceChart = look.node()?.get()?;
    let key = face.keys.iter().find(|key| key.letter.span == look.token.span)?;
    let (letter, thread) = (&key.letter.text, quoted(&key.thread.text));
    Some(vec![format!("In the rows of this face, `{letter}` is a knot that is to show {thread}.")])
}

/// What a `face` says; a knot of whatever color is an outline. `None` if it cannot be read, or is too large.
pub(super) fn picture(look: &HoverLook, statement: &Statement) -> Option<Picture> {
    let pattern = look.checked.pattern()?;
    let is_here = |kind: &PartKind| {
        let marks = pattern.face_marks(*kind);
        marks.first().is_some_and(|mark| {
            statement.span.start <= mark.span.start && mark.span.end <= statement.span.end
        })
    };
    let face = pattern.face(PartKind::ALL.into_iter().find(is_here)?)?;
    let (width, height) = ((u32::from(face.strands()) + 1) * SIZE.0, face.rows() * SIZE.1);
    let mut svg = format!("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\">");
    for WishedKnot { row, gap, color } in face.knots() {
        let fill = color.and_then(|color| pattern.threads.get(usize::from(color)));
        let fill = fill.map_or("none".to_owned(), |thread| thread.color.to_string());
        let (x, y) = (u32::from(*gap) * SIZE.0, row * SIZE.1);
        let _ = write!(
            svg,
            "<rect x=\"{x}\" y=\"{y}\" width=\"{}\" height=\"{}\" rx=\"3\" fill=\"{fill}\" stroke=\"#808080\" stroke-width=\"0.5\"/>",
            2 * SIZE.0,
            SIZE.1
        );
    }
    svg.push_str("</svg>");
    let alt = format!(
        "the face: {} in {}",
        count(face.knots().len().to_u64(), "knot"),
        count(u64::from(face.rows()), "row")
    );
    (svg.len() < LARGEST_PICTURE).then_some(Picture { svg, alt })
}
