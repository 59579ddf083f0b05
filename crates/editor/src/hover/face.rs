//! The picture of a face: a brick of its color for each knot.

use super::{HoverLook, LARGEST_PICTURE, Picture};
use crate::wording::{count, quoted};
use knotwright_checker::PartKind;
use knotwright_grammar::tree::{FaceChart, Statement};
use knotwright_maker::DrawnFace;
use knotwright_numbers::ToNumber;
use knotwright_render::draw_face;

/// A letter where it is said what it stands for.
pub(super) fn letter(look: &HoverLook) -> Option<Vec<String>> {
    let face: &FaceChart = look.node()?.get()?;
    let key = face.keys.iter().find(|key| key.letter.span == look.token.span)?;
    let (letter, thread) = (&key.letter.text, quoted(&key.thread.text));
    Some(vec![format!("In the rows of this face, `{letter}` is a knot that is to show {thread}.")])
}

/// What a `face` says. `None` if it cannot be read, or is too large.
pub(super) fn picture(look: &HoverLook, statement: &Statement) -> Option<Picture> {
    let pattern = look.checked.pattern()?;
    let is_here = |kind: &PartKind| {
        let marks = pattern.face_marks(*kind);
        marks.first().is_some_and(|mark| {
            statement.span.start <= mark.span.start && mark.span.end <= statement.span.end
        })
    };
    of_part(look, PartKind::ALL.into_iter().find(is_here)?)
}

/// What the face of a part says; a knot of whatever color is an outline, and one that no strand can show is hatched.
pub(super) fn of_part(look: &HoverLook, kind: PartKind) -> Option<Picture> {
    let pattern = look.checked.pattern()?;
    let drawn = DrawnFace::of(pattern, kind)?;
    let (marks, untied) = (pattern.face_marks(kind), look.checked.analysis().untied_marks());
    let hatched: Vec<usize> = (0..marks.len()).filter(|knot| untied.contains(&marks[*knot])).collect();
    let svg = draw_face(&drawn.picture(String::new(), &hatched));
    let mut alt = format!(
        "the face: {} in {}",
        count(drawn.face.knots().len().to_u64(), "knot"),
        count(u64::from(drawn.face.rows()), "row")
    );
    if !hatched.is_empty() {
        let cannot = if hatched.len() == 1 { "cannot show its color" } else { "cannot show their colors" };
        alt.push_str(&format!(", of which {} {cannot}", hatched.len()));
    }
    (svg.len() < LARGEST_PICTURE).then_some(Picture { svg, alt })
}
