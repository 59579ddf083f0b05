//! Figures from strands that were measured after tying.
//!
//! What a strand used is a sum: its working knots, its base knots and its idle rows, each times one unknown figure. The
//! three figures are found as in [`ridge`](crate::ridge), and drawn to the model as much as a ruler is better than it.

use super::Figures;
use super::gauge::SWATCH_OFF;
use crate::Use;
use crate::ridge::Ridge;
use knotwright_numbers::ToNumber;

/// A strand whose use was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrandSample {
    /// What it did.
    pub strand: Use,
    /// Rows of the band.
    pub height: u64,
    /// The thread it used, without its ends.
    pub used: f64,
}

/// How far the model is trusted against a measured strand: the square of 3 % (what a ruler is off) over 20 % (what
/// the model is off).
const TRUST: f64 = 0.0225;

/// The figures that fit measured strands, drawn towards `model` where they say little (ridge regression: least squares
/// of relative errors, and of relative departures from the model times 0.0225). Only what knots and idle rows use is
/// fitted. Strands that used nothing are left out; with none, the model is returned.
pub fn fit_figures(model: Figures, measured: &[StrandSample]) -> Figures {
    let mut ridge = Ridge::new(TRUST);
    let good = measured.iter().filter(|m| m.used > 0.0 && m.used.is_finite());
    let mut any = false;
    for strand in good {
        any = true;
        ridge.add(parts(model, strand));
    }
    let [working, base, idle] = ridge.solve().map(|times| times.max(0.0));
    let fitted = Figures {
        working: model.working * working,
        base: model.base * base,
        idle: model.idle * idle,
        ..model
    };
    if any { Figures { uncertainty: SWATCH_OFF, ..fitted } } else { model }
}

/// What the model says of working, base and idle thread, as parts of what was used.
fn parts(model: Figures, measured: &StrandSample) -> [f64; 3] {
    let StrandSample { strand, height, used } = *measured;
    [
        strand.working.to_f64() * model.working / used,
        strand.base.to_f64() * model.base / used,
        strand.idle_rows(height).to_f64() * model.idle / used,
    ]
}
