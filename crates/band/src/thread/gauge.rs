//! What a knot, a row and a position take, from the thread's thickness or from a swatch.

use super::{LinearDensity, MeasureError, Quantity};
use std::f64::consts::PI;

/// What knots and rows take of a thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// How thick the thread is where a knot is drawn tight.
    pub tight: f64,
    /// Width of one strand's position: a band of n strands is n times as wide.
    pub width: f64,
    /// Height of one row; in a band with bricks and straight rows, of all rows on average.
    pub pitch: f64,
    /// Used by the working strand in one knot.
    pub working: f64,
    /// Used by the base strand in one knot.
    pub base: f64,
    /// Used by a strand that is not tied in a row.
    pub idle: f64,
    /// How far off what is used may be, as a part of it: 0.07 if both knots and rows were measured, else 0.20.
    pub uncertainty: f64,
    /// How far off the length of a number of rows may be, as a part of it: 0.07 if rows were measured, else 0.20.
    pub length_uncertainty: f64,
}

/// How far off the model may be, as a part of what it says.
const MODEL_OFF: f64 = 0.20;
/// How far off a swatch may be: hands do not tie alike every day.
pub(super) const SWATCH_OFF: f64 = 0.07;

/// A model of the knot in three numbers.
///
/// With `e = softness * thickness`: width `W = e sqrt(3 / aspect)`, pitch `p = e sqrt(3 aspect)`, path through a knot
/// `s = sqrt(W^2 + p^2)`. The working strand turns twice around the base in a helix of radius and pitch `e` and
/// crosses itself (0.6 `e` a turn), `2 e (sqrt(4 pi^2 + 1) + 0.6) + s / 2`; the base takes `1.1 s`, an idle strand
/// `1.05 p`. Own geometry, good to about 20 %.
///
/// The knots of a leader's row lie straight, each at the side of the next: `s` apart. A knot covers the same area there
/// as among bricks, `2 W p`, so such a row is `2 W p / s` high.
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

    /// What knots and rows take in a band where this part of the rows is straight, 0 to 1: none in a band of bricks, all
    /// where a leader goes across in every row.
    pub fn figures(self, straight: f64) -> Figures {
        let e = self.softness * self.thickness;
        let (width, pitch) = (e * (3.0 / self.aspect).sqrt(), e * (3.0 * self.aspect).sqrt());
        let path = width.hypot(pitch);
        let turn = e * ((4.0 * PI * PI + 1.0).sqrt() + 0.6);
        let mean =
            |bricks: f64, straight_row: f64| bricks + straight.clamp(0.0, 1.0) * (straight_row - bricks);
        let row = mean(pitch, 2.0 * width * pitch / path);
        Figures {
            tight: e,
            width: mean(width, path),
            pitch: row,
            working: 2.0 * turn + path / 2.0,
            base: 1.1 * path,
            idle: 1.05 * row,
            uncertainty: MODEL_OFF,
            length_uncertainty: MODEL_OFF,
        }
    }
}

/// What is known of a thread: its thickness, or what a swatch says.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Gauge {
    /// The thread's diameter.
    pub thickness: Option<f64>,
    /// A number of knots, and the millimeters of working strand they use.
    pub knots_use: Option<(u32, f64)>,
    /// A number of rows, and their height in millimeters.
    pub rows_measure: Option<(u32, f64)>,
    /// How heavy the thread is; lengths do not depend on it.
    pub density: Option<LinearDensity>,
}

/// How thick thread is if nobody says so, in millimeters. Common practice, no source.
pub const USUAL_THICKNESS: f64 = 0.9;

impl Gauge {
    /// Where nothing is said of the thread, it is taken to be the usual one.
    pub fn or_usual(mut self) -> Self {
        if self.knots_use.is_none() && self.rows_measure.is_none() {
            self.thickness.get_or_insert(USUAL_THICKNESS);
        }
        self
    }

    /// What knots and rows take in a band where the part `straight` of the rows is straight (see [`Model::figures`]); a
    /// swatch is taken to be tied like the band. It goes before the thickness: rows give the pitch, knots the working
    /// strand's use, and what is not measured is the model's, in proportion to the pitch if rows were measured, else to
    /// the working use.
    ///
    /// Thread per length of band hangs on the ratio of both. Knots alone scale rows and use alike, and so do rows alone:
    /// only where both were measured is the answer better than the model's.
    ///
    /// # Errors
    /// [`MeasureError::NotPositive`], [`MeasureError::NoGauge`].
    pub fn figures(&self, straight: f64) -> Result<Figures, MeasureError> {
        let unit = Model::new(1.0).figures(straight);
        let thickness = self.thickness.map(|d| positive(d, Quantity::Thickness)).transpose()?;
        let working = each(self.knots_use, Quantity::KnotsUse)?;
        let pitch = each(self.rows_measure, Quantity::RowsMeasure)?;
        let by_pitch = pitch.map(|pitch| pitch / unit.pitch);
        let by_working = working.map(|working| working / unit.working);
        let scale = by_pitch.or(by_working).or(thickness).ok_or(MeasureError::NoGauge)?;
        let mut figures = Model::new(scale).figures(straight);
        figures.working = working.unwrap_or(figures.working);
        if pitch.is_some() {
            figures.length_uncertainty = SWATCH_OFF;
        }
        if pitch.is_some() && working.is_some() {
            figures.uncertainty = SWATCH_OFF;
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
