//! One wrap of thread around another.

use crate::path::{Path, Point};
use knotwright_numbers::ToNumber;

/// A short piece of thread, thick in the middle, both ends bent away to the back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wrap {
    /// Its middle, from the knot's.
    pub(crate) middle: Point,
    /// From its middle to its right (or lower) end.
    pub(crate) along: Point,
    /// From its middle to its lower (or right) rim.
    pub(crate) across: Point,
}

impl Wrap {
    /// The same in a mirror.
    pub(crate) fn mirrored(self) -> Self {
        Self {
            middle: Point::new(-self.middle.x, self.middle.y),
            along: Point::new(self.along.x, -self.along.y),
            across: Point::new(-self.across.x, self.across.y),
        }
    }

    /// How far it can reach from the knot's middle, to the side and down.
    pub(crate) fn reach(&self) -> Point {
        let sum = |a: f64, b: f64, c: f64| a.abs() + b.abs() + c.abs();
        Point::new(
            sum(self.middle.x, self.along.x, self.across.x),
            sum(self.middle.y, self.along.y, self.across.y),
        )
    }

    /// Its outline, moved by `by`: fuller than an ellipse.
    pub(crate) fn outline(&self, by: Point) -> Path {
        let (tip, rim) = (self.along.scaled(0.62), self.across.scaled(0.72));
        let at = |a: f64, b: f64| self.at(a, b).plus(by, 1.0);
        let mut path = Path::at(at(-1.0, 0.0));
        path.curve(rim.scaled(-1.0), tip, at(0.0, -1.0));
        path.curve(tip, rim, at(1.0, 0.0));
        path.curve(rim, tip.scaled(-1.0), at(0.0, 1.0));
        path.curve(tip.scaled(-1.0), rim.scaled(-1.0), at(-1.0, 0.0));
        path
    }

    /// The lines between the plies of its thread, that run slantwise across it; `apart` is about how far.
    pub(crate) fn plies(&self, apart: f64) -> Vec<Path> {
        let length = (self.along.x * self.along.x + self.along.y * self.along.y).sqrt();
        let count = (length * 2.0 / apart).round().clamp(3.0, 60.0);
        let ply = |index: u32| self.ply((f64::from(index) + 0.5) / count * 2.0 - 1.0);
        (0..count.to_u32()).map(ply).filter(|ply| !ply.stretches.is_empty()).collect()
    }

    fn ply(&self, a: f64) -> Path {
        // Nearer the tips the outline is lower.
        let rim = 0.84 * (1.0 - a * a * 0.55);
        let mut path = Path::at(self.at(a - 0.16, rim));
        let bend = self.along.scaled(0.02).plus(self.across, -0.6 * rim);
        path.curve(bend, bend, self.at(a + 0.16, -rim));
        path
    }

    fn at(&self, along: f64, across: f64) -> Point {
        self.middle.plus(self.along, along).plus(self.across, across)
    }
}
