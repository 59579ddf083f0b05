//! The shapes of the chart. Whoever draws it, in SVG or on a page, draws these.

use serde::Serialize;

use crate::bead::Form;
use crate::path::{Path, Point};

use super::grid::{ACROSS, DOWN};

/// Half the width of a ribbon.
const HALF: f64 = ACROSS * 0.4;

/// A closed outline around a middle, and where its letter or number goes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChartShape {
    /// The outline as the `d` of an SVG path.
    pub outline: String,
    /// The middle of the letter.
    pub seat: [f64; 2],
}

/// A knot: the ribbon of the strand that ties.
pub fn knot_shape(form: Form) -> ChartShape {
    let (half, down) = (ACROSS / 2.0, DOWN / 2.0);
    let (corners, seat) = match form {
        Form::Forward => (fallen(half, down), 0.0),
        Form::Backward => (mirrored(fallen(half, down)), 0.0),
        Form::ForwardBackward => (turned(half, down), 0.3),
        Form::BackwardForward => (mirrored(turned(half, down)), -0.3),
        Form::LeaderShows => (upright(half, down * 0.66), 0.0),
        Form::StrandShows => (upright(half * 0.7, down), 0.0),
        Form::Wished => (vec![(0.0, -down), (ACROSS * 0.9, 0.0), (0.0, down), (-ACROSS * 0.9, 0.0)], 0.0),
    };
    shape(&corners, [ACROSS * seat, 0.0])
}

/// A strand as it hangs: the end of a ribbon whose point is where its line begins.
pub fn hanging_end() -> ChartShape {
    let (half, top, waist, tip) = (HALF, -DOWN * 0.38, DOWN * 0.2, DOWN * 0.5);
    shape(&[(-half, top), (half, top), (half, waist), (0.0, tip), (-half, waist)], [0.0, -DOWN * 0.07])
}

/// The tag of a row's number. Its tip, which is its middle, shows to the right; `rightward` or not.
pub fn tag_shape(rightward: bool) -> ChartShape {
    let corners = vec![(0.0, 0.0), (-7.0, -8.5), (-33.0, -8.5), (-33.0, 8.5), (-7.0, 8.5)];
    let seat = [if rightward { -18.5 } else { 18.5 }, 0.0];
    shape(&if rightward { corners } else { mirrored(corners) }, seat)
}

fn shape(corners: &[(f64, f64)], seat: [f64; 2]) -> ChartShape {
    let mut points = corners.iter().map(|(x, y)| Point::new(*x, *y));
    let mut path = Path::at(points.next().unwrap_or_default());
    points.for_each(|point| path.line(point));
    ChartShape { outline: format!("{}Z", path.svg()), seat }
}

fn mirrored(corners: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    corners.into_iter().map(|(x, y)| (-x, y)).collect()
}

fn fallen(half: f64, down: f64) -> Vec<(f64, f64)> {
    vec![(-half - HALF, -down), (-half + HALF, -down), (half + HALF, down), (half - HALF, down)]
}

fn turned(half: f64, down: f64) -> Vec<(f64, f64)> {
    let (tip, notch) = (half + HALF * 0.75, -half * 0.25);
    vec![
        (-half - HALF, -down),
        (-half + HALF, -down),
        (tip, 0.0),
        (-half + HALF, down),
        (-half - HALF, down),
        (notch, 0.0),
    ]
}

fn upright(half: f64, down: f64) -> Vec<(f64, f64)> {
    vec![(-half, -down), (half, -down), (half, down), (-half, down)]
}
