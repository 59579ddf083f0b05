//! The shape of a knot: two wraps of thread.
//!
//! A knot is two half hitches of the working strand over the base strand. What is seen of each is a short wrap that
//! lies across the base strand, and the two follow one another along it. So a forward knot, whose base strand runs
//! down to the left, shows two wraps that fall to the right; a backward knot their mirror image. In a turning knot
//! the second hitch goes the other way than the first, and the two wraps meet in a point on the side of the turn.

use crate::path::{Path, Point};
use crate::wrap::Wrap;

/// What a knot looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Form {
    /// Two wraps that fall to the right.
    Forward,
    /// Two wraps that fall to the left.
    Backward,
    /// To the right, then back to the left.
    ForwardBackward,
    /// To the left, then back to the right.
    BackwardForward,
    /// In a straight row: the strand hangs down and the leader is wrapped around it.
    LeaderShows,
    /// In a straight row: the leader lies across and the strand is wrapped around it.
    StrandShows,
    /// Nothing ties it yet: a pale lozenge of the color that is to be seen.
    Wished,
}

impl Form {
    /// All forms.
    pub const ALL: [Self; 7] = [
        Self::Forward,
        Self::Backward,
        Self::ForwardBackward,
        Self::BackwardForward,
        Self::LeaderShows,
        Self::StrandShows,
        Self::Wished,
    ];

    /// A letter that names the form within a picture.
    pub(crate) fn letter(self) -> char {
        match self {
            Self::Forward => 'f',
            Self::Backward => 'b',
            Self::ForwardBackward => 'r',
            Self::BackwardForward => 'l',
            Self::LeaderShows => 'h',
            Self::StrandShows => 'v',
            Self::Wished => 'w',
        }
    }
}

/// The two wraps of a knot, the upper or left one first; none of what is not tied. The cell is that of the gauge, in the
/// picture's unit.
pub(crate) fn place_wraps(form: Form, cell: Point) -> Vec<Wrap> {
    let wraps = match form {
        Form::Wished => return Vec::new(),
        Form::Forward => slanted(cell),
        Form::Backward => slanted(cell).map(Wrap::mirrored),
        Form::ForwardBackward => pointed(cell),
        Form::BackwardForward => pointed(cell).map(Wrap::mirrored),
        Form::LeaderShows => level(cell),
        Form::StrandShows => upright(cell),
    };
    wraps.to_vec()
}

/// What stands for a knot that nothing ties yet: a lozenge as wide and high as a knot's place among its neighbors.
pub(crate) fn place_lozenge(cell: Point) -> Path {
    let (across, down) = (cell.x * 0.9, cell.y * 0.9);
    let mut path = Path::at(Point::new(0.0, -down));
    [(across, 0.0), (0.0, down), (-across, 0.0), (0.0, -down)]
        .into_iter()
        .for_each(|(x, y)| path.line(Point::new(x, y)));
    path
}

/// Half the width and height of what any knot covers, rim and shadow included.
pub(crate) fn measure_reach(cell: Point) -> Point {
    let thickness = (cell.x * cell.y / 3.0).sqrt();
    let all = Form::ALL.into_iter().flat_map(|form| place_wraps(form, cell)).map(|wrap| wrap.reach());
    let most = all.reduce(|a, b| Point::new(a.x.max(b.x), a.y.max(b.y))).unwrap_or_default();
    Point::new(most.x + thickness * 0.3, most.y + thickness * 0.3)
}

/// The base strand comes down to the left, from one knot to the next; the wraps lie square across it.
fn slanted(cell: Point) -> [Wrap; 2] {
    let step = (cell.x * cell.x + cell.y * cell.y).sqrt();
    let base = Point::new(-cell.x / step, cell.y / step);
    let fall = Point::new(cell.y / step, cell.x / step);
    // From the knots' line to the one beside it; half of it is a wrap's reach to either side.
    let reach = cell.x * cell.y / step;
    [-0.225, 0.225].map(|place| Wrap {
        middle: base.scaled(place * step),
        along: fall.scaled(reach * 1.03),
        across: base.scaled(step * 0.268),
    })
}

/// Out to the right and back: the first wrap falls, the second rises.
fn pointed(cell: Point) -> [Wrap; 2] {
    [-1.0, 1.0].map(|side| Wrap {
        middle: Point::new(cell.x * 0.03, side * cell.y * 0.285),
        along: Point::new(cell.x * 0.93, -side * cell.y * 0.2),
        across: Point::new(0.0, cell.y * 0.36),
    })
}

fn level(cell: Point) -> [Wrap; 2] {
    [-0.24, 0.24].map(|place| Wrap {
        middle: Point::new(0.0, place * cell.y),
        along: Point::new(cell.x * 0.54, cell.y * 0.05),
        across: Point::new(0.0, cell.y * 0.25),
    })
}

fn upright(cell: Point) -> [Wrap; 2] {
    [-0.24, 0.24].map(|place| Wrap {
        middle: Point::new(place * cell.x, 0.0),
        along: Point::new(cell.x * 0.04, cell.y * 0.52),
        across: Point::new(cell.x * 0.27, 0.0),
    })
}

/// The wraps of a thread that is wound around all others: three, level, `half` the width and height.
pub(crate) fn place_binding(half: Point) -> [Wrap; 3] {
    [-0.62, 0.0, 0.62].map(|place| Wrap {
        middle: Point::new(0.0, place * half.y),
        along: Point::new(half.x, half.y * 0.08),
        across: Point::new(0.0, half.y * 0.4),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Stencils and the squares of pixels that are copied are as large as the reach.
    #[test]
    fn a_lozenge_is_within_the_reach_of_knots() {
        for cell in [Point::new(11.5, 15.3), Point::new(20.0, 8.0), Point::new(6.0, 18.0)] {
            let reach = measure_reach(cell);
            let rim = cell.x * 0.03;
            assert!(reach.x > cell.x * 0.9 + rim && reach.y > cell.y * 0.9 + rim, "{reach:?} of {cell:?}");
        }
    }
}
