//! A wish: whether it can be tied with the strands as they hang.

use super::{PartFace, ReadFace, comes_again};
use crate::FactKind;
use crate::facts::Facts;
use knotwright_designer::{DesignEnd, DesignStart, DesignTask, DesignWatch, Designed, design_band};
use std::cell::Cell;

/// After this many looks of the solver at whether to stop it is stopped, some tenths of a second: counted, not timed, so
/// that the same file gets the same findings on every machine.
const MOST_LOOKS: u32 = 20_000;

/// A face with more knots is not tried while it is written.
const MOST_KNOTS: usize = 2_000;

pub(super) fn check_wish(of: &PartFace<'_>, read: &ReadFace, facts: &mut Facts) {
    if read.face.knots().len() > MOST_KNOTS {
        return;
    }
    let closes = comes_again(of.script, of.kind);
    let task = DesignTask { face: read.face.clone(), start: DesignStart::Given(of.hung.clone()), closes };
    let looks = Cell::new(0);
    let found = Cell::new(false);
    let stop = || {
        looks.set(looks.get() + 1);
        found.get() || looks.get() > MOST_LOOKS
    };
    // An answer that keeps the face will do: how many turning knots it has is not asked.
    let mut better = |designed: &Designed| found.set(designed.given_up.is_empty());
    let end = design_band(&task, &mut DesignWatch { stop: &stop, better: &mut better });
    if let Ok(DesignEnd::Cannot(nearest)) = end {
        let given_up = nearest.as_ref().map_or(&[][..], |nearest| &nearest.given_up);
        let are_fewest = nearest.as_ref().is_some_and(|nearest| nearest.is_fewest_given_up);
        let marks: Vec<_> = given_up.iter().map(|&knot| read.marks[knot]).collect();
        let place = marks.first().copied().unwrap_or(read.head);
        facts.say(place, FactKind::FaceCannotBeTied { marks, are_fewest });
    }
}
