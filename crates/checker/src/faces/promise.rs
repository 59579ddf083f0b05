//! A promise: the knots show exactly the face.

use super::{PartFace, ReadFace};
use crate::facts::Facts;
use crate::marks::place_in;
use crate::{FactKind, MoreKnots, Part};
use knotwright_designer::FaceDifference;
use knotwright_numbers::ToNumber;

/// How many knots are shown besides the first.
const MOST_SHOWN: usize = 3;

pub(super) fn check_promise(of: &PartFace<'_>, read: &ReadFace, facts: &mut Facts) {
    let piece = &of.part.piece;
    let Some(differs) = read.face.compare(piece, |strand| of.color(strand)) else {
        return say_where_they_part(of, read, facts);
    };
    say_differs(of, read, &differs, facts);
}

/// Of knots that show other colors the first, and how many there are besides: one slip may be behind all of them.
fn say_differs(of: &PartFace<'_>, read: &ReadFace, differs: &[FaceDifference], facts: &mut Facts) {
    let place = |difference: &FaceDifference| place_in(of.script.sources(), of.part, difference.knot);
    let Some((first, rest)) = differs.split_first() else { return };
    let Some(at) = place(first) else { return };
    let places = rest.iter().take(MOST_SHOWN).filter_map(place).filter(|other| *other != at).collect();
    let more = MoreKnots { count: rest.len(), of: read.face.knots().len(), places };
    let (found, other) = of.part.piece.threads_of_knots(&of.hung)[first.knot.to_usize()];
    let name = |thread| of.script.thread_name(thread);
    let kind = FactKind::FaceDiffers {
        wished: name(read.face.knots()[first.wished].color.unwrap_or(u16::MAX)),
        found: name(found),
        other: name(other),
        mark: read.marks[first.wished],
        nth: nth_in_step(of.part, first.knot),
        is_tied_once: is_tied_once(of.part, first.knot),
        more,
    };
    facts.say(at, kind);
}

/// The knots lie in other places: that is said where the first of them does.
fn say_where_they_part(of: &PartFace<'_>, read: &ReadFace, facts: &mut Facts) {
    let piece = &of.part.piece;
    let parting = read.face.parting(piece, |strand| of.color(strand));
    let step = |knot: u32| {
        let step = &of.part.steps[of.part.step_of(knot)?];
        let is_there = parting.is_some_and(|parting| parting.wished.is_none());
        if is_there { place_in(of.script.sources(), of.part, knot) } else { Some(step.place) }
    };
    let place = parting.and_then(|parting| step(parting.knot?));
    let mark = parting.and_then(|parting| parting.wished).map(|wished| read.marks[wished]);
    let (wished, tied) = (read.face.knots().len(), piece.knots().len());
    let kind = FactKind::FaceKnots { wished, tied, mark, head: read.head };
    facts.say(place.unwrap_or(read.head), kind);
}

/// Which knot of its step it is.
fn nth_in_step(part: &Part, knot: u32) -> u32 {
    part.step_of(knot).map_or(0, |step| knot - part.steps[step].knots.start)
}

/// Whether the step of a knot stands for no other step: in a loop, a mirror or a motif it may.
fn is_tied_once(part: &Part, knot: u32) -> bool {
    let place = part.step_of(knot).map(|step| part.steps[step].place);
    part.steps.iter().filter(|step| Some(step.place) == place).count() == 1
}
