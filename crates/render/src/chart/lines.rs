//! The strands as thin lines.

use crate::path::{Path, Point};
use crate::placed::Placed;
use crate::xml::Xml;

use super::Chart;
use super::grid::{DOWN, Grid};

/// Draws every strand from the top to the bottom; by position, who hangs there in the end.
pub(super) fn draw(chart: &Chart<'_>, xml: &mut Xml) -> Vec<u8> {
    let grid = &chart.grid;
    let start = |position: usize| Path::at(Point::new(grid.column(position as f64), grid.top - 5.0));
    let mut lines: Vec<Path> = (0..grid.strands).map(start).collect();
    let mut order: Vec<u8> = (0..grid.strands).map(|position| position as u8).collect();
    for knot in chart.knots {
        for strand in [knot.working, knot.base] {
            follow(&mut lines[usize::from(strand)], knot, strand, grid);
        }
        if knot.kind.swaps() {
            order.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
        }
    }
    xml.put("<g fill=\"none\" stroke-linejoin=\"round\">\n");
    for (position, &strand) in order.iter().enumerate() {
        let line = &mut lines[usize::from(strand)];
        down(line, grid.column(position as f64), grid.bottom() + 5.0);
        stroke(chart, xml, line, strand);
    }
    xml.put("</g>\n");
    order
}

fn stroke(chart: &Chart<'_>, xml: &mut Xml, line: &Path, strand: u8) {
    let mut d = String::new();
    line.write(&mut d);
    if chart.options.color {
        let (color, _) = chart.paint(chart.thread(strand));
        xml.add(format_args!("<path d=\"{d}\" stroke=\"#333\" stroke-width=\"3.4\"/>"));
        xml.add(format_args!("<path d=\"{d}\" stroke=\"{color}\" stroke-width=\"2\"/>\n"));
    } else {
        xml.add(format_args!("<path d=\"{d}\" stroke=\"#000\" stroke-width=\"1.3\"/>\n"));
    }
}

/// Straight down to a height in its column. A line that left a straight row still hangs under its last knot, half a
/// position beside; it comes back to its column first.
fn down(line: &mut Path, x: f64, y: f64) {
    if (line.end().x - x).abs() > 1e-6 {
        line.line(Point::new(x, line.end().y + DOWN * 0.2));
    }
    line.line(Point::new(x, y));
}

/// On through a knot, from the upper edge of its row to the lower.
fn follow(line: &mut Path, knot: &Placed, strand: u8, grid: &Grid) {
    let works = strand == knot.working;
    let from_left = works == knot.kind.left_works();
    let (left, right) = (grid.column(f64::from(knot.gap)), grid.column(f64::from(knot.gap) + 1.0));
    let (near, beyond) = if from_left { (left, right) } else { (right, left) };
    let middle = grid.knot(knot);
    match knot.leader {
        Some(leader) if leader == strand => across(line, near, beyond, middle),
        Some(_) => hang(line, near, middle),
        None if knot.kind.swaps() => change(line, near, beyond, middle),
        None => turn(line, near, beyond, middle),
    }
}

/// A leader comes down where its row begins; from there it goes straight on.
fn across(line: &mut Path, near: f64, beyond: f64, middle: Point) {
    if line.end().y < middle.y {
        down(line, near, middle.y);
    }
    line.line(Point::new(beyond, middle.y));
}

/// A strand that a leader passes hangs under the knots of its rows.
fn hang(line: &mut Path, near: f64, middle: Point) {
    if (line.end().x - middle.x).abs() > 1e-6 {
        down(line, near, middle.y - DOWN * 0.5);
    }
    line.line(Point::new(middle.x, middle.y - DOWN * 0.3));
    line.line(Point::new(middle.x, middle.y + DOWN * 0.3));
}

fn change(line: &mut Path, near: f64, beyond: f64, middle: Point) {
    down(line, near, middle.y - DOWN / 2.0);
    line.line(Point::new(beyond, middle.y + DOWN / 2.0));
}

fn turn(line: &mut Path, near: f64, beyond: f64, middle: Point) {
    down(line, near, middle.y - DOWN / 2.0);
    line.line(middle.plus(Point::new(beyond - near, 0.0), 0.2));
    line.line(Point::new(near, middle.y + DOWN / 2.0));
}
