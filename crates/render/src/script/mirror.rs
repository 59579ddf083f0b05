//! The same script for hands that like to begin at the right.

use super::{Event, Named, Passage, Step, TyingScript};
use crate::StrandStart;
use knotwright_band::{Join, Piece};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// What is mirrored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mirror {
    /// The band: all that was left is right. Both hands do what the other hand does otherwise.
    Image,
    /// The way of tying; the picture stays. A leader hangs at the other edge and its letters can still be read; of steps
    /// that can be tied in any order the right ones come first.
    Picture,
}

/// Why a script is not mirrored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CannotMirror {
    /// A leader's rows may be letters, and nobody reads them in a mirror.
    Letters,
    /// A leader and other steps in one band: the leader cannot hang at the other edge without moving them.
    LeaderAndOthers,
}

/// The steps of one stretch are put in order only if they are not more than this.
const MOST_SORTED: usize = 2000;

impl TyingScript {
    /// Whether some of it is tied with a leader.
    pub fn has_leader(&self) -> bool {
        self.passages().any(|passage| passage.steps.iter().any(|step| step.named == Named::Leader))
    }

    /// The script for the other hand.
    ///
    /// # Errors
    /// [`CannotMirror`].
    pub fn mirrored(mut self, mirror: Mirror) -> Result<Self, CannotMirror> {
        let leads = self.has_leader();
        match mirror {
            Mirror::Image if leads => return Err(CannotMirror::Letters),
            Mirror::Image => self.turn_image(),
            Mirror::Picture if leads => self.turn_leader()?,
            Mirror::Picture => self.passages_mut().for_each(right_ones_first),
        }
        Ok(self)
    }

    /// All that is tied: the opening, every set that differs, the closing.
    pub(crate) fn passages(&self) -> impl Iterator<Item = &Passage> {
        self.opening.iter().chain(&self.run_in).chain(&self.period).chain(&self.closing)
    }

    fn passages_mut(&mut self) -> impl Iterator<Item = &mut Passage> {
        self.opening.iter_mut().chain(&mut self.run_in).chain(&mut self.period).chain(&mut self.closing)
    }

    fn turn_image(&mut self) {
        self.strands.reverse();
        self.made.is_image = !self.made.is_image;
        let last = self.strands.len().saturating_sub(1).to_u8();
        if let StrandStart::Folded(pairs) | StrandStart::Loop(pairs) = &mut self.start {
            pairs.iter_mut().for_each(|(one, other)| (*one, *other) = (last - *one, last - *other));
        }
        if let Some(materials) = &mut self.materials {
            materials.moved(|strand| last - strand);
        }
        for passage in self.passages_mut() {
            passage.piece = passage.piece.mirrored();
            passage.steps.iter_mut().for_each(|step| *step = step.mirrored(last));
            passage.events.iter_mut().for_each(|event| event.mirrored(last));
        }
    }

    /// Every row of the leader from its other end, and the leader at the other edge. The columns stay.
    fn turn_leader(&mut self) -> Result<(), CannotMirror> {
        let last = self.strands.len().saturating_sub(1);
        if last == 0 || !self.passages().all(only_leads) || !matches!(self.start, StrandStart::Loose) {
            return Err(CannotMirror::LeaderAndOthers);
        }
        let first = self.passages().find_map(|passage| passage.steps.first());
        let strands = self.strands.len();
        let by = match first.map(|step| usize::from(step.from)) {
            Some(0) => strands - 1,
            Some(from) if from == last => 1,
            _ => return Err(CannotMirror::LeaderAndOthers),
        };
        self.strands.rotate_right(by);
        if let Some(materials) = &mut self.materials {
            materials.moved(|strand| ((usize::from(strand) + by) % strands).to_u8());
        }
        for passage in self.passages_mut() {
            let joins = joins_from_the_other_end(passage);
            passage.piece =
                from_the_other_end(passage).ok_or(CannotMirror::LeaderAndOthers)?.with_joins(joins);
            passage.steps.iter_mut().for_each(|step| step.from = last.to_u8() - step.from);
        }
        Ok(())
    }
}

impl Event {
    fn mirrored(&mut self, last: u8) {
        if let Self::Join(join) = self {
            join.at = last - join.at;
        }
    }
}

impl Step {
    fn mirrored(self, last: u8) -> Self {
        let named = match self.named {
            Named::FromLeft => Named::FromRight,
            Named::FromRight => Named::FromLeft,
            named => named,
        };
        let (low, high) = self.within;
        // Of a bead, the leftmost strand is named: that was the rightmost one.
        let beside = if let Named::Bead { strands, .. } = named { strands.saturating_sub(1) } else { 0 };
        Self { within: (last - high, last - low), from: last.saturating_sub(self.from + beside), named }
    }
}

/// Whether all of it is rows of one leader that go from edge to edge.
fn only_leads(passage: &Passage) -> bool {
    let across = passage.piece.gaps();
    let whole = |range: &Range<u32>| range.len() == across;
    passage.wish.is_none()
        && passage.steps.iter().all(|step| step.named == Named::Leader)
        && passage.ranges.iter().all(whole)
        && passage.ranges == passage.piece.straight()
}

