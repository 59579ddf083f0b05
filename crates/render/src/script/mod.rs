//! A band and the way to tie it: what instructions, sheets and pictures of whole bands are made from.

mod different;
mod materials;
mod mirror;
mod rows;

pub(crate) use different::Different;
pub use materials::{CutAtRepeat, CutPiece, JoinedPiece, Materials, OwnPiece, StatedBasis, StatedUnit};
pub use mirror::{CannotMirror, Mirror};
pub(crate) use rows::{RowEntry, TiedRow};

use crate::{Band, BandBead, BandPart, BandThread, KnotSize, StrandStart, ThreadTaken};
use knotwright_band::Piece;
use knotwright_band::beads::BeadAt;
use knotwright_band::ends::{BandEnds, EndWork};
use knotwright_band::orders::one_then;
use knotwright_color::Eyes;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// A band, knot by knot, in the steps its maker goes. Positions, strands and gaps count from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct TyingScript {
    /// The title.
    pub title: String,
    /// Its paragraphs.
    pub about: Vec<String>,
    /// Who made it.
    pub authors: Vec<String>,
    /// Under which license.
    pub license: Option<String>,
    /// The threads, each by the name that people see.
    pub threads: Vec<BandThread>,
    /// The beads, each by the name that people see.
    pub beads: Vec<BandBead>,
    /// By starting position, which thread hangs there.
    pub strands: Vec<u16>,
    /// How large a knot is.
    pub gauge: KnotSize,
    /// How the strands hang at the start.
    pub start: StrandStart,
    /// What is made of the strands at both ends.
    pub made: BandEnds,
    /// What knots and ends take of a thread, if that is known.
    pub taken: Option<ThreadTaken>,
    /// In which unit lengths are said.
    pub unit: StatedUnit,
    /// Tied once, at the start.
    pub opening: Option<Passage>,
    /// Sets that differ from those that come after and are tied once each, before the others.
    pub run_in: Vec<Passage>,
    /// The sets that are tied again and again, one after another. Empty if there is none.
    pub period: Vec<Passage>,
    /// How often a set is tied, those of the run-in included.
    pub times: u64,
    /// Tied once, at the end.
    pub closing: Option<Passage>,
    /// What to cut, if that was computed.
    pub materials: Option<Materials>,
}

/// An opening, a set or a closing.
#[derive(Debug, Clone, PartialEq)]
pub struct Passage {
    /// Its knots; strands are named by their position as it begins.
    pub piece: Piece,
    /// By step, its knots; ascending.
    pub ranges: Vec<Range<u32>>,
    /// By step, how it is described.
    pub steps: Vec<Step>,
    /// Steps, headings and remarks in the order they are read.
    pub events: Vec<Event>,
    /// If nothing ties it yet: by knot, the thread that is to be seen, or `None` for whatever thread. The knots of the
    /// piece then only say where it lies, and no strand changes its place.
    pub wish: Option<Vec<Option<u16>>>,
}

/// How a step is described.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// The positions that exist for it, both included.
    pub within: (u8, u8),
    /// Where the strand hangs when it is taken; of a bead, the leftmost strand.
    pub from: u8,
    /// How the strand is named.
    pub named: Named,
}

/// How the strand of a step is named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// By its place from the left.
    FromLeft,
    /// By its place from the right.
    FromRight,
    /// In some other way: by color, label, or as the one that hangs there now.
    Otherwise,
    /// Two middle strands of one color, no matter who works.
    Meet,
    /// A row of a chart.
    Row,
    /// A row of a leader.
    Leader,
    /// No strand is taken: a bead is threaded.
    Bead {
        /// Which.
        bead: u16,
        /// How many strands go through it, from `from` to the right.
        strands: u8,
    },
}

/// What is read, in order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Event {
    /// A heading; closed by [`Event::SectionEnd`].
    Section(String),
    /// The end of a section.
    SectionEnd,
    /// A remark.
    Note(String),
    /// The step of that index.
    Step(u32),
    /// A repeat of this many passes begins; ended by [`Event::RepeatEnd`].
    Repeat(u32),
    /// A pass of the repeat begins.
    Pass,
    /// The end of a repeat.
    RepeatEnd,
    /// Here the strands are looked over.
    Check,
    /// A strand goes on with a new piece of thread.
    Join(JoinedStrand),
}

/// A strand that goes on with a new piece of thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JoinedStrand {
    /// Where it hangs.
    pub at: u8,
    /// The thread that it goes on with, if that is another one.
    pub thread: Option<u16>,
    /// The only set in which that is done, from 0.
    pub set: Option<u64>,
}

impl TyingScript {
    /// The set of that number, counted from 0.
    pub fn set(&self, number: u64) -> Option<&Passage> {
        let after = match usize::try_from(number).ok().and_then(|number| self.run_in.get(number)) {
            Some(passage) => return Some(passage),
            None => number - self.run_in.len().to_u64(),
        };
        let period = self.period.len().to_u64();
        if period == 0 { None } else { self.period.get((after % period).to_usize()) }
    }

