//! What is written down while tying: steps, runs, events, and which step last moved a strand.

use super::mark::Amount;
use crate::{Event, JoinedStrand, Place, Step};
use knotwright_band::{Kind, Knot, Tying};
use knotwright_numbers::ToNumber;

/// The most events that are kept; nobody reads more aloud.
pub(super) const MOST_EVENTS: usize = 500_000;

/// The most bytes that are kept of steps, their runs, and what is read aloud, of one part. A step that ties one knot takes
/// ten times as many as the knot, and a note in a loop as many as it has letters, each time.
pub(crate) const MOST_BYTES: u64 = 96 << 20;

/// What a step and a run of it take, rounded: the same on every machine.
const STEP: u64 = 40;
const RUN: u64 = 8;
const EVENT: u64 = 32;
const JOIN: u64 = 40;

/// The steps of a part so far.
#[derive(Debug, Default)]
pub(super) struct Log {
    pub(super) steps: Vec<Step>,
    pub(super) runs: Vec<(Kind, u32)>,
    pub(super) events: Vec<Event>,
    pub(super) joins: Vec<JoinedStrand>,
    /// How many bytes all of that takes.
    pub(super) bytes: u64,
}

/// For how many steps room is made at once: few parts have fewer.
const USUAL: usize = 32;

impl Log {
    /// With room for the steps of a small part.
    pub(super) fn with_room() -> Self {
        let (steps, runs) = (Vec::with_capacity(USUAL), Vec::with_capacity(USUAL));
        Self { steps, runs, events: Vec::with_capacity(2 * USUAL), ..Self::default() }
    }

    pub(super) fn event(&mut self, event: Event) {
        if self.events.len() < MOST_EVENTS {
            self.bytes += EVENT + letters(&event);
            self.events.push(event);
        }
    }

    pub(super) fn joined(&mut self, join: JoinedStrand) {
        self.bytes += JOIN;
        self.joins.push(join);
    }

    /// How many of the bytes are those of steps and runs.
    pub(super) fn step_bytes(&self) -> u64 {
        self.steps.len().to_u64() * STEP + self.runs.len().to_u64() * RUN
    }

    /// How much there is, with what was `tied`.
    pub(super) fn amount(&self, tied: &Tying) -> Amount {
        Amount {
            knots: tied.knots().len().to_u32(),
            steps: self.steps.len().to_u32(),
            runs: self.runs.len().to_u32(),
            events: self.events.len().to_u32(),
        }
    }

    /// Begins a step; its knots and runs are those that follow.
    pub(super) fn begin(&mut self, mut step: Step, knots: usize) {
        step.knots = knots.to_u32()..knots.to_u32();
        step.runs = self.runs.len().to_u32()..self.runs.len().to_u32();
        self.event(Event::Step(self.steps.len().to_u32()));
        self.bytes += STEP;
        self.steps.push(step);
    }

    /// Notes a run of the present step, and that there are `knots` now.
    pub(super) fn run(&mut self, kind: Kind, count: usize, knots: usize) {
        let Some(step) = self.steps.last_mut() else { return };
        if count > 0 {
            match self.runs.last_mut() {
                Some((last, sum)) if *last == kind && step.runs.start < step.runs.end => {
                    *sum += count.to_u32()
                }
                _ => {
                    self.runs.push((kind, count.to_u32()));
                    self.bytes += RUN;
                }
            }
        }
        step.knots.end = knots.to_u32();
        step.runs.end = self.runs.len().to_u32();
    }
}

/// How many bytes of text, or of an order, an event has.
fn letters(event: &Event) -> u64 {
    let length = match event {
        Event::Section(phrase) | Event::Note(phrase) => {
            phrase.text.len() + phrase.others.iter().map(|(tag, text)| tag.len() + text.len()).sum::<usize>()
        }
        Event::Order(order) => order.len(),
        Event::SectionEnd
        | Event::Step(_)
        | Event::Join(_)
        | Event::Repeat(_)
        | Event::Pass
        | Event::RepeatEnd => 0,
    };
    length.to_u64()
}

/// How many knots back is lately.
const LATELY: usize = 256;

/// Which statement last moved each strand; computed only when somebody asks.
#[derive(Debug, Default)]
pub(super) struct Moved {
    places: Vec<Option<Place>>,
    knot: usize,
    step: usize,
}

impl Moved {
    /// By strand, where it was last moved before this part.
    pub(super) fn new(places: Vec<Option<Place>>) -> Self {
        Self { places, knot: 0, step: 0 }
    }

    /// Where `strand` was last moved. Mostly that was lately; only if it was not, all knots are gone through, once for all
    /// strands.
    pub(super) fn last(&mut self, strand: u8, knots: &[Knot], steps: &[Step]) -> Option<Place> {
        let moves = |knot: &Knot| knot.kind.swaps() && [knot.working, knot.base].contains(&strand);
        let lately = knots.len().saturating_sub(LATELY).max(self.knot);
        if let Some(at) = knots[lately..].iter().rposition(moves) {
            let begun = steps.partition_point(|step| step.knots.start.to_usize() <= lately + at);
            return steps.get(begun.checked_sub(1)?).map(|step| step.place);
        }
        self.follow(knots, steps);
        self.places.get(usize::from(strand)).copied().flatten()
    }

    fn follow(&mut self, knots: &[Knot], steps: &[Step]) {
        for (at, knot) in knots.iter().enumerate().skip(self.knot) {
            while steps.get(self.step + 1).is_some_and(|next| next.knots.start.to_usize() <= at) {
                self.step += 1;
            }
            if knot.kind.swaps() {
                let place = steps.get(self.step).map(|step| step.place);
                self.places[usize::from(knot.working)] = place;
                self.places[usize::from(knot.base)] = place;
            }
        }
        self.knot = knots.len();
    }

    /// By position in `order`, where the strand there was last moved.
    pub(super) fn by_position(mut self, order: &[u8], knots: &[Knot], steps: &[Step]) -> Vec<Option<Place>> {
        self.follow(knots, steps);
        order.iter().map(|&strand| self.places[usize::from(strand)]).collect()
    }
}
