//! What is done from taking a strand in hand until it is let go.

use super::Planned;
use knotwright_band::{Begins, Plan};
use knotwright_checker::Pattern;
use knotwright_numbers::ToNumber;
use knotwright_rewriter::write_takes;
use std::ops::Range;

/// A strand taken in hand, and what it ties until it is let go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PickUp {
    /// The strand, by its position as the part begins, from 0.
    pub strand: u8,
    /// The name of its thread.
    pub color: String,
    /// As a statement: `take left 1 (kelp): forward 3`.
    pub take: String,
    /// Its knots in the order they are tied, by their number in the piece.
    pub knots: Vec<u32>,
    /// Why it was let go before; `None` if it is the first of its strand.
    pub again: Option<WhyAgain>,
}

/// Why a strand is picked up again. Pick-ups are numbered from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyAgain {
    /// In this pick-up another strand ties over it in between.
    TiedOver(usize),
    /// This pick-up of another strand has to come in between.
    Waits(usize),
    /// It would go over more rows at once than were allowed.
    TooManyRows,
}

pub(super) fn pick_ups(planned: &Planned, pattern: &Pattern) -> Vec<PickUp> {
    let threads = pattern.threads_before(planned.part);
    let plan = &planned.plan;
    let series: Vec<Range<u32>> = plan.series.iter().map(|series| series.knots.clone()).collect();
    let takes = write_takes(pattern, &threads, &planned.in_order(), &series);
    let tied_in = tied_in(plan);
    let one = |(series, take): (&knotwright_band::Series, String)| PickUp {
        strand: series.strand,
        color: color(pattern, &threads, series.strand).to_owned(),
        take,
        knots: plan.knots[series.knots.start.to_usize()..series.knots.end.to_usize()].to_vec(),
        again: again(series.begins, &tied_in),
    };
    plan.series.iter().zip(takes).map(one).collect()
}

/// By knot of the piece, the pick-up in which it is tied.
fn tied_in(plan: &Plan) -> Vec<usize> {
    let mut tied_in = vec![0; plan.knots.len()];
    for (number, series) in plan.series.iter().enumerate() {
        for &knot in &plan.knots[series.knots.start.to_usize()..series.knots.end.to_usize()] {
            tied_in[knot.to_usize()] = number;
        }
    }
    tied_in
}

fn again(begins: Begins, tied_in: &[usize]) -> Option<WhyAgain> {
    match begins {
        Begins::First => None,
        Begins::TiedOver { knot } => Some(WhyAgain::TiedOver(tied_in[knot.to_usize()])),
        Begins::Waits { other, .. } => Some(WhyAgain::Waits(tied_in[other.to_usize()])),
        Begins::TooManyRows => Some(WhyAgain::TooManyRows),
    }
}

/// `threads`: by position as the part begins, the thread there.
fn color<'a>(pattern: &'a Pattern, threads: &[u16], strand: u8) -> &'a str {
    let thread =
        threads.get(usize::from(strand)).and_then(|&thread| pattern.threads.get(usize::from(thread)));
    thread.map_or("another strand", |thread| thread.name.as_str())
}
