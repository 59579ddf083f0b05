//! The beginning and the end of a band as they are made: plaits, cords, wraps, knots, parts, loops and tassels.
//!
//! An end is laid out by itself, downward from the edge of the band: `x` counts from the middle of the band, `y` from its
//! edge. The beginning is the same, turned upside down. What it comes to is lines in the order in which they are drawn, so
//! that what lies over something else comes after it.

mod braid;
mod eye;
mod lanes;
mod said;
mod tips;
mod wound;

pub use said::{EndNames, say_works};
pub(crate) use tips::{HangingFree, without_tassel};

use crate::dye::EndedStrand;
use crate::frame::{PictureFrame, in_reach};
use crate::path::Point;
use crate::scene::EndCord;
use crate::threaded::ThreadedBead;
use crate::{Band, StrandStart};
use knotwright_band::ends::{EndWork, has_tassel, share_out, without_closure};
use knotwright_band::thread::{EndStrands, Figures};
use knotwright_numbers::ToNumber;
use lanes::Lane;

/// An end that is laid out.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct MadeEnd {
    /// Its lines.
    pub(crate) cords: Vec<EndCord>,
    /// Its beads.
    pub(crate) beads: Vec<ThreadedBead>,
    /// How far it reaches from the edge of the band.
    pub(crate) height: f64,
    /// How far it reaches to either side of the middle of the band.
    pub(crate) half: f64,
}

/// What is made before the first knot, if the pattern says it.
pub(crate) fn lay_begin(band: &Band<'_>, frame: &PictureFrame) -> Option<MadeEnd> {
    // From the band to the tip, as the end is.
    let works: Vec<EndWork> = band.made.begin.as_ref()?.iter().rev().map(turned).collect();
    let order: Vec<u8> = (0..frame.strands).map(|strand| strand.to_u8()).collect();
    let pairs = match &band.start {
        StrandStart::Loose => &[][..],
        StrandStart::Folded(pairs) | StrandStart::Loop(pairs) => pairs,
    };
    let used = band.taken.map_or(0.0, |taken| taken.before);
    let begun: Vec<EndedStrand> =
        order.iter().map(|strand| EndedStrand { used, ..EndedStrand::begun(band, *strand) }).collect();
    let order = laid_order(band, &order);
    let mut end = EndLaying::new(band, frame, &order, &begun);
    (end.pairs, end.outward) = (pairs.to_vec(), -1.0);
    Some(end.laid(&works, &[]).seen(band))
}

/// What is made after the last knot. `order`: by position, which strand hangs there; `ended`: by strand, what it is
/// there.
pub(crate) fn lay_finish(
    band: &Band<'_>,
    frame: &PictureFrame,
    order: &[u8],
    ended: &[EndedStrand],
) -> Option<MadeEnd> {
    let works = band.made.finish.as_ref()?;
    let made = without_closure(works);
    let order = laid_order(band, order);
    Some(EndLaying::new(band, frame, &order, ended).laid(made, &works[made.len()..]).seen(band))
}

/// By position, which strand hangs there while an end is laid out: it is laid out as it is made, and then seen as the band
/// is.
fn laid_order(band: &Band<'_>, order: &[u8]) -> Vec<u8> {
    let mut order = order.to_vec();
    if band.made.is_image {
        order.reverse();
    }
    order
}

/// A piece with its own pieces from the band outward.
fn turned(work: &EndWork) -> EndWork {
    match work {
        EndWork::Split { parts, works } => {
            EndWork::Split { parts: *parts, works: works.iter().rev().map(turned).collect() }
        }
        other => other.clone(),
    }
}

impl MadeEnd {
    fn seen(mut self, band: &Band<'_>) -> Self {
        if band.made.is_image {
            let flipped = |point: Point| Point::new(-point.x, point.y);
            self.cords.iter_mut().for_each(|cord| cord.path = cord.path.mapped(flipped));
            self.beads.iter_mut().for_each(|bead| bead.middle = flipped(bead.middle));
        }
        self
    }

    /// The lines where they belong in the picture; `at`: the middle of the band's edge.
    pub(crate) fn placed(&self, at: Point, is_upside_down: bool) -> impl Iterator<Item = EndCord> + '_ {
        let way = if is_upside_down { -1.0 } else { 1.0 };
        self.cords.iter().map(move |cord| EndCord {
            thread: cord.thread,
            is_turn: cord.is_turn,
            path: cord
                .path
                .mapped(|point| Point::new(rounded(at.x + point.x), rounded(at.y + way * point.y))),
        })
    }
}

