//! What is written down while tying: steps, runs, events, and which step last moved a strand.

use super::mark::Amount;
use crate::{Event, Place, Step};
use knotwright_band::{Kind, Knot};

/// Beyond so many events none are kept; nobody reads them aloud.
pub(super) const MOST_EVENTS: usize = 500_000;

/// The steps of a part so far.
#[derive(Debug, Default)]
pub(super) struct Log {
    pub(super) steps: Vec<Step>,
    pub(super) runs: Vec<(Kind, u32)>,
    pub(super) straight: Vec<std::ops::Range<u32>>,
    pub(super) events: Vec<Event>,
}

impl Log {
    pub(super) fn event(&mut self, event: Event) {
        if self.events.len() < MOST_EVENTS {
            self.events.push(event);
        }
    }

    /// How much there is, with `knots`.
    pub(super) fn amount(&self, knots: usize) -> Amount {
        Amount {
            knots: knots as u32,
            steps: self.steps.len() as u32,
            runs: self.runs.len() as u32,
            straight: self.straight.len() as u32,
            events: self.events.len() as u32,
        }
    }

    /// Begins a step; its knots and runs are those that follow.
    pub(super) fn begin(&mut self, mut step: Step, knots: usize) {
        step.knots = knots as u32..knots as u32;
        step.runs = self.runs.len() as u32..self.runs.len() as u32;
        self.event(Event::Step(self.steps.len() as u32));
        self.steps.push(step);
    }

    /// Notes a run of the present step, and that there are `knots` now.
    pub(super) fn run(&mut self, kind: Kind, count: usize, knots: usize) {
        let Some(step) = self.steps.last_mut() else { return };
        if count > 0 {
            match self.runs.last_mut() {
                Some((last, sum)) if *last == kind && step.runs.start < step.runs.end => *sum += count as u32,
                _ => self.runs.push((kind, count as u32)),
            }
        }
        step.knots.end = knots as u32;
        step.runs.end = self.runs.len() as u32;
    }
}

/// Which statement last moved each strand; reckoned only when somebody asks.
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

    /// Where `strand` was last moved.
    pub(super) fn last(&mut self, strand: u8, knots: &[Knot], steps: &[Step]) -> Option<Place> {
        self.follow(knots, steps);
        self.places.get(usize::from(strand)).copied().flatten()
    }

    fn follow(&mut self, knots: &[Knot], steps: &[Step]) {
        for (at, knot) in knots.iter().enumerate().skip(self.knot) {
            while steps.get(self.step + 1).is_some_and(|next| next.knots.start as usize <= at) {
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
