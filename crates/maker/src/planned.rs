//! The order of tying with the fewest pick-ups, in words.

use crate::measured::counted;
use knotwright_band::{Begins, Piece, Plan, pick_ups, plan};
use knotwright_checker::{Named, Pattern};
use knotwright_rewriter::{Body, Part, begins, headings, takes};
use std::ops::Range;

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

    /// The pick-ups, numbered, each with the reason why its strand is taken again.
    pub fn words(&self, pattern: &Pattern, within: Option<u32>) -> Option<String> {
        let threads = begins(pattern, self.part)?;
        let piece = self.in_order().ok()?;
        let series: Vec<Range<u32>> = self.plan.series.iter().map(|series| series.knots.clone()).collect();
        let takes = takes(pattern, &threads, &piece, &series);
        let wide = takes.len().to_string().len();
        let reasons = Reasons::new(self, pattern, &threads, within);
        let mut out = format!("{}\n\n", self.headline());
        for (number, take) in takes.iter().enumerate() {
            out += &format!("{:wide$}. {take}\n", number + 1);
            if let Some(reason) = reasons.of(number) {
                out += &format!("{:wide$}  {reason}\n", "");
            }
        }
        Some(out)
    }
}

struct Reasons<'a> {
    planned: &'a Planned,
    pattern: &'a Pattern,
    threads: &'a [u16],
    within: Option<u32>,
    /// By knot of the piece, the pick-up in which it is tied.
    tied_in: Vec<usize>,
}

impl<'a> Reasons<'a> {
    fn new(planned: &'a Planned, pattern: &'a Pattern, threads: &'a [u16], within: Option<u32>) -> Self {
        let mut tied_in = vec![0; planned.piece.knots().len()];
        for (number, series) in planned.plan.series.iter().enumerate() {
            for &knot in &planned.plan.knots[series.knots.start as usize..series.knots.end as usize] {
                tied_in[knot as usize] = number;
            }
        }
        Self { planned, pattern, threads, within, tied_in }
    }

    /// Why the strand of a pick-up had to be let go before; `None` if it is its first.
    fn of(&self, number: usize) -> Option<String> {
        match self.planned.plan.series.get(number)?.begins {
            Begins::First => None,
            Begins::TiedOver { knot } => Some(format!(
                "again, as {} ({}) ties over it in between",
                self.number(knot),
                self.color(knot)
            )),
            Begins::Waits { other, .. } => Some(format!(
                "again, as {} ({}) has to come in between",
                self.number(other),
                self.color(other)
            )),
            Begins::TooManyRows => Some(format!(
                "again, as it would go over more than {} at once",
                counted(u64::from(self.within.unwrap_or(1).max(1)), "row")
            )),
        }
    }

    fn color(&self, knot: u32) -> &str {
        let working = self.planned.piece.knots()[knot as usize].working;
        let thread = self.threads.get(usize::from(working)).copied().unwrap_or(u16::MAX);
        self.pattern.threads.get(usize::from(thread)).map_or("another strand", |thread| thread.name.as_str())
    }

    fn number(&self, knot: u32) -> usize {
        self.tied_in[knot as usize] + 1
    }
}
