//! Smooth lines.

use crate::text::write_number;

/// The share of a radius at which a Bézier handle makes a quarter of a circle: 4/3 (sqrt 2 - 1).
const ROUND: f64 = 0.552_284_75;

/// A point or a direction, in tenths of a millimeter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
}

impl Point {
    pub(crate) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(crate) fn plus(self, other: Self, times: f64) -> Self {
        Self::new(self.x + other.x * times, self.y + other.y * times)
    }

    pub(crate) fn scaled(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by)
    }

    /// Twice the area of the triangle that two directions span; 0 if they are one direction.
    pub(crate) fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }
}

/// One stretch of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PathStretch {
    /// Straight to a point.
    Line(Point),
    /// A cubic Bézier curve: two handles, and where it ends.
    Curve(Point, Point, Point),
}

/// A line in stretches.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Path {
    /// Where it begins.
    pub start: Point,
    /// Its stretches.
    pub stretches: Vec<PathStretch>,
}

impl Path {
    pub(crate) fn at(start: Point) -> Self {
        Self { start, stretches: Vec::new() }
    }

    pub(crate) fn end(&self) -> Point {
        match self.stretches.last() {
            None => self.start,
            Some(PathStretch::Line(to) | PathStretch::Curve(_, _, to)) => *to,
        }
    }

    /// The same line with every point in another place.
    pub(crate) fn mapped(&self, place: impl Fn(Point) -> Point) -> Self {
        let stretch = |stretch: &PathStretch| match *stretch {
            PathStretch::Line(to) => PathStretch::Line(place(to)),
            PathStretch::Curve(leave, arrive, to) => {
                PathStretch::Curve(place(leave), place(arrive), place(to))
            }
        };
        Self { start: place(self.start), stretches: self.stretches.iter().map(stretch).collect() }
    }

    /// Where it begins, and where its stretches end.
    pub(crate) fn corners(&self) -> impl Iterator<Item = Point> + '_ {
        let ends = self.stretches.iter().map(|stretch| match stretch {
            PathStretch::Line(to) | PathStretch::Curve(_, _, to) => *to,
        });
        std::iter::once(self.start).chain(ends)
    }

    /// Goes straight on; a stretch that only lengthens the one before it is joined to it.
    pub(crate) fn line(&mut self, to: Point) {
        let from = self.end();
        if from == to {
            return;
        }
        if let [.., before, PathStretch::Line(corner)] = self.stretches.as_mut_slice() {
            let begin = match before {
                PathStretch::Line(point) | PathStretch::Curve(_, _, point) => *point,
            };
            if aligned(begin, *corner, to) {
                *corner = to;
                return;
            }
        }
        self.stretches.push(PathStretch::Line(to));
    }

    /// Leaves and arrives along two handles, each relative to its end.
    pub(crate) fn curve(&mut self, leave: Point, arrive: Point, to: Point) {
        self.stretches.push(PathStretch::Curve(self.end().plus(leave, 1.0), to.plus(arrive, -1.0), to));
    }

    /// A quarter of an ellipse, from where it leaves one way to where it arrives another; the two are its radii.
    pub(crate) fn quarter(&mut self, leave: Point, arrive: Point) {
        let to = self.end().plus(leave, 1.0).plus(arrive, 1.0);
        self.curve(leave.scaled(ROUND), arrive.scaled(ROUND), to);
    }

    /// The same line further down.
    pub fn lowered(&self, by: f64) -> Self {
        self.mapped(|point| Point::new(point.x, point.y + by))
    }

    /// The line as the `d` of an SVG path.
    pub fn svg(&self) -> String {
        let mut out = String::new();
        self.write(&mut out);
        out
    }

    /// The same, written onto something.
    pub(crate) fn write(&self, out: &mut String) {
        command(out, 'M', &[self.start]);
        for stretch in &self.stretches {
            match *stretch {
                PathStretch::Line(to) => command(out, 'L', &[to]),
                PathStretch::Curve(leave, arrive, to) => command(out, 'C', &[leave, arrive, to]),
            }
        }
    }
}

fn aligned(a: Point, b: Point, c: Point) -> bool {
    b.plus(a, -1.0).cross(c.plus(b, -1.0)).abs() < 1e-6
}

fn command(out: &mut String, letter: char, points: &[Point]) {
    out.push(letter);
    for (index, point) in points.iter().enumerate() {
        if index > 0 {
            out.push(' ');
        }
        write_number(out, point.x);
        out.push(' ');
        write_number(out, point.y);
    }
}