/// An end while it is laid out.
struct EndLaying<'a> {
    thickness: f64,
    /// What a tenth of a millimeter is in the picture.
    scale: f64,
    /// No piece is longer in the picture, in tenths of a millimeter.
    longest: f64,
    lanes: Vec<Lane<'a>>,
    /// Strands that are one thread, folded at the tip.
    pairs: Vec<(u8, u8)>,
    /// What works take of a thread, if a thread changes color.
    figures: Option<Figures>,
    /// 1 where the thread goes on outward, -1 where it comes from there.
    outward: f64,
    /// What the work in hand takes of each strand.
    taking: f64,
    shapes: Vec<EndCord>,
    beads: Vec<ThreadedBead>,
}

impl<'a> EndLaying<'a> {
    fn new(band: &'a Band<'_>, frame: &PictureFrame, order: &[u8], ended: &[EndedStrand]) -> Self {
        let half = (frame.strands.to_f64() - 1.0) / 2.0;
        let lane = |(position, strand): (usize, &u8)| {
            let at = Point::new((position.to_f64() - half) * frame.cell.x, 0.0);
            let ended = ended.get(usize::from(*strand)).copied();
            let ended = ended.unwrap_or_else(|| EndedStrand::begun(band, *strand));
            Lane::new(*strand, ended.dyed(band), ended.used, at)
        };
        let lanes = order.iter().enumerate().map(lane).collect();
        let thickness = frame.thickness();
        let scale = thickness / in_reach(band.gauge.thickness);
        let changes = band.threads.iter().any(|thread| !thread.shades.is_empty());
        let figures = band.taken.filter(|_| changes).map(|taken| taken.figures);
        let (pairs, shapes, beads) = (Vec::new(), Vec::new(), Vec::new());
        let longest = frame.longest;
        Self { thickness, scale, longest, lanes, pairs, figures, outward: 1.0, taking: 0.0, shapes, beads }
    }

    fn laid(mut self, works: &[EndWork], closures: &[EndWork]) -> MadeEnd {
        let all = 0..self.lanes.len();
        // What closes the band goes around what hangs free, above its tips.
        let (made, hanging) = match closures {
            [] => (works.to_vec(), None),
            _ => without_tassel(works),
        };
        self.works(&made, all.clone());
        if !closures.is_empty() {
            self.hang(all.clone(), self.thickness * 3.0, 1.0);
            closures.iter().for_each(|work| self.close(work));
        }
        if let Some(HangingFree { length, .. }) = hanging {
            self.work(&EndWork::Tassel { length }, all.clone());
        }
        let has_loop = works.iter().any(|work| matches!(work, EndWork::Loop { .. }));
        if !self.pairs.is_empty() && !has_loop {
            self.fold(all.clone(), 0.0);
        } else if self.pairs.is_empty() && !has_tassel(works) {
            self.hang(all.clone(), self.thickness * 2.5, 1.0);
        }
        self.flush(all);
        self.done()
    }

    fn done(self) -> MadeEnd {
        let points = || self.shapes.iter().flat_map(|cord| cord.path.corners());
        let edge = self.thickness;
        let widest = self.beads.iter().map(|bead| bead.middle.x.abs() + bead.radius).fold(0.0, f64::max);
        MadeEnd {
            height: points().map(|point| point.y).fold(0.0, f64::max) + edge,
            half: points().map(|point| point.x.abs()).fold(widest, f64::max) + edge,
            beads: self.beads,
            cords: self.shapes,
        }
    }

    /// Makes pieces of some strands that hang side by side.
    fn works(&mut self, works: &[EndWork], of: std::ops::Range<usize>) {
        for work in works {
            self.work(work, of.clone());
        }
    }

    fn work(&mut self, work: &EndWork, of: std::ops::Range<usize>) {
        self.begin_work(work, &of);
        let (scale, longest) = (self.scale, self.longest);
        let drawn = |length: f64| drawn_length(length, longest) * scale;
        match *work {
            EndWork::Knot => self.knot(of.clone()),
            EndWork::Plait { bundles, length } => self.plait(of.clone(), usize::from(bundles), drawn(length)),
            EndWork::Twist { length } => self.twist(of.clone(), drawn(length)),
            EndWork::Wrap { thread, turns } => self.wrap(of.clone(), thread, turns),
            EndWork::Split { parts, ref works } => self.split(of.clone(), usize::from(parts), works),
            EndWork::Loop { length } if !self.pairs.is_empty() => self.fold(of.clone(), drawn(length)),
            EndWork::Loop { length } => self.lay_back(of.clone(), drawn(length)),
            EndWork::Tassel { length } => self.hang(of.clone(), drawn(length), 1.5),
            EndWork::Bead { bead, length } => self.thread(of.clone(), bead, self.bead_size(length)),
            EndWork::ClosingKnot | EndWork::Slide { .. } => {}
        }
        if !matches!(work, EndWork::Split { .. }) {
            self.end_work(&of);
        }
    }