    /// The whole band as it is drawn.
    pub fn band(&self) -> Band<'_> {
        let sets = (0..self.times).map_while(|number| Some(self.set(number)?.part(number)));
        let opening = self.opening.iter().map(|passage| passage.part(0));
        let closing = self.closing.iter().map(|passage| passage.part(0));
        Band {
            title: self.title.clone(),
            threads: self.threads.clone(),
            beads: self.beads.clone(),
            strands: self.strands.clone(),
            gauge: self.gauge,
            start: self.start.clone(),
            made: self.made.clone(),
            taken: self.taken,
            parts: opening.chain(sets).chain(closing).collect(),
        }
    }

    /// The same in the colors that other eyes see.
    pub fn seen_by(mut self, eyes: Eyes) -> Self {
        self.threads = self.threads.into_iter().map(|thread| thread.seen_by(eyes)).collect();
        for bead in &mut self.beads {
            bead.color = eyes.see(bead.color);
        }
        self
    }

    /// How many knots the whole band has.
    pub fn knots(&self) -> u64 {
        self.sum(|passage| passage.piece.knots().len().to_u64())
    }

    /// By bead, how many of it the whole band has, its ends included.
    pub fn bead_counts(&self) -> Vec<u64> {
        let numbers = 0..self.beads.len().to_u16();
        let of = |number: u16| {
            let threaded =
                |passage: &Passage| passage.beads().filter(|bead| bead.bead == number).count().to_u64();
            let at_ends = self.made.begin.iter().chain(&self.made.finish).map(|works| at_end(works, number));
            self.sum(threaded).saturating_add(at_ends.sum())
        };
        numbers.map(of).collect()
    }

    /// The sum over all that is tied, one after another.
    fn sum(&self, count: impl Fn(&Passage) -> u64) -> u64 {
        let run_in = self.run_in.iter().take(usize::try_from(self.times).unwrap_or(usize::MAX));
        let once = self.opening.iter().chain(&self.closing).chain(run_in).map(&count).sum::<u64>();
        let rest = self.times.saturating_sub(self.run_in.len().to_u64());
        let period = self.period.len().to_u64().max(1);
        let all: u64 = self.period.iter().map(&count).sum();
        let some: u64 = self.period.iter().take((rest % period).to_usize()).map(&count).sum();
        (rest / period).saturating_mul(all).saturating_add(some + once)
    }

    /// Whether some of it is only to be seen, and nothing ties it yet.
    pub fn has_wish(&self) -> bool {
        self.passages().any(|passage| passage.wish.is_some())
    }

    /// By position, the thread of the strand there, when the strands hang in `order`.
    pub fn colors(&self, order: &[u8]) -> Vec<u16> {
        order
            .iter()
            .map(|strand| self.strands.get(usize::from(*strand)).copied().unwrap_or(u16::MAX))
            .collect()
    }

    /// The name of a thread.
    pub fn name(&self, thread: u16) -> &str {
        self.threads.get(usize::from(thread)).map_or("?", |thread| thread.name.as_str())
    }

    /// By position, the thread that hangs there as the first set begins.
    pub fn threads_after_opening(&self) -> Vec<u16> {
        self.opening
            .as_ref()
            .map_or_else(|| self.strands.clone(), |opening| opening.threads_after(&self.strands))
    }

    /// By position, which strand hangs there at the start.
    pub fn start_order(&self) -> Vec<u8> {
        (0..self.strands.len()).map(|strand| strand.to_u8()).collect()
    }
}

impl Passage {
    /// As it is drawn, as the set of that number, from 0.
    pub(crate) fn part(&self, set: u64) -> BandPart<'_> {
        let beads = self.beads().collect();
        BandPart { piece: &self.piece, steps: &self.ranges, wish: self.wish.as_deref(), beads, set }
    }

    /// The beads that are threaded in it, in order.
    pub fn beads(&self) -> impl Iterator<Item = BeadAt> + '_ {
        let of = |(number, (step, range)): (usize, (&Step, &Range<u32>))| match step.named {
            Named::Bead { bead, strands } => Some(BeadAt {
                bead,
                before: range.start,
                position: step.from,
                strands,
                step: number.to_u32(),
            }),
            _ => None,
        };
        self.steps.iter().zip(&self.ranges).enumerate().filter_map(of)
    }

    /// By position, which strand hangs there afterwards, if they hung in `order` before.
    pub fn order_after(&self, order: &[u8]) -> Vec<u8> {
        if order.len() == self.piece.strands() { one_then(order, self.piece.order()) } else { order.to_vec() }
    }

    /// By position, the thread that hangs there afterwards, if these hung there before.
    pub fn threads_after(&self, threads: &[u16]) -> Vec<u16> {
        if threads.len() == self.piece.strands() {
            self.piece.threads_after(threads)
        } else {
            threads.to_vec()
        }
    }

    /// The numbers of the knots of a step.
    pub(crate) fn knots_of(&self, step: usize) -> Range<u32> {
        let all = self.piece.knots().len().to_u32();
        self.ranges.get(step).map_or(0..0, |range| range.start.min(all)..range.end.min(all))
    }
}

/// How many of a bead an end has.
fn at_end(works: &[EndWork], number: u16) -> u64 {
    let of = |work: &EndWork| match work {
        EndWork::Bead { bead, .. } => u64::from(*bead == number),
        EndWork::Split { parts, works } => u64::from(*parts) * at_end(works, number),
        _ => 0,
    };
    works.iter().map(of).sum()
}
