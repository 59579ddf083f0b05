//! The order of tying with the fewest pick-ups.

mod pick_up;
mod words;

pub use pick_up::{PickUp, WhyAgain};

use knotwright_band::{Piece, Plan, pick_ups, plan_pick_ups};
use knotwright_checker::{Named, Part, PartKind, Pattern};
use knotwright_numbers::ToNumber;
use knotwright_rewriter::{NewBody, find_headings};
use knotwright_wording::digits::count;

/// A part of a pattern, and how to tie it.
#[derive(Debug)]
pub struct Planned {
    /// Which part.
    pub part: PartKind,
    /// As it is written.
    pub written: Piece,
    /// What is to be tied; the same, or with knots tied by the other of two strands of one color.
    pub piece: Piece,
    /// In which order.
    pub plan: Plan,
}

impl Planned {
    /// The parts of a pattern as they are written, each in an order with the fewest pick-ups; no strand goes over more
    /// than `within` rows at once.
    pub fn all(pattern: &Pattern, within: Option<u32>) -> Vec<Self> {
        let of = |(kind, part): (PartKind, &Part)| {
            let written = part.piece.clone();
            let plan = plan_pick_ups(&written, within);
            Self { part: kind, piece: written.clone(), written, plan }
        };
        pattern.parts().map(of).collect()
    }

    /// The part as it is to be written.
    pub fn body(&self, pattern: &Pattern) -> NewBody {
        let part = pattern.part(self.part);
        let headings = part.map(|part| find_headings(part, &self.plan.knots)).unwrap_or_default();
        NewBody::Steps { piece: self.in_order(), headings }
    }

    /// The piece in the order of the plan.
    pub fn in_order(&self) -> Piece {
        self.piece.in_order(&self.plan.knots)
    }

    /// Whether it stays as it is written: in steps, with as few pick-ups as the plan has, and no knot is exchanged.
    pub fn stays(&self, pattern: &Pattern) -> bool {
        let in_rows = |part: &Part| part.steps.iter().any(|step| step.named == Named::Row);
        let is_chart = pattern.part(self.part).is_some_and(in_rows);
        !is_chart && self.piece == self.written && self.plan.series.len() == pick_ups(&self.written)
    }

    /// One line: how many pick-ups, and how many as written.
    pub fn headline(&self) -> String {
        let (fewest, before) = (self.plan.series.len(), pick_ups(&self.written));
        format!("{}: {}; {before} as written", self.part.word(), count(fewest.to_u64(), "pick-up"))
    }

    /// The pick-ups, one after another.
    pub fn pick_ups(&self, pattern: &Pattern) -> Vec<PickUp> {
        pick_up::pick_ups(self, pattern)
    }

    /// The pick-ups, numbered, each with the reason why its strand is taken again. `within`: as they were planned.
    pub fn words(&self, pattern: &Pattern, within: Option<u32>) -> String {
        words::words(&self.headline(), &self.pick_ups(pattern), within)
    }
}
