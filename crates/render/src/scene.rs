//! The picture before it is written: lines and beads in their places.
//!
//! Rows and gaps are a grid ([`PictureFrame`]): knots go into its cells ([`place_knots`]), then each strand is led through its
//! knots ([`cord`]), and last what is above and below the band is added ([`ends`]). All is in tenths of a millimeter, so a
//! picture has the true proportions of the gauge, and SVG and PNG are written from the same numbers.

use knotwright_band::Kind;
use knotwright_color::Rgb;

use crate::bead::Form;
use crate::frame::PictureFrame;
use crate::joined::place_joins;
use crate::path::{Path, Point};
use crate::placed::{Placed, place_dyed};
use crate::threaded::{ThreadedBead, place_threaded};
use crate::{Band, cord, ends, list_colors};

/// A band as shapes. Lengths are tenths of a millimeter, from the upper left corner.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scene {
    /// What the picture is called.
    pub title: String,
    /// Its width and height.
    pub size: Point,
    /// The colors of the threads, and after them the further ones of those that change color: [`list_colors`].
    pub colors: Vec<Rgb>,
    /// From one position to the next, and from one row to the next.
    pub cell: Point,
    /// The thickness of a strand.
    pub thickness: f64,
    /// The strands where they run down the band, drawn first.
    pub cords: Vec<Cord>,
    /// What is made before the first knot and after the last, in the order in which it is drawn; the strands come first.
    pub ends: [Vec<EndCord>; 2],
    /// The line one row above the first row.
    pub top: f64,
    /// What holds a loop together, if there is one.
    pub neck: Option<Neck>,
    /// How far strands fade in and out; 0 where they do not.
    pub fade: Fade,
    /// The knots, in the order of tying.
    pub beads: Vec<Bead>,
    /// The beads on the strands, in the order of threading; those of the ends come last.
    pub threaded: Vec<ThreadedBead>,
    /// The colors of the beads.
    pub bead_colors: Vec<Rgb>,
    /// The middles of the signs that say where strands go on with a new piece of thread.
    pub joins: Vec<Point>,
    /// How many rows there are.
    pub rows: u32,
}

/// How far something is faded at the ends of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fade {
    /// Down from the top.
    pub above: f64,
    /// Up from the bottom.
    pub below: f64,
}

impl Fade {
    pub(crate) fn scaled(self, by: f64) -> Self {
        Self { above: self.above * by, below: self.below * by }
    }
}

/// A strand on its way, as far as it has one color.
#[derive(Debug, Clone, PartialEq)]
pub struct Cord {
    /// The number of its color: that of its thread, or of a further color of it.
    pub thread: u16,
    /// Its middle line.
    pub path: Path,
}

/// A stretch of a strand, or of a thread that goes around strands, at an end of the band.
#[derive(Debug, Clone, PartialEq)]
pub struct EndCord {
    /// The number of its color: that of its thread, or of a further color of it.
    pub thread: u16,
    /// Its middle line.
    pub path: Path,
    /// Whether it goes around others: what is seen of it is round at both ends.
    pub is_turn: bool,
}

/// A thread wound around all the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Neck {
    /// Its middle.
    pub middle: Point,
    /// Half its width and height.
    pub half: Point,
    /// Its thread.
    pub thread: u16,
}

/// A knot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bead {
    /// Its middle.
    pub middle: Point,
    /// What it looks like.
    pub form: Form,
    /// The number of the color that is seen: that of its thread, or of a further color of it.
    pub thread: u16,
    /// Its row, from 0.
    pub row: u32,
    /// Its gap, from 0.
    pub gap: u8,
    /// Index of the part it is tied in.
    pub part: u32,
    /// Index of the step in that part.
    pub step: u32,
}

impl Scene {
    /// Lays out a band.
    pub fn of(band: &Band<'_>) -> Self {
        let (knots, dyeing) = place_dyed(band);
        let frame = PictureFrame::of(band, &knots);
        let (cords, order) = cord::place_cords(band, &knots, &frame);
        let mut threaded = place_threaded(band, &knots, &frame);
        threaded.extend(ends::place_end_beads(band, &frame, &order));
        Self {
            title: band.title.clone(),
            size: frame.size(),
            colors: list_colors(&band.threads).into_iter().map(|(_, color)| color).collect(),
            cell: frame.cell,
            thickness: frame.thickness(),
            cords,
            ends: ends::place_made(band, &frame, &order, &dyeing.ended(frame.rows)),
            top: frame.corner.y,
            neck: ends::place_neck(band, &frame),
            fade: Fade { above: ends::fade_depth(band, &frame), below: ends::fade_below(band, &frame) },
            beads: knots.iter().map(|knot| bead(&frame, knot)).collect(),
            threaded,
            bead_colors: band.beads.iter().map(|bead| bead.color).collect(),
            joins: place_joins(band, &knots).iter().map(|join| join.sign(&frame)).collect(),
            rows: frame.rows,
        }
    }

    /// The color of that number; gray if there is none.
    pub fn color(&self, number: u16) -> Rgb {
        self.colors.get(usize::from(number)).copied().unwrap_or(Rgb::new(128, 128, 128))
    }
}

impl Scene {
    /// The color of a bead on a strand; gray if there is no such bead.
    pub fn bead_color(&self, bead: u16) -> Rgb {
        self.bead_colors.get(usize::from(bead)).copied().unwrap_or(Rgb::new(128, 128, 128))
    }
}

fn bead(frame: &PictureFrame, knot: &Placed) -> Bead {
    Bead {
        middle: frame.knot(knot.row, knot.gap),
        form: form_of(knot),
        thread: shown_color(knot),
        row: knot.row,
        gap: knot.gap,
        part: knot.part,
        step: knot.step,
    }
}

/// The thread of a strand.
pub(crate) fn thread_of(band: &Band<'_>, strand: u8) -> u16 {
    band.strands.get(usize::from(strand)).copied().unwrap_or(u16::MAX)
}

/// The number of the color that is seen, or is to be seen.
pub(crate) fn shown_color(knot: &Placed) -> u16 {
    knot.wished.unwrap_or(knot.colors[0])
}

pub(crate) fn form_of(knot: &Placed) -> Form {
    match (knot.leader, knot.kind) {
        _ if knot.wished.is_some() => Form::Wished,
        (Some(leader), _) if leader == knot.working => Form::LeaderShows,
        (Some(_), _) => Form::StrandShows,
        (None, Kind::Forward) => Form::Forward,
        (None, Kind::Backward) => Form::Backward,
        (None, Kind::ForwardBackward) => Form::ForwardBackward,
        (None, Kind::BackwardForward) => Form::BackwardForward,
    }
}
