//! The knots as ribbons.

use std::collections::BTreeSet;

use crate::bead::Form;
use crate::path::{Path, Point};
use crate::placed::Placed;
use crate::scene;
use crate::xml::Xml;

use super::Chart;
use super::grid::{ACROSS, DOWN};

/// Half the width of a ribbon.
const HALF: f64 = ACROSS * 0.4;

/// Defines the ribbons that are there and draws every knot.
pub(super) fn draw(chart: &Chart<'_>, xml: &mut Xml) {
    let there: BTreeSet<(Form, u16)> = chart.knots.iter().map(|knot| look(chart, knot)).collect();
    xml.put("<defs>\n");
    for &(form, thread) in &there {
        define(chart, xml, form, thread);
    }
    xml.put("</defs>\n<g>\n");
    for knot in chart.knots {
        let (form, thread) = look(chart, knot);
        xml.reference(&format!("{}{thread}", form.letter()), chart.grid.knot(knot), "");
    }
    xml.put("</g>\n");
}

/// The forms that are there, in the order of a legend.
pub(super) fn forms(chart: &Chart<'_>) -> BTreeSet<Form> {
    chart.knots.iter().map(scene::form).collect()
}

fn look(chart: &Chart<'_>, knot: &Placed) -> (Form, u16) {
    (scene::form(knot), chart.thread(knot.working))
}

fn define(chart: &Chart<'_>, xml: &mut Xml, form: Form, thread: u16) {
    let (fill, ink) = chart.paint(thread);
    let letter = chart.letters.get(usize::from(thread)).copied().unwrap_or('?');
    xml.begin("g", &format!("{}{thread}", form.letter()));
    xml.put(">");
    shape(xml, form, &format!(" fill=\"{fill}\""));
    let at = seat(form).plus(Point::new(0.0, 4.0), 1.0);
    xml.text(at, &letter.to_string(), &format!(" font-weight=\"bold\" fill=\"{ink}\""));
    xml.put("</g>\n");
}

/// The outline of a form's ribbon.
pub(super) fn shape(xml: &mut Xml, form: Form, paint: &str) {
    let corners = corners(form);
    let mut path = Path::at(corners[0]);
    corners[1..].iter().for_each(|&corner| path.line(corner));
    let mut d = String::new();
    path.write(&mut d);
    xml.add(format_args!(
        "<path d=\"{d}Z\" stroke=\"#000\" stroke-width=\"1.1\" stroke-linejoin=\"round\"{paint}/>"
    ));
}

/// Where a form's letter sits.
fn seat(form: Form) -> Point {
    match form {
        Form::ForwardBackward => Point::new(ACROSS * 0.3, 0.0),
        Form::BackwardForward => Point::new(-ACROSS * 0.3, 0.0),
        _ => Point::default(),
    }
}

fn corners(form: Form) -> Vec<Point> {
    let (half, down) = (ACROSS / 2.0, DOWN / 2.0);
    let right = |x: f64, y: f64| Point::new(x, y);
    let left = |x: f64, y: f64| Point::new(-x, y);
    match form {
        Form::Forward => fallen(half, down, right),
        Form::Backward => fallen(half, down, left),
        Form::ForwardBackward => turned(half, down, right),
        Form::BackwardForward => turned(half, down, left),
        Form::LeaderShows => upright(half, down * 0.66),
        Form::StrandShows => upright(half * 0.7, down),
    }
}

fn fallen(half: f64, down: f64, place: impl Fn(f64, f64) -> Point) -> Vec<Point> {
    let corners = [(-half - HALF, -down), (-half + HALF, -down), (half + HALF, down), (half - HALF, down)];
    corners.map(|(x, y)| place(x, y)).to_vec()
}

fn turned(half: f64, down: f64, place: impl Fn(f64, f64) -> Point) -> Vec<Point> {
    let (tip, notch) = (half + HALF * 0.75, -half * 0.25);
    let corners = [
        (-half - HALF, -down),
        (-half + HALF, -down),
        (tip, 0.0),
        (-half + HALF, down),
        (-half - HALF, down),
        (notch, 0.0),
    ];
    corners.map(|(x, y)| place(x, y)).to_vec()
}

fn upright(half: f64, down: f64) -> Vec<Point> {
    [(-half, -down), (half, -down), (half, down), (-half, down)].map(|(x, y)| Point::new(x, y)).to_vec()
}
