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
        let mut reading = AsideReading::new(&teller, passage, threads);
        (reading.part, reading.set) = (part.to_u32(), set);
        asides.extend(reading.asides());
        threads = reading.threads_after();
    }
    asides
}

struct AsideReading<'a> {
    teller: &'a Teller<'a>,
    passage: &'a Passage,
    part: u32,
    /// Of sets, which, from 0.
    set: Option<u64>,
    /// By strand of the passage, its thread now.
    threads: Vec<u16>,
    /// By position, the strand that hangs there now.
    hang: Vec<u8>,
    /// How many knots are tied.
    tied: u32,
    /// How many joins were passed.
    joined: u32,
}

impl<'a> AsideReading<'a> {
    fn new(teller: &'a Teller<'a>, passage: &'a Passage, threads: Vec<u16>) -> Self {
        let hang = (0..threads.len()).map(|strand| strand.to_u8()).collect();
        Self { teller, passage, part: 0, set: None, threads, hang, tied: 0, joined: 0 }
    }

    fn asides(&mut self) -> Vec<Aside> {
        let mut found = Vec::new();
        for event in &self.passage.events {
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
        self.tie_up_to(range.end);
        let written = self.passage.steps.get(index)?;
        let Named::Bead { strands, .. } = written.named else { return None };
        let after = range.start;
        let thread = self.thread_at(written.from);
        let (act, _) = describe_act(self.passage, index, self.teller.counting, |_| thread)?;
        let says = self.teller.deed(&Deed { act, threads: vec![thread], times: 1 });
        let positions = written.from..written.from.saturating_add(strands);
        Some(Aside { part: self.part, after, kind: AsideKind::Bead(step), says, positions, thread: None })
    }

    fn join(&mut self, join: &JoinedStrand) -> Option<Aside> {
        let number = self.joined;
        self.joined += 1;
        if join.set.is_some() && join.set != self.set {
            return None;
        }
        let strand = usize::from(*self.hang.get(usize::from(join.at))?);
        let before = *self.threads.get(strand)?;
        self.threads[strand] = join.thread.unwrap_or(before);
        let counting = self.teller.counting;
        // Which set it is, the picture shows.
        let item = JoinItem { set: None, ..JoinItem::of(join, self.threads.len(), before, counting) };
        Some(Aside {
            part: self.part,
            after: self.tied,
            kind: AsideKind::Join(number),
            says: self.teller.join(&item),
            positions: join.at..join.at.saturating_add(1),
            thread: join.thread,
        })
    }

    /// Goes on to where that many knots are tied. What is only to be seen moves no strand.
    fn tie_up_to(&mut self, tied: u32) {
        let knots = self.passage.piece.knots().get(self.tied.to_usize()..tied.to_usize()).unwrap_or_default();
        self.tied = self.tied.max(tied);
        if self.passage.wish.is_some() {
            return;
        }
        for knot in knots.iter().filter(|knot| knot.kind.swaps()) {
            let gap = usize::from(knot.gap);
            if gap + 1 < self.hang.len() {
                self.hang.swap(gap, gap + 1);
            }
        }
    }

    fn thread_at(&self, position: u8) -> u16 {
        let strand = self.hang.get(usize::from(position));
        strand.and_then(|strand| self.threads.get(usize::from(*strand))).copied().unwrap_or(u16::MAX)
    }

    /// By position, the threads as they hang after the passage.
    fn threads_after(mut self) -> Vec<u16> {
        self.tie_up_to(self.passage.piece.knots().len().to_u32());
        (0..self.hang.len()).map(|position| self.thread_at(position.to_u8())).collect()
    }
}
