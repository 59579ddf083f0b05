//! How much thread a band takes. All lengths are in millimeters, or in any one unit used throughout.

mod ends;
mod fit;
mod fold;
mod gauge;
mod linear_density;
mod shades;
mod skeins;

pub use ends::{EndStrands, EndThread, OwnThread, PlaitShape, TRIMMED};
pub use fit::{StrandSample, fit_figures};
pub use fold::{Cut, cut_alike, fold_strands};
pub use gauge::{Figures, Gauge, Model, USUAL_THICKNESS};
pub use linear_density::LinearDensity;
pub use shades::{TakenThread, UsedThread, find_shade};
pub use skeins::{PieceNeed, SkeinNeed, USUAL_SKEIN, pack_skeins};

use crate::Use;
use knotwright_numbers::ToNumber;

/// Why nothing can be measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MeasureError {
    /// A length or count that must be above zero (and finite) is not.
    NotPositive(Quantity),
    /// Neither a thickness nor a swatch is known.
    NoGauge,
    /// The band does not get longer, however many sets are tied.
    DoesNotGrow,
}

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// The thickness of the thread.
    Thickness,
    /// What a number of knots use.
    KnotsUse,
    /// What a number of rows measure.
    RowsMeasure,
    /// A length that is wanted.
    Length,
}

/// The thread of one strand, its ends and the knots that hold them included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrandLength {
    /// At least, as far as the figures can be trusted.
    pub low: f64,
    /// By the figures.
    pub likely: f64,
    /// At most, as far as the figures can be trusted. Whoever cuts that much has enough.
    pub high: f64,
}

/// What each piece of thread is longer at a join, in millimeters. Common practice, no source.
pub const JOIN_OVER: f64 = 50.0;

/// An overhand knot of all strands takes about that many diameters of the bundle. Common practice, no source: the
/// tightest closed trefoil is known to take about 16.4 of them, and the ends that leave an open one keep a part.
const KNOT_DIAMETERS: f64 = 10.0;

/// How much of a bundle's cross-section is thread. Common practice, no source: round threads that lie side by side fill
/// 0.91 of it at best.
const BUNDLE_FILLED: f64 = 0.8;

impl Figures {
    /// What a strand uses in a band of `height` rows, without its ends: the sum over its knots, its idle rows and its
    /// beads, which push the knots apart by their length.
    ///
    /// A straight row counts as one row and its knots as any others: they lie as far apart as bricks do.
    pub fn used(&self, strand: Use, height: u64) -> f64 {
        strand.working.to_f64() * self.working
            + strand.base.to_f64() * self.base
            + strand.idle_rows(height).to_f64() * self.idle
            + strand.in_beads.to_f64() / 1000.0
    }

    /// Whether a length is surely less than that many rows have, as far as the figures can be trusted.
    pub fn is_shorter(&self, length: f64, rows: u64) -> bool {
        length < rows.to_f64() * self.pitch * (1.0 - self.length_uncertainty)
    }

    /// What every strand gives to one overhand knot of all `strands`.
    pub fn overhand(&self, strands: usize) -> f64 {
        KNOT_DIAMETERS * self.tight * (strands.to_f64() / BUNDLE_FILLED).sqrt()
    }

    /// The thread of a strand: `ends` in all, left free or in the knots that hold them, and what it uses.
    pub fn length(&self, strand: Use, height: u64, ends: f64) -> StrandLength {
        let used = self.used(strand, height);
        StrandLength {
            low: ends + used * (1.0 - self.uncertainty),
            likely: ends + used,
            high: ends + used * (1.0 + self.uncertainty),
        }
    }
}

/// The number of sets with which a band comes nearest to a length, at least one; of two equally near, the fewer.
///
/// `rows`: the length in rows; `height`: how many rows a band of a given number of sets has, opening and closing
/// included (see [`Growth`](crate::Growth)), never less for more sets. Takes time in proportion to the logarithm of
/// the answer.
///
/// # Errors
/// [`MeasureError::DoesNotGrow`] if 2^50 sets are not as long, [`MeasureError::NotPositive`].
pub fn sets_for(rows: f64, height: impl Fn(u64) -> u64) -> Result<u64, MeasureError> {
    if !(rows > 0.0 && rows.is_finite()) {
        return Err(MeasureError::NotPositive(Quantity::Length));
    }
    let reaches = |sets: u64| height(sets).to_f64() >= rows;
    let beyond = (0..=50).map(|power| 1_u64 << power).find(|&sets| reaches(sets));
    let (mut short, mut enough) = beyond.map(|sets| (sets / 2, sets)).ok_or(MeasureError::DoesNotGrow)?;
    while enough - short > 1 {
        let middle = short + (enough - short) / 2;
        if reaches(middle) { enough = middle } else { short = middle }
    }
    let off = |sets: u64| (height(sets).to_f64() - rows).abs();
    // Where one set is longer than that already, `short` is none.
    Ok(if short > 0 && off(short) <= off(enough) { short } else { enough })
}
