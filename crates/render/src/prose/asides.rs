//! What is done between the knots, in words: a bead is threaded, a strand goes on with a new piece of thread.

use super::ProseOptions;
use super::act::describe_act;
use super::items::{Deed, JoinItem};
use super::tell::Teller;
use crate::{Event, JoinedStrand, Named, Passage, TyingScript};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// Something that is done between two knots.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Aside {
    /// Index of the part in which it is done: opening, sets and closing as they are tied one after another.
    pub part: u32,
    /// How many knots of that part are tied before it.
    pub after: u32,
    /// Which it is.
    pub kind: AsideKind,
    /// A sentence that says what to do.
    pub says: String,
    /// The positions of the strands that are taken for it, from 0.
    pub positions: Range<u8>,
    /// The thread that the strand goes on with, if that is another one.
    pub thread: Option<u16>,
}

/// Which thing between the knots it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AsideKind {
    /// A bead is threaded in the step of that index.
    Bead(u32),
    /// The join of that index, of those that are written in the passage.
    Join(u32),
}

/// All that is done between the knots of a band, in the order of tying.
pub fn list_asides(script: &TyingScript) -> Vec<Aside> {
    let teller = ProseOptions::default().teller(script);
    let sets = (0..script.times).map_while(|number| Some((script.set(number)?, Some(number))));
    let once = |passage| (passage, None);
    let all = script.opening.iter().map(once).chain(sets).chain(script.closing.iter().map(once));
    let mut threads = script.strands.clone();
    let mut asides = Vec::new();
    for (part, (passage, set)) in all.enumerate() {
        let mut reading = AsideReading { teller: &teller, passage, set, threads, tied: 0, joined: 0 };
        for mut aside in reading.asides() {
            aside.part = part.to_u32();
            asides.push(aside);
        }
        threads = reading.threads_after();
    }
    asides
}

struct AsideReading<'a> {
    teller: &'a Teller<'a>,
    passage: &'a Passage,
    /// Of sets, which, from 0.
    set: Option<u64>,
    /// By strand of the passage, its thread now.
    threads: Vec<u16>,
    /// How many knots are tied.
    tied: u32,
    /// How many joins were passed.
    joined: u32,
}

impl AsideReading<'_> {
    fn asides(&mut self) -> Vec<Aside> {
        let events = self.passage.events.iter();
        let mut found = Vec::new();
        for event in events {
            match event {
                Event::Step(step) => found.extend(self.step(*step)),
                Event::Join(join) => found.extend(self.join(join)),
                Event::Section(_)
                | Event::SectionEnd
                | Event::Note(_)
                | Event::Repeat(_)
                | Event::Pass
                | Event::RepeatEnd
                | Event::Check => {}
            }
        }
        found
    }

    fn step(&mut self, step: u32) -> Option<Aside> {
        let index = step.to_usize();
        let range = self.passage.ranges.get(index)?;
        self.tied = self.tied.max(range.end);
        let written = self.passage.steps.get(index)?;
        let Named::Bead { strands, .. } = written.named else { return None };
        let after = range.start;
        let thread = self.thread_at(after, written.from);
        let (act, _) = describe_act(self.passage, index, self.teller.counting, |_| thread)?;
        let says = self.teller.deed(&Deed { act, threads: vec![thread], times: 1 });
        let positions = written.from..written.from.saturating_add(strands);
        Some(Aside { part: 0, after, kind: AsideKind::Bead(step), says, positions, thread: None })
    }

    fn join(&mut self, join: &JoinedStrand) -> Option<Aside> {
        let number = self.joined;
        self.joined += 1;
        if join.set.is_some() && join.set != self.set {
            return None;
        }
        let strand = usize::from(self.strand_at(self.tied, join.at));
        let before = *self.threads.get(strand)?;
        self.threads[strand] = join.thread.unwrap_or(before);
        let counting = self.teller.counting;
        // Which set it is, the picture shows.
        let item = JoinItem { set: None, ..JoinItem::of(join, self.threads.len(), before, counting) };
        Some(Aside {
            part: 0,
            after: self.tied,
            kind: AsideKind::Join(number),
            says: self.teller.join(&item),
            positions: join.at..join.at + 1,
            thread: join.thread,
        })
    }

    /// The strand that hangs at a position after that many knots.
    fn strand_at(&self, tied: u32, position: u8) -> u8 {
        let knots = self.passage.piece.knots();
        let before = if self.passage.wish.is_some() { 0 } else { tied.to_usize().min(knots.len()) };
        knots[..before].iter().rev().filter(|knot| knot.kind.swaps()).fold(position, |at, knot| match at {
            at if at == knot.gap => at + 1,
            at if at == knot.gap + 1 => at - 1,
            at => at,
        })
    }

    fn thread_at(&self, tied: u32, position: u8) -> u16 {
        self.threads.get(usize::from(self.strand_at(tied, position))).copied().unwrap_or(u16::MAX)
    }

    /// By position, the threads as they hang after the passage.
    fn threads_after(self) -> Vec<u16> {
        if self.passage.wish.is_some() {
            return self.threads;
        }
        let thread = |strand: &u8| self.threads.get(usize::from(*strand)).copied().unwrap_or(u16::MAX);
        self.passage.piece.order().iter().map(thread).collect()
    }
}
