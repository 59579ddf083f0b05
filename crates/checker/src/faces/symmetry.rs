//! `expect face mirror`, `turn`, `flip`: the face looks the same.

use super::PartFace;
use crate::facts::Facts;
use crate::part::PartKind;
use crate::{FactKind, Place};
use knotwright_band::{Face, Symmetry, Turning};
use knotwright_grammar::tree::FaceSymmetry;

pub(super) fn check_symmetry(of: &PartFace<'_>, symmetry: FaceSymmetry, place: Place, facts: &mut Facts) {
    let color = |strand: u8| of.color(strand);
    // A set that closes goes on below its last row with its first one.
    let comes_again = || of.part.piece.threads_after(&of.hung) == of.hung;
    let around =
        (of.kind == PartKind::Set && comes_again()).then(|| Face::of_set(&of.part.piece, color)).flatten();
    let faces: Vec<Face> = around.into_iter().chain(Face::of_once(&of.part.piece, color)).collect();
    let least = faces.iter().flat_map(|face| {
        let by = match symmetry {
            FaceSymmetry::Mirror => 0..1,
            FaceSymmetry::Turn | FaceSymmetry::Flip => 0..2 * face.rows(),
        };
        by.map(|by| face.off(Symmetry { turning: turning(symmetry), by }).len())
    });
    match least.min() {
        None | Some(0) => {}
        Some(off) => facts.say(place, FactKind::FaceUneven { symmetry, off }),
    }
}

fn turning(symmetry: FaceSymmetry) -> Turning {
    match symmetry {
        FaceSymmetry::Mirror => Turning::Mirror,
        FaceSymmetry::Turn => Turning::Turn,
        FaceSymmetry::Flip => Turning::Flip,
    }
}
