//! The strands of a block as thin lines.

use knotwright_numbers::ToNumber;
use std::ops::Range;

use crate::Cord;
use crate::path::{Path, Point};
use crate::placed::Placed;

use super::grid::{DOWN, Grid};

/// By position as it begins, every strand of a block that reaches from one line to another; one that goes on in another
/// color is several cords. `colors`: by position as it begins.
pub(super) fn trace_strands(
    grid: &Grid,
    knots: &[Placed],
    lines: Range<u32>,
    order: &[u8],
    colors: &[u16],
) -> Vec<Cord> {
    let (top, bottom) = (grid.line(lines.start) - DOWN / 2.0, grid.line(lines.end) - DOWN / 2.0);
    let mut hang: Vec<u8> = order.to_vec();
    let mut at = vec![0; usize::from(u8::MAX) + 1];
    let (mut now, mut done) = (Vec::with_capacity(hang.len()), Vec::new());
    for (position, strand) in order.iter().enumerate() {
        at[usize::from(*strand)] = position;
        let path = Path::at(Point::new(grid.column(position.to_f64()), top));
        now.push(Cord { thread: colors.get(position).copied().unwrap_or(u16::MAX), path });
    }
    for knot in knots.iter().filter(|knot| knot.wished.is_none()) {
        for (strand, color) in [knot.working, knot.base].into_iter().zip(knot.colors) {
            let cord: &mut Cord = &mut now[at[usize::from(strand)]];
            if cord.thread != color {
                // It has its old color down to the knot that shows the new one.
                let from_left = (strand == knot.working) == knot.kind.left_works();
                let x = grid.column(f64::from(knot.gap) + f64::from(u8::from(!from_left)));
                down(&mut cord.path, x, grid.knot(knot.row, knot.gap).y - DOWN / 2.0);
                let next = Cord { thread: color, path: Path::at(cord.path.end()) };
                done.push(std::mem::replace(cord, next));
            }
            follow(&mut cord.path, knot, strand, grid);
        }
        if knot.kind.swaps() {
            hang.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
        }
    }
    for (position, strand) in hang.iter().enumerate() {
        let cord = &mut now[at[usize::from(*strand)]];
        down(&mut cord.path, grid.column(position.to_f64()), bottom + DOWN * 0.12);
    }
    done.extend(now);
    done
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
    let middle = grid.knot(knot.row, knot.gap);
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
