//! The knots as they were tied, and what they rest on.

use super::moved::move_place;
use crate::pattern::threads_after;
use crate::tie::{Mark, Tied};
use crate::{Named, Part, PartKind, Pattern, Step};
use knotwright_grammar::Splice;

/// All that the band rests on, but the head.
#[derive(Debug, Clone)]
pub(super) struct Band {
    /// By starting position, which thread hangs there.
    pub(super) strands: Vec<u16>,
    pub(super) picks_by_color: bool,
    /// Whether the colors hang after one set as before it.
    pub(super) closes: Option<bool>,
    /// Opening, set and closing.
    pub(super) parts: [Option<Part>; 3],
    pub(super) marks: [Vec<Mark>; 3],
}

impl Band {
    pub(super) fn new(pattern: Pattern, closes: Option<bool>, marks: [Vec<Mark>; 3]) -> Self {
        let Pattern { strands, picks_by_color, opening, set, closing, .. } = pattern;
        Self { strands, picks_by_color, closes, parts: [opening, set, closing], marks }
    }

    /// As if it had just been tied.
    pub(super) fn into_tied(self) -> Tied {
        let ends = || self.marks.iter().filter_map(|marks| marks.last());
        let cost = ends().map(|end| end.spent + u64::from(end.tied.knots)).sum();
        let knots = ends().map(|end| u64::from(end.tied.knots)).sum();
        let Self { parts: [opening, set, closing], marks, closes, picks_by_color, .. } = self;
        Tied { opening, set, closing, closes, picks_by_color, whole: true, cost, knots, marks, edited: 0 }
    }

    /// By strand of a part, its thread: strands are named by where they hang as it begins.
    pub(super) fn threads(&self, which: PartKind) -> Vec<u16> {
        let parts = PartKind::ALL.into_iter().zip(&self.parts).take(which as usize);
        threads_after(self.strands.clone(), parts.filter_map(|(kind, part)| Some((kind, part.as_ref()?))))
    }

    /// Whether `pattern` has these knots, tied by the steps that stand where they stood before the edit. Where a
    /// step was that touches what was edited makes none.
    pub(super) fn is_that_of(&self, pattern: &Pattern, edit: Option<Splice>) -> bool {
        let same_part =
            |old: &Part, new: &Part| old.piece == new.piece && same_steps(&old.steps, &new.steps, edit);
        let now = [&pattern.opening, &pattern.set, &pattern.closing];
        self.strands == pattern.strands
            && self.picks_by_color == pattern.picks_by_color
            && self.parts.iter().zip(now).all(|parts| match parts {
                (Some(old), Some(new)) => same_part(old, new),
                (old, new) => old.is_none() && new.is_none(),
            })
    }
}

/// What a step threads, and where.
fn bead_of(step: &Step) -> Option<(Named, u8)> {
    matches!(step.named, Named::Bead { .. }).then_some((step.named, step.from))
}

/// Whether the same steps tie the same knots, each where it stood.
pub(super) fn same_steps(old: &[Step], new: &[Step], edit: Option<Splice>) -> bool {
    let now = |step: &Step| edit.map_or(Some(step.place), |edit| move_place(step.place, edit));
    let same = |(old, new): (&Step, &Step)| {
        let beads = (bead_of(old), bead_of(new));
        old.knots == new.knots && beads.0 == beads.1 && now(old).is_none_or(|place| place == new.place)
    };
    old.len() == new.len() && old.iter().zip(new).all(same)
}
