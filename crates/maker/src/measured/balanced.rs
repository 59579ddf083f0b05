//! What sharing out the knots between two strands of one color would save.

use crate::room::MOST_KNOTS;
use crate::whole_band::WholeBand;
use knotwright_band::balance::{BalancedPiece, Lengths, balance_set};
use knotwright_band::thread::Figures;
use knotwright_band::{Growth, Sets, count_uses, total_uses};
use knotwright_checker::Pattern;
use knotwright_numbers::ToNumber;

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
    whole: &WholeBand,
    figures: Figures,
    keep_pick_ups: bool,
) -> Option<BalancedPiece> {
    pattern.set.as_ref()?;
    let (run_in, [set]) = (whole.sets.run_in(), whole.sets.period()) else { return None };
    if !run_in.is_empty() {
        return None;
    }
    let colors = whole.opening.threads_after(&pattern.strands);
    let growth = Growth::new(&whole.opening, &whole.sets);
    let rows = growth.height(2) - growth.height(1);
    let used: Vec<f64> = count_uses(set).into_iter().map(|of| figures.used(of, rows)).collect();
    let lengths = Lengths { used: &used, extra: figures.working - figures.base };
    Some(balance_set(set, &colors, lengths, keep_pick_ups))
}

/// The saving over the real number of sets: what the rounds use in the long run decides which knots are turned, so
/// a band of few sets may gain nothing.
///
/// `cut`: what to cut of a strand, by what it uses in the band.
pub(super) fn find_saving(
    pattern: &Pattern,
    whole: &WholeBand,
    figures: Figures,
    cut: impl Fn(f64) -> f64,
) -> Option<Saving> {
    // Nobody ties such a set, and nobody asked for the saving.
    if pattern.set.as_ref()?.piece.knots().len().to_u64() > MOST_KNOTS {
        return None;
    }
    let balance = shared_out(pattern, whole, figures, false)?;
    if balance.turned.is_empty() {
        return None;
    }
    let before = cut(most_used(whole, &whole.sets, figures));
    let after = cut(most_used(whole, &Sets::alike(balance.piece), figures));
    // What scissors do not notice is not worth another pattern.
    (after < before).then_some(Saving { turned: balance.turned.len(), before, after })
}

/// What the strand that uses most may use in the band with these sets, in millimeters.
fn most_used(whole: &WholeBand, sets: &Sets, figures: Figures) -> f64 {
    let times = whole.times.unwrap_or(1);
    let uses = total_uses(&whole.opening, sets, times, &whole.closing);
    uses.into_iter().map(|of| figures.length(of, whole.rows, 0.0).high).fold(0.0, f64::max)
}
