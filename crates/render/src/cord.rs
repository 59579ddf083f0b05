//! The way of every strand through the band.
//!
//! A strand is one line from its beginning to its tip. It goes through each of its knots in the direction in which the
//! knot leads it, and hangs down the column of its position in between; short ways are one curve. All of it is drawn
//! first and the knots on top, so that a strand is seen wherever it is not tied and the picture needs no other order of
//! drawing. Knots alone would leave out the strands at the edges and below the band.

use crate::dye::Dyeing;
use crate::frame::PictureFrame;
use crate::path::{Path, Point};
use crate::placed::Placed;
use crate::scene::Cord;
use crate::{Band, ends};
use knotwright_numbers::ToNumber;

/// Every strand from its beginning to its tip, and before them what joins two of them above the band.
/// And, by position, which strand hangs there at the end.
pub(crate) fn place_cords(band: &Band<'_>, knots: &[Placed], frame: &PictureFrame) -> (Vec<Cord>, Vec<u8>) {
    let begun = Dyeing::of(band);
    let mut ways: Vec<Way> = (0..frame.strands)
        .map(|position| Way::begin(band, position, frame, begun.hanging(position.to_u8(), 0)))
        .collect();
    // What is not tied yet leads no strand.
    for knot in knots.iter().filter(|knot| knot.wished.is_none()) {
        ways[usize::from(knot.working)].through(knot, true, frame);
        ways[usize::from(knot.base)].through(knot, false, frame);
    }
    let mut order: Vec<u8> = (0..ways.len()).map(|strand| strand.to_u8()).collect();
    order.sort_by_key(|strand| ways[usize::from(*strand)].position);
    let done = ways.into_iter().flat_map(|way| way.finish(band, frame));
    let cords = ends::place_turns(band, frame).into_iter().chain(done).collect();
    (cords, order)
}

struct Way {
    /// What it has run in other colors before.
    done: Vec<Cord>,
    /// The number of its color, and its line as far as it has that.
    color: u16,
    path: Path,
    /// The direction in which it goes on from the end of the path.
    leave: Point,
    position: usize,
}

impl Way {
    fn begin(band: &Band<'_>, position: usize, frame: &PictureFrame, color: u16) -> Self {
        let path = ends::begin_strand(band, frame, position);
        Self { done: Vec::new(), color, path, leave: upright(frame), position }
    }

    /// Goes on in a color.
    fn dye(&mut self, color: u16) {
        if color != self.color {
            let next = Path::at(self.path.end());
            let path = std::mem::replace(&mut self.path, next);
            self.done.push(Cord { thread: std::mem::replace(&mut self.color, color), path });
        }
    }

    fn through(&mut self, knot: &Placed, works: bool, frame: &PictureFrame) {
        let from_left = works == knot.kind.left_works();
        let across = if from_left { frame.cell.x } else { -frame.cell.x };
        let middle = frame.knot(knot.row, knot.gap);
        let leads = knot.leader == Some(if works { knot.working } else { knot.base });
        let (at, direction) = match knot.leader {
            // Between its two hitches the strands have changed places: each is seen, or hidden, on the other side.
            _ if !knot.kind.swaps() => (middle.plus(Point::new(across, 0.0), 0.4), upright(frame)),
            None => (middle, Point::new(across, frame.cell.y)),
            Some(_) if leads => (middle, Point::new(across, 0.0)),
            Some(_) => (middle, upright(frame)),
        };
        self.go(at, direction, frame);
        self.dye(knot.colors[usize::from(!works)]);
        self.leave = direction;
        self.position = usize::from(knot.gap) + usize::from(from_left == knot.kind.swaps());
    }

    /// From where it is to a knot; down the column of its position if there is room.
    fn go(&mut self, to: Point, arrive: Point, frame: &PictureFrame) {
        let from = self.path.end();
        let way = to.plus(from, -1.0);
        if way.cross(self.leave).abs() < 1e-6 && way.cross(arrive).abs() < 1e-6 {
            self.path.line(to);
        } else if way.y < frame.cell.y * 1.5 {
            self.path.curve(self.leave.scaled(0.5), arrive.scaled(0.5), to);
        } else {
            self.join_column(frame);
            self.path.line(Point::new(frame.column(self.position.to_f64()), to.y - frame.cell.y));
            self.path.curve(upright(frame).scaled(0.5), arrive.scaled(0.45), to);
        }
    }

    /// One row on, it hangs straight in the column of its position.
    fn join_column(&mut self, frame: &PictureFrame) {
        let beside = Point::new(frame.column(self.position.to_f64()), self.path.end().y + frame.cell.y);
        self.path.curve(self.leave.scaled(0.45), upright(frame).scaled(0.5), beside);
    }

    fn finish(mut self, band: &Band<'_>, frame: &PictureFrame) -> Vec<Cord> {
        let to = Point::new(frame.column(self.position.to_f64()), frame.bottom());
        if (to.x - self.path.end().x).abs() > 1e-6 {
            self.join_column(frame);
        }
        self.path.line(to);
        if band.made.finish.is_none() {
            ends::free_below(frame, self.position, &mut self.path);
        }
        self.done.push(Cord { thread: self.color, path: self.path });
        self.done
    }
}

fn upright(frame: &PictureFrame) -> Point {
    Point::new(0.0, frame.cell.y)
}
