//! The order of tying with the fewest pick-ups.

mod pick_up;
mod words;

pub use pick_up::{Again, PickUp};

use crate::measured::counted;
use knotwright_band::{Piece, Plan, pick_ups, plan};
use knotwright_checker::{Named, Pattern};
use knotwright_rewriter::{Body, Part, headings};

/// A part of a pattern, and how to tie it.
#[derive(Debug)]
pub struct Planned {
    /// Which part.
    pub part: Part,
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
        let of = |part: Part| {
            let written = part.piece(pattern)?;
            let plan = plan(&written, within);
            Some(Self { part, piece: written.clone(), written, plan })
        };
        Part::ALL.into_iter().filter_map(of).collect()
    }

    /// The part as it is to be written.
    ///
    /// # Errors
    /// As [`in_order`](Self::in_order).
    pub fn body(&self, pattern: &Pattern) -> Result<Body, knotwright_band::PieceError> {
        let part = self.part.of(pattern);
        let headings = part.map(|part| headings(part, &self.plan.knots)).unwrap_or_default();
        Ok(Body::Steps { piece: self.in_order()?, headings })
    }

    /// The piece in the order of the plan.
    ///
    /// # Errors
    /// None in practice: a plan lists every knot once, in an order in which they can be tied.
    pub fn in_order(&self) -> Result<Piece, knotwright_band::PieceError> {
        let knots = self.plan.knots.iter().filter_map(|&knot| self.piece.knots().get(knot as usize));
        Piece::tie(self.piece.strands(), knots.map(|knot| (knot.gap, knot.kind)))
    }

    /// Whether it stays as it is written: in steps, with as few pick-ups as the plan has, and no knot is exchanged.
    pub fn stays(&self, pattern: &Pattern) -> bool {
        let in_rows =
            |part: &knotwright_checker::Part| part.steps.iter().any(|step| step.named == Named::Row);
        let is_chart = self.part.of(pattern).is_some_and(in_rows);
        !is_chart && self.piece == self.written && self.plan.series.len() == pick_ups(&self.written)
    }

    /// One line: how many pick-ups, and how many as written.
    pub fn headline(&self) -> String {
        let (fewest, before) = (self.plan.series.len(), pick_ups(&self.written));
        format!("{}: {}; {before} as written", self.part.word(), counted(fewest as u64, "pick-up"))
    }

    /// The pick-ups, one after another.
    pub fn pick_ups(&self, pattern: &Pattern) -> Option<Vec<PickUp>> {
        pick_up::pick_ups(self, pattern)
    }

    /// The pick-ups, numbered, each with the reason why its strand is taken again. `within`: as they were planned.
    pub fn words(&self, pattern: &Pattern, within: Option<u32>) -> Option<String> {
        Some(words::words(&self.headline(), &self.pick_ups(pattern)?, within))
    }
}