fn from_the_other_end(passage: &Passage) -> Option<Piece> {
    let knots = passage.piece.knots();
    let row =
        |range: &Range<u32>| knots.get(range.start.to_usize()..range.end.to_usize()).unwrap_or_default();
    let turned = passage.ranges.iter().flat_map(|range| row(range).iter().rev());
    let piece =
        Piece::tie(passage.piece.strands(), turned.map(|knot| (knot.gap, knot.kind.mirrored()))).ok()?;
    piece.with_straight(passage.ranges.clone()).ok()
}

/// The joins of a passage that only a leader ties, when it hangs at the other edge: all others hang one place further to
/// where it was. Where its events say that a strand is joined changes, too.
fn joins_from_the_other_end(passage: &mut Passage) -> Vec<Join> {
    let strands = passage.piece.strands();
    let moved = |at: u8, leader: u8| {
        let by = if leader == 0 { strands - 1 } else { 1 };
        ((usize::from(at) + by) % strands).to_u8()
    };
    let other = |edge: u8| strands.to_u8() - 1 - edge;
    let begins = passage.steps.first().map_or(0, |step| step.from);
    // Where the leader hangs after that many knots.
    let leader_at = |knot: u32| {
        let done = passage.ranges.iter().take_while(|range| range.end <= knot).count();
        if done.is_multiple_of(2) { begins } else { other(begins) }
    };
    let joins = passage.piece.joins();
    let leaders: Vec<u8> = joins.iter().map(|join| leader_at(join.knot)).collect();
    let moved_joins = joins.iter().map(|join| Join { strand: moved(join.strand, begins), ..*join }).collect();
    let events = passage.events.iter_mut().filter_map(|event| match event {
        Event::Join(join) => Some(join),
        _ => None,
    });
    for (join, leader) in events.zip(leaders) {
        join.at = moved(join.at, leader);
    }
    moved_joins
}

/// Puts, of steps next to each other that share no strand, the right one first. Headings, remarks, looks and repeats
/// are not crossed.
fn right_ones_first(passage: &mut Passage) {
    let order = sorted_steps(passage);
    let is_as_before = order.iter().enumerate().all(|(at, step)| at == *step);
    if is_as_before || order.len() != passage.steps.len() {
        return;
    }
    let knots = passage.piece.knots();
    let (mut tied, mut ranges) = (Vec::with_capacity(knots.len()), Vec::with_capacity(order.len()));
    for range in order.iter().filter_map(|step| passage.ranges.get(*step)) {
        let start = tied.len().to_u32();
        let step = knots.get(range.start.to_usize()..range.end.to_usize()).unwrap_or_default();
        tied.extend(step.iter().map(|knot| (knot.gap, knot.kind)));
        ranges.push(start..tied.len().to_u32());
    }
    if let Ok(piece) = Piece::tie(passage.piece.strands(), tied) {
        // No step goes past a join.
        let piece = piece.with_joins(passage.piece.joins().to_vec());
        passage.steps = order.iter().filter_map(|step| passage.steps.get(*step)).copied().collect();
        (passage.piece, passage.ranges) = (piece, ranges);
    }
}

/// The steps in their new order; the events then name them by their new places, which are the old ones' slots.
fn sorted_steps(passage: &Passage) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::with_capacity(passage.steps.len());
    let mut stretch = 0;
    for event in &passage.events {
        match event {
            Event::Step(step) => order.push(step.to_usize()),
            _ => {
                sort(&mut order[stretch..], passage);
                stretch = order.len();
            }
        }
    }
    sort(&mut order[stretch..], passage);
    order
}

fn sort(steps: &mut [usize], passage: &Passage) {
    if steps.len() > MOST_SORTED {
        return;
    }
    let spans: Vec<Option<(u8, u8)>> = steps.iter().map(|step| reach(passage, *step)).collect();
    let mut steps_and_spans: Vec<_> = steps.iter().copied().zip(spans).collect();
    for end in 1..steps_and_spans.len() {
        let mut at = end;
        while at > 0 && lies_right_of(steps_and_spans[at].1, steps_and_spans[at - 1].1) {
            steps_and_spans.swap(at, at - 1);
            at -= 1;
        }
    }
    steps.iter_mut().zip(steps_and_spans).for_each(|(slot, (step, _))| *slot = step);
}

fn lies_right_of(one: Option<(u8, u8)>, other: Option<(u8, u8)>) -> bool {
    matches!((one, other), (Some((low, _)), Some((_, high))) if low > high)
}

/// The first and the last position that a step touches.
fn reach(passage: &Passage, step: usize) -> Option<(u8, u8)> {
    let range = passage.ranges.get(step)?;
    let knots = passage.piece.knots().get(range.start.to_usize()..range.end.to_usize())?;
    let gaps = || knots.iter().map(|knot| knot.gap);
    Some((gaps().min()?, gaps().max()? + 1))
}
