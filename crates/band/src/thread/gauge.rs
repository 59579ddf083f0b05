//! What a knot, a row and a position take, from the thread's thickness or from a swatch.

use super::{MeasureError, Quantity};
use std::f64::consts::PI;

/// What knots and rows take of a thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// Width of one strand's position: a band of n strands is n times as wide.
    pub width: f64,
    /// Height of one row.
    pub pitch: f64,
    /// Used by the working strand in one knot.
    pub working: f64,
    /// Used by the base strand in one knot.
    pub base: f64,
    /// Used by a strand that is not tied in a row.
    pub idle: f64,
    /// How far off what is used may be, as a part of it: 0.20 without a swatch, 0.07 with one.
    pub uncertainty: f64,
    /// By what to multiply what is used when cutting: 1.15 without a swatch, 1.07 with one.
    pub reserve: f64,
}

/// A model of the knot in three numbers.
///
/// With `e = softness * thickness`: width `W = e sqrt(3 / aspect)`, pitch `p = e sqrt(3 aspect)`, path through a knot
/// `s = sqrt(W^2 + p^2)`. The working strand turns twice around the base in a helix of radius and pitch `e` and
/// crosses itself (0.6 `e` a turn), `2 e (sqrt(4 pi^2 + 1) + 0.6) + s / 2`; the base takes `1.1 s`, an idle strand
/// `1.05 p`. Own geometry, good to about 20 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Model {
    /// The thread's diameter.
    pub thickness: f64,
    /// How much is left of the diameter in a tightened knot, 0.75 to 1; 0.85 if not known.
    pub softness: f64,
    /// Row pitch over width, 1 to 1.6; 4/3 if not known.
    pub aspect: f64,
}

impl Model {
    /// The model of a thread of which only the thickness is known.
    pub fn new(thickness: f64) -> Self {
        Self { thickness, softness: 0.85, aspect: 4.0 / 3.0 }
    }

    /// What knots and rows take.
    pub fn figures(self) -> Figures {
        let e = self.softness * self.thickness;
        let (width, pitch) = (e * (3.0 / self.aspect).sqrt(), e * (3.0 * self.aspect).sqrt());
        let path = width.hypot(pitch);
        let turn = e * ((4.0 * PI * PI + 1.0).sqrt() + 0.6);
        Figures {
            width,
            pitch,
            working: 2.0 * turn + path / 2.0,
            base: 1.1 * path,
            idle: 1.05 * pitch,
            uncertainty: 0.20,
            reserve: 1.15,
        }
    }
}

/// What is known of a thread: its thickness, or what a swatch says.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Gauge {
    /// The thread's diameter.
    pub thickness: Option<f64>,
    /// So many knots use so much of the working strand.
    pub knots_use: Option<(u32, f64)>,
    /// So many rows measure so much.
    pub rows_measure: Option<(u32, f64)>,
}

impl Gauge {
    /// What knots and rows take. A swatch goes before the thickness: rows give the pitch, knots the working strand's
    /// use, and what is not measured is the model's, in proportion to the pitch if rows were measured, else to the
    /// working use.
    ///
    /// # Errors
    /// [`MeasureError::NotPositive`], [`MeasureError::NoGauge`].
    pub fn figures(&self) -> Result<Figures, MeasureError> {
        let unit = Model::new(1.0).figures();
        let thickness = self.thickness.map(|d| positive(d, Quantity::Thickness)).transpose()?;
        let working = each(self.knots_use, Quantity::KnotsUse)?;
        let pitch = each(self.rows_measure, Quantity::RowsMeasure)?;
        let by_pitch = pitch.map(|pitch| pitch / unit.pitch);
        let by_working = working.map(|working| working / unit.working);
        let scale = by_pitch.or(by_working).or(thickness).ok_or(MeasureError::NoGauge)?;
        let mut figures = Model::new(scale).figures();
        if let Some(working) = working {
            figures = Figures { working, uncertainty: 0.07, reserve: 1.07, ..figures };
        }
        Ok(figures)
    }
}

fn positive(value: f64, what: Quantity) -> Result<f64, MeasureError> {
    if value > 0.0 && value.is_finite() { Ok(value) } else { Err(MeasureError::NotPositive(what)) }
}

fn each(measured: Option<(u32, f64)>, what: Quantity) -> Result<Option<f64>, MeasureError> {
    let one = |(count, length): (u32, f64)| positive(length / f64::from(count), what);
    measured.map(one).transpose()
}