    /// Gives strands the color that they have in the middle of a work. That of a split is made part by part.
    fn begin_work(&mut self, work: &EndWork, of: &std::ops::Range<usize>) {
        let strands = EndStrands { strands: of.len(), is_folded: !self.pairs.is_empty() };
        let takes = |figures: Figures| figures.work_thread(work, strands).of_each;
        self.taking = match work {
            EndWork::Split { .. } => return,
            _ => self.figures.map_or(0.0, takes),
        };
        let ahead = self.outward * self.taking / 2.0;
        for lane in &mut self.lanes[of.clone()] {
            self.shapes.extend(lane.dye(ahead));
        }
    }

    fn end_work(&mut self, of: &std::ops::Range<usize>) {
        let taken = self.outward * std::mem::take(&mut self.taking);
        self.lanes[of.clone()].iter_mut().for_each(|lane| lane.used += taken);
    }

    /// Beads are as large as they are.
    fn bead_size(&self, millimeters: f64) -> f64 {
        in_reach(millimeters) * self.scale
    }

    /// A bead on all the strands.
    fn thread(&mut self, of: std::ops::Range<usize>, bead: u16, size: f64) {
        let (axis, _) = self.middle(&of);
        self.gather(of.clone(), axis);
        let (_, top) = self.middle(&of);
        self.go_down(of, size);
        let middle = Point::new(axis, top + size / 2.0);
        self.beads.push(ThreadedBead { middle, radius: size / 2.0, bead, part: u32::MAX, step: 0, after: 0 });
    }

    /// Parts side by side, each made alike.
    fn split(&mut self, of: std::ops::Range<usize>, parts: usize, works: &[EndWork]) {
        let (axis, _) = self.middle(&of);
        let shares: Vec<usize> = share_out(of.len(), parts).filter(|share| *share > 0).collect();
        let widest = shares.iter().map(|share| self.width(*share)).fold(0.0, f64::max);
        let bead = |work: &EndWork| {
            if let EndWork::Bead { length, .. } = work { self.bead_size(*length) } else { 0.0 }
        };
        let beads = works.iter().map(bead).fold(0.0, f64::max);
        let apart = (widest * 2.3 + self.thickness * 1.2).max(beads + self.thickness);
        let mut start = of.start;
        for (number, share) in shares.iter().enumerate() {
            let part = start..start + share;
            let place = axis + (number.to_f64() - (shares.len().to_f64() - 1.0) / 2.0) * apart;
            self.gather(part.clone(), place);
            self.works(works, part);
            start += share;
        }
        // They go on from one height.
        let lowest = self.lanes[of.clone()].iter().map(|lane| lane.at().y).fold(0.0, f64::max);
        self.lanes[of].iter_mut().for_each(|lane| lane.straight_to(lowest));
    }

    /// What hangs free; `spread`: how much wider it is at its tip.
    fn hang(&mut self, of: std::ops::Range<usize>, length: f64, spread: f64) {
        let (axis, _) = self.middle(&of);
        let thickness = self.thickness;
        for (number, lane) in self.lanes[of].iter_mut().enumerate() {
            let from = lane.at();
            let sway = unlike(number) * thickness * 0.5 * (spread - 1.0) * 2.0;
            let to = Point::new(axis + (from.x - axis) * spread + sway, from.y + length);
            lane.path.curve(Point::new(0.0, length * 0.45), Point::new(0.0, length * 0.3), to);
        }
    }

    /// Draws what is laid of some strands, so that what comes next lies over it.
    fn flush(&mut self, of: std::ops::Range<usize>) {
        for lane in &mut self.lanes[of] {
            self.shapes.extend(lane.take());
        }
    }

    /// The middle of some strands, and how far down they are.
    fn middle(&self, of: &std::ops::Range<usize>) -> (f64, f64) {
        let lanes = &self.lanes[of.clone()];
        let sum: f64 = lanes.iter().map(|lane| lane.at().x).sum();
        let lowest = lanes.iter().map(|lane| lane.at().y).fold(0.0, f64::max);
        (sum / lanes.len().max(1).to_f64(), lowest)
    }
}

/// How long something is drawn, in tenths of a millimeter.
fn drawn_length(millimeters: f64, longest: f64) -> f64 {
    let tenths = if millimeters.is_finite() { millimeters * 10.0 } else { longest };
    tenths.clamp(1.0, longest)
}

/// To a hundredth of a millimeter: there are many lines, and nobody sees less.
fn rounded(tenths: f64) -> f64 {
    (tenths * 10.0).round() / 10.0
}

/// A number from -1 to 1 that looks like chance and is the same every time.
fn unlike(number: usize) -> f64 {
    let mixed = (number * 37 + 11) * 7919 % 1009;
    mixed.to_f64() / 504.0 - 1.0
}
