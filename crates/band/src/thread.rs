//! How much thread a band takes. All lengths are in millimeters, or in any one unit used throughout.

mod fit;
mod fold;
mod gauge;
mod linear_density;

pub use fit::{Measured, fit};
pub use fold::{Cut, cut_alike, fold};
pub use gauge::{Figures, Gauge, Model};
pub use linear_density::LinearDensity;

use crate::Use;

/// Why nothing can be measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MeasureError {
    /// A length or count that must be above zero (and finite) is not.
    NotPositive(Quantity),
    /// Neither a thickness nor a swatch is known.
    NoGauge,
    /// Less than one set.
    TooShort {
        /// The rows that the band has with one set.
        rows: u64,
    },
    /// The band does not get longer, however many sets are tied.
    DoesNotGrow,
}

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// The thickness of the thread.
    Thickness,
    /// What so many knots use.
    KnotsUse,
    /// What so many rows measure.
    RowsMeasure,
    /// A length that is wanted.
    Length,
}

/// The thread of one strand, its ends included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Length {
    /// At least, as far as the figures can be trusted.
    pub low: f64,
    /// By the figures.
    pub likely: f64,
    /// At most, as far as the figures can be trusted.
    pub high: f64,
    /// What to cut: with a reserve.
    pub cut: f64,
}

impl Figures {
    /// What a strand uses in a band of so many rows, without its ends: the sum over its knots and idle rows.
    ///
    /// A straight row counts as one row and its knots as any others; the model was made for brick rows.
    pub fn used(&self, strand: Use, height: u64) -> f64 {
        strand.working as f64 * self.working
            + strand.base as f64 * self.base
            + strand.idle_rows(height) as f64 * self.idle
    }

    /// The thread of a strand: `ends` in all, left free, and what it uses.
    pub fn length(&self, strand: Use, height: u64, ends: f64) -> Length {
        let used = self.used(strand, height);
        Length {
            low: ends + used * (1.0 - self.uncertainty),
            likely: ends + used,
            high: ends + used * (1.0 + self.uncertainty),
            cut: ends + used * self.reserve,
        }
    }
}

/// The number of sets with which a band comes nearest to a length, at least one; of two equally near, the fewer.
///
/// `rows`: the length in rows; `height`: how many rows a band of so many sets has, opening and closing included
/// (see [`Growth`](crate::Growth)), never less for more sets. Takes time in proportion to the logarithm of the answer.
///
/// # Errors
/// [`MeasureError::TooShort`] if the length is less than one set's, [`MeasureError::DoesNotGrow`] if 2^50 sets are not
/// as long, [`MeasureError::NotPositive`].
pub fn sets_for(rows: f64, height: impl Fn(u64) -> u64) -> Result<u64, MeasureError> {
    if !(rows > 0.0 && rows.is_finite()) {
        return Err(MeasureError::NotPositive(Quantity::Length));
    }
    let reaches = |sets: u64| height(sets) as f64 >= rows;
    if height(1) as f64 > rows {
        return Err(MeasureError::TooShort { rows: height(1) });
    }
    let beyond = (0..=50).map(|power| 1_u64 << power).find(|&sets| reaches(sets));
    let (mut short, mut enough) = beyond.map(|sets| (sets / 2, sets)).ok_or(MeasureError::DoesNotGrow)?;
    while enough - short > 1 {
        let middle = short + (enough - short) / 2;
        if reaches(middle) { enough = middle } else { short = middle }
    }
    let off = |sets: u64| (height(sets) as f64 - rows).abs();
    Ok(if short > 0 && off(short) <= off(enough) { short } else { enough })
}
