//! Figures from strands that were measured after tying.

use super::Figures;
use crate::Use;

/// A strand whose use was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// What it did.
    pub strand: Use,
    /// In a band of so many rows.
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
pub fn fit(model: Figures, measured: &[Measured]) -> Figures {
    let mut normal = [[0.0; 4]; 3];
    for (at, row) in normal.iter_mut().enumerate() {
        (row[at], row[3]) = (TRUST, TRUST);
    }
    let good = measured.iter().filter(|m| m.used > 0.0 && m.used.is_finite());
    let mut any = false;
    for strand in good {
        any = true;
        let parts = parts(model, strand);
        for (row, of_row) in normal.iter_mut().zip(parts) {
            row.iter_mut().zip(parts.iter().chain([&1.0])).for_each(|(sum, part)| *sum += of_row * part);
        }
    }
    let [working, base, idle] = solve(normal).map(|times| times.max(0.0));
    let fitted = Figures {
        working: model.working * working,
        base: model.base * base,
        idle: model.idle * idle,
        ..model
    };
    if any { Figures { uncertainty: 0.07, reserve: 1.07, ..fitted } } else { model }
}

/// What the model says of working, base and idle thread, as parts of what was used.
fn parts(model: Figures, measured: &Measured) -> [f64; 3] {
    let Measured { strand, height, used } = *measured;
    [
        strand.working as f64 * model.working / used,
        strand.base as f64 * model.base / used,
        strand.idle_rows(height) as f64 * model.idle / used,
    ]
}

/// Solves three equations, positive definite ones, by elimination.
fn solve(mut rows: [[f64; 4]; 3]) -> [f64; 3] {
    for pivot in 0..3 {
        let of_pivot = rows[pivot].map(|value| value / rows[pivot][pivot]);
        rows[pivot] = of_pivot;
        for (_, row) in rows.iter_mut().enumerate().filter(|(at, _)| *at != pivot) {
            let times = row[pivot];
            row.iter_mut().zip(of_pivot).for_each(|(value, own)| *value -= times * own);
        }
    }
    rows.map(|row| row[3])
}
