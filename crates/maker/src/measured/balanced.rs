//! What sharing out the knots between two strands of one color would save.

use crate::reckoning::{Reckoning, colors_after};
use knotwright_band::balance::{Balance, Lengths, balance_set};
use knotwright_band::thread::Figures;
use knotwright_band::{Growth, Piece, Sets, total_uses, uses};
use knotwright_checker::Pattern;

/// What would be saved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saving {
    /// Knots of a set that the other of the two strands would tie.
    pub turned: usize,
    /// The longest strand to cut now, in millimeters.
    pub before: f64,
    /// The longest strand to cut then.
    pub after: f64,
}

/// The set with its knots shared out, if all sets are alike.
pub fn shared_out(
    pattern: &Pattern,
    reckoning: &Reckoning,
    figures: Figures,
    keep_pick_ups: bool,
) -> Option<Balance> {
    pattern.set.as_ref()?;
    let (run_in, [set]) = (reckoning.sets.run_in(), reckoning.sets.period()) else { return None };
    if !run_in.is_empty() {
        return None;
    }
    let colors = colors_after(pattern, reckoning.opening.order());
    let growth = Growth::new(&reckoning.opening, &reckoning.sets);
    let rows = growth.height(2) - growth.height(1);
    let used: Vec<f64> = uses(set).into_iter().map(|of| figures.used(of, rows)).collect();
    let lengths = Lengths { used: &used, extra: figures.working - figures.base };
    balance_set(set, &colors, lengths, keep_pick_ups).ok()
}

/// The saving over the real number of sets: what the rounds use in the long run decides which knots are turned, so
/// a band of few sets may gain nothing.
pub(super) fn saving(
    pattern: &Pattern,
    reckoning: &Reckoning,
    figures: Figures,
    free: f64,
) -> Option<Saving> {
    let balance = shared_out(pattern, reckoning, figures, false)?;
    if balance.turned.is_empty() {
        return None;
    }
    let (before, after) = (
        longest(reckoning, &reckoning.sets, figures, free),
        longest_of(reckoning, &balance.piece, figures, free),
    );
    // Less than a centimeter is not worth another pattern.
    (after + 10.0 <= before).then_some(Saving { turned: balance.turned.len(), before, after })
}

/// The longest strand to cut with another set, in millimeters.
fn longest_of(reckoning: &Reckoning, set: &Piece, figures: Figures, free: f64) -> f64 {
    longest(reckoning, &Sets::alike(set.clone()), figures, free)
}

fn longest(reckoning: &Reckoning, sets: &Sets, figures: Figures, free: f64) -> f64 {
    let times = reckoning.times.unwrap_or(1);
    let uses = total_uses(&reckoning.opening, sets, times, &reckoning.closing);
    uses.into_iter().map(|of| figures.length(of, reckoning.rows, free).cut).fold(0.0, f64::max)
}
