//! Every knot of a band in its place.
//!
//! The layout of every picture: the parts are laid one after another on the same rows (see [`Rows`]), so that a set begins
//! in the rows where the one before ends, as it does in thread. Strands of a part are named by where they hang as it
//! begins; here they get the names they have at the very start, which say their colors. Pictures, the chart and the
//! terminal all draw from this list, so that a knot lies in the same row in each.

use knotwright_numbers::ToNumber;
use std::ops::Range;

use knotwright_band::{Kind, Piece, Rows, ThreadWalk, orders};

use crate::dye::Dyeing;
use crate::joined::joins_in;
use crate::{Band, BandPart};

/// A knot in its place. Rows and gaps count from 0; strands are named by their starting position.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Placed {
    pub(crate) row: u32,
    pub(crate) gap: u8,
    pub(crate) kind: Kind,
    pub(crate) working: u8,
    pub(crate) base: u8,
    /// In a straight row: the strand that leads it.
    pub(crate) leader: Option<u8>,
    /// If nothing ties it yet: the thread that is to be seen; one that is not there stands for whatever thread.
    pub(crate) wished: Option<u16>,
    /// The numbers of the colors that the working strand and its base have there (see [`list_colors`](crate::list_colors)).
    pub(crate) colors: [u16; 2],
    /// Index of the part, and in it of the step.
    pub(crate) part: u32,
    pub(crate) step: u32,
}

/// The parts that have as many strands as the band.
pub(crate) fn fitting<'b, 'a>(band: &'b Band<'a>) -> impl Iterator<Item = &'b BandPart<'a>> {
    let strands = band.strands.len();
    let is_known = strands <= knotwright_band::MOST_STRANDS;
    band.parts.iter().filter(move |part| part.piece.strands() == strands && is_known)
}

/// The knots in the order of tying.
pub(crate) fn place_knots(band: &Band<'_>) -> Vec<Placed> {
    place_dyed(band).0
}

/// The knots in the order of tying, and the strands after the last of them.
pub(crate) fn place_dyed<'a>(band: &'a Band<'_>) -> (Vec<Placed>, Dyeing<'a>) {
    let mut dyeing = Dyeing::of(band);
    let strands = band.strands.len();
    let mut order: Vec<u8> = (0..strands).map(|position| position.to_u8()).collect();
    let mut rows = Rows::new(strands);
    let mut placed = Vec::new();
    for (index, part) in fitting(band).enumerate() {
        let knots = in_rows(part, index.to_u32(), &rows.lay(part.piece), &order);
        let mut joins = joins_in(part.piece, part.set).peekable();
        for (knot, number) in knots.into_iter().zip(0..) {
            while let Some(join) = joins.next_if(|join| join.knot <= number) {
                dyeing.join(order[usize::from(join.strand)], join.thread);
            }
            placed.push(knot.dyed(&mut dyeing));
        }
        joins.for_each(|join| dyeing.join(order[usize::from(join.strand)], join.thread));
        order = orders::one_then(&order, part.piece.order());
    }
    (placed, dyeing)
}

impl Placed {
    /// Tied with strands that may change color; what nothing ties yet uses nothing.
    fn dyed(self, dyeing: &mut Dyeing<'_>) -> Self {
        if self.wished.is_some() {
            return self;
        }
        Self { colors: dyeing.tie(self.row, self.working, self.base), ..self }
    }
}

/// The knots of a part in rows that are given, by knot, if its strands hang in `order`.
pub(crate) fn in_rows(part: &BandPart<'_>, index: u32, rows: &[u32], order: &[u8]) -> Vec<Placed> {
    let mut step = Steps { steps: part.steps, at: 0 };
    let knots = part.piece.knots().iter().zip(rows).enumerate();
    let placed = knots.map(|(number, (knot, &row))| Placed {
        row,
        gap: knot.gap,
        kind: knot.kind,
        working: order[usize::from(knot.working)],
        base: order[usize::from(knot.base)],
        leader: None,
        wished: part.wish.map(|wish| wish.get(number).copied().flatten().unwrap_or(u16::MAX)),
        colors: [u16::MAX; 2],
        part: index,
        step: step.of(number.to_u32()),
    });
    let mut placed: Vec<Placed> = placed.collect();
    for range in part.piece.straight() {
        placed.get_mut(range.start.to_usize()..range.end.to_usize()).into_iter().for_each(lead);
    }
    placed
}

/// The knots of a part with their threads; `threads`: by position as it begins.
pub(crate) fn colored<'a>(
    piece: &'a Piece,
    knots: Vec<Placed>,
    threads: &[u16],
) -> impl Iterator<Item = Placed> + 'a {
    let mut walk = ThreadWalk::new(piece, threads);
    knots.into_iter().zip(piece.knots()).zip(0..).map(move |((placed, knot), number)| {
        walk.go_to(number);
        Placed { colors: [walk.of(knot.working), walk.of(knot.base)], ..placed }
    })
}

/// Names the strand that all knots of a straight row share as its leader.
fn lead(row: &mut [Placed]) {
    let (Some(first), Some(last)) = (row.first(), row.last()) else { return };
    let shared = |strand: &u8| *strand == last.working || *strand == last.base;
    let leader = [first.working, first.base].into_iter().find(shared);
    row.iter_mut().for_each(|knot| knot.leader = leader);
}

/// Finds the step of one knot after another.
struct Steps<'a> {
    steps: &'a [Range<u32>],
    at: usize,
}

impl Steps<'_> {
    fn of(&mut self, knot: u32) -> u32 {
        while self.steps.get(self.at).is_some_and(|step| step.end <= knot) {
            self.at += 1;
        }
        self.at.to_u32()
    }
}
