//! The knots as they were tied, and what they rest on.

use super::moved::moved;
use crate::tie::{Mark, Which};
use crate::{Part, Pattern, Step};
use knotwright_grammar::Difference;

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

    /// By strand of a part, its thread: strands are named by where they hang as it begins.
    pub(super) fn threads(&self, which: Which) -> Vec<u16> {
        let before = self.parts[..which as usize].iter().flatten();
        before.fold(self.strands.clone(), |threads, part| {
            part.order.iter().map(|&strand| threads[usize::from(strand)]).collect()
        })
    }

    /// Whether `pattern` has these knots, tied by the steps that stand where they stood before the difference. Where a
    /// step was that touches what differs makes none.
    pub(super) fn is_that_of(&self, pattern: &Pattern, difference: Option<Difference>) -> bool {
        let same_part = |old: &Part, new: &Part| {
            old.knots == new.knots
                && old.order == new.order
                && old.straight == new.straight
                && same_steps(&old.steps, &new.steps, difference)
        };
        let now = [&pattern.opening, &pattern.set, &pattern.closing];
        self.strands == pattern.strands
            && self.picks_by_color == pattern.picks_by_color
            && self.parts.iter().zip(now).all(|parts| match parts {
                (Some(old), Some(new)) => same_part(old, new),
                (old, new) => old.is_none() && new.is_none(),
            })
    }
}

/// Whether the same steps tie the same knots, each where it stood.
pub(super) fn same_steps(old: &[Step], new: &[Step], difference: Option<Difference>) -> bool {
    let now = |step: &Step| difference.map_or(Some(step.place), |difference| moved(step.place, difference));
    let same = |(old, new): (&Step, &Step)| {
        old.knots == new.knots && now(old).is_none_or(|place| place == new.place)
    };
    old.len() == new.len() && old.iter().zip(new).all(same)
}
