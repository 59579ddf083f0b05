//! How the colors must hang for the next order that is promised of all strands. From there the steps are taken back, one by one:
//! mostly one or two hangings lead to it, and an edit that leaves another one behind is in vain, however the steps pick.

use super::act::{Act, CountedKnots};
use super::{PartStudy, keeps};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use knotwright_band::Kind;
use knotwright_numbers::ToNumber;
use rustc_hash::{FxBuildHasher, FxHashSet as HashSet};
use std::cell::{Cell, OnceCell};
use std::cmp::Ordering;
use std::hash::BuildHasher;
use std::ops::Range;

/// Where more hangings than this lead to an order, it is not gone farther back.
const MOST_HANGINGS: usize = 64;

/// How many acts may be taken back for one order, and how many of one step.
const MOST_ACTS: usize = 50_000;
const MOST_OF_STEP: usize = 256;

/// To follow a few edits takes less than to take the steps back. Tests are to see what comes of it.
const FEWEST_ASKED: u32 = if cfg!(test) { 1 } else { 16 };

/// How the colors must hang in one part.
#[derive(Debug, Default)]
pub(super) struct Needed {
    /// In order of time.
    orders: Vec<PromisedOrder>,
}

/// An order that is promised of all strands.
#[derive(Debug)]
struct PromisedOrder {
    time: u32,
    /// When all strands were asked.
    until: u32,
    colors: Vec<ThreadId>,
    /// Since when the steps before it may be taken back: all comes after the order before it.
    since: u32,
    /// How often somebody has asked, and what leads to it, once that was often enough.
    asked: Cell<u32>,
    hangings: OnceCell<Hangings>,
}

/// What leads to an order.
#[derive(Debug, Default)]
struct Hangings {
    /// When steps begin before which all is known.
    times: HashSet<u32>,
    /// By hash, how the colors hang then.
    known: HashSet<u64>,
}

/// What distinguishes how the colors hang at a time.
pub(crate) fn hanging_at(time: u32, colors: &[ThreadId]) -> u64 {
    FxBuildHasher.hash_one((time, colors))
}

impl PartStudy {
    /// Whether all may hold from a time on up to a later one, with that [hanging](hanging_at) at first.
    pub(crate) fn may_hold(&self, time: u32, hanging: u64, until: u32) -> bool {
        self.needed.get_or_init(|| Needed::of(self)).may_hold(self, time, hanging, until)
    }
}

impl Needed {
    fn of(part: &PartStudy) -> Self {
        // Where no color decides, the law of renaming says as much in less time.
        let is_known = part.rests_on_colors() && part.is_told_by_colors() && part.threads.len() == part.width;
        if !is_known || part.threads.contains(&UNKNOWN_THREAD) {
            return Self::default();
        }
        let mut since = 0;
        let order = |(time, colors): (u32, Vec<ThreadId>)| {
            let until = time + part.width.to_u32();
            let since = std::mem::replace(&mut since, until);
            PromisedOrder { time, until, colors, since, asked: Cell::new(0), hangings: OnceCell::new() }
        };
        Self { orders: promised_orders(part).map(order).collect() }
    }

    /// Whether all may hold up to a later time with that hanging before a step.
    fn may_hold(&self, part: &PartStudy, time: u32, hanging: u64, until: u32) -> bool {
        let next = self.orders.get(self.orders.partition_point(|order| order.time < time));
        let Some(order) = next.filter(|order| order.until <= until) else { return true };
        order.asked.set(order.asked.get() + 1);
        if order.asked.get() < FEWEST_ASKED {
            return true;
        }
        let hangings = order.hangings.get_or_init(|| Hangings::that_lead_to(order, part));
        !hangings.times.contains(&time) || hangings.known.contains(&hanging)
    }
}

impl Hangings {
    fn that_lead_to(order: &PromisedOrder, part: &PartStudy) -> Self {
        let mut all = Self::default();
        let steps = part.begun_in(order.since..order.time);
        all.times.reserve(steps.len());
        all.known.reserve(2 * steps.len());
        let (mut time, mut now, mut left) = (order.time, vec![order.colors.clone()], MOST_ACTS);
        all.note(time, &now);
        for &begun in steps.iter().rev() {
            let (acts, is_whole) = part.acts(begun..time);
            if !is_whole || acts.len() > MOST_OF_STEP {
                break;
            }
            let mut step = TakenBack { acts, start: &part.threads, left, found: Vec::new() };
            let is_known = now.iter().all(|colors| step.before(colors).is_some());
            (left, now) = (step.left, step.found);
            now.sort_unstable();
            now.dedup();
            if !is_known || now.len() > MOST_HANGINGS {
                break;
            }
            time = begun;
            all.note(time, &now);
        }
        all
    }

    fn note(&mut self, time: u32, hangings: &[Vec<ThreadId>]) {
        self.times.insert(time);
        self.known.extend(hangings.iter().map(|colors| hanging_at(time, colors)));
    }
}

/// When the order of all strands is promised up to the end of a part, and which.
fn promised_orders(part: &PartStudy) -> impl Iterator<Item = (u32, Vec<ThreadId>)> {
    let (acts, _) = part.acts(0..part.end);
    let mut time = 0;
    std::iter::from_fn(move || {
        loop {
            time += acts[time..].iter().position(|&act| asked(part, act).is_some())?;
            let begun = time;
            let mut colors = vec![UNKNOWN_THREAD; part.width];
            let asked = acts[begun..].iter().map_while(|&act| asked(part, act)).take(part.width);
            for (position, thread) in asked {
                colors[usize::from(position)] = thread;
                time += 1;
            }
            if !colors.contains(&UNKNOWN_THREAD) {
                return Some((begun.to_u32(), colors));
            }
        }
    })
}

/// What is promised of the strand at a position, and at which.
fn asked(part: &PartStudy, act: Act) -> Option<(u8, ThreadId)> {
    match act {
        Act::Wants { position, thread } => Some((position, thread)),
        Act::WantsStart { position, start } => Some((position, part.threads[usize::from(start)])),
        _ => None,
    }
}

/// The strand in hand, as far as it is known where it hangs and where it hung when it was taken.
#[derive(Debug, Clone, Copy, Default)]
struct Hand {
    at: Option<u8>,
    taken: Option<u8>,
}

/// What is known of a strand in hand before anything is taken back: where it hangs, and its thread.
struct InHand {
    at: Option<usize>,
    /// An unknown one if it may be of any.
    thread: ThreadId,
}

/// The acts of a step, taken back.
struct TakenBack<'s> {
    acts: &'s [Act],
    start: &'s [ThreadId],
    /// How many may be taken back yet.
    left: usize,
    /// How the colors hung before them.
    found: Vec<Vec<ThreadId>>,
}

impl TakenBack<'_> {
    /// Finds all hangings before the step after which the colors hang like this. `None` if that is not known.
    fn before(&mut self, colors: &[ThreadId]) -> Option<()> {
        self.back(self.acts.len(), &mut colors.to_vec(), Hand::default())
    }

    /// Takes the last of the first `acts` acts back, and then those before it; in the end the colors are as they were.
    fn back(&mut self, acts: usize, colors: &mut [ThreadId], hand: Hand) -> Option<()> {
        self.left = self.left.checked_sub(1)?;
        let Some(last) = acts.checked_sub(1) else {
            // What is in hand was taken in this step.
            let is_known = hand.at.is_none() && hand.taken.is_none();
            self.found.extend(is_known.then(|| colors.to_vec()));
            return is_known.then_some(());
        };
        let is_right = match self.acts[last] {
            Act::Unknown | Act::Join(_) | Act::IsAt(_) => return None,
            Act::Wrong => false,
            Act::Nothing => true,
            Act::Wants { position, thread } => keeps(thread, colors[usize::from(position)]),
            Act::WantsStart { position, start } => {
                keeps(self.start[usize::from(start)], colors[usize::from(position)])
            }
            Act::WantsAlike(gap) => keeps(colors[usize::from(gap)], colors[usize::from(gap) + 1]),
            Act::Knot { gap, kind } if kind.swaps() => return self.swapped(last, colors, hand, gap),
            Act::Meet { gap } => return self.swapped(last, colors, hand, gap),
            Act::Knot { .. } => true,
            Act::Take(position) => return self.taken(last, colors, hand, position),
            Act::TakeColor(sought) => {
                return sought.find(colors).map_or(Some(()), |found| self.taken(last, colors, hand, found));
            }
            Act::TakeNext => {
                let at = hand.at?;
                return match hand.taken.is_none_or(|taken| taken == at) {
                    true => self.back(last, colors, Hand { at: None, taken: Some(at) }),
                    false => Some(()),
                };
            }
            act @ (Act::Promise(_)
            | Act::Count(_)
            | Act::Over { .. }
            | Act::Until { .. }
            | Act::To { .. }) => {
                if hand.at.is_some() {
                    return self.tied(last, colors, hand, act);
                }
                let InHand { at, thread } = self.in_hand(acts);
                let places = at.map_or(0..colors.len(), |at| at..(at + 1).min(colors.len()));
                for at in places {
                    if keeps(thread, colors[at]) {
                        self.tied(last, colors, Hand { at: Some(at.to_u8()), ..hand }, act)?;
                    }
                }
                return Some(());
            }
        };
        if is_right { self.back(last, colors, hand) } else { Some(()) }
    }

    /// The strand that is in hand after the first `acts` acts.
    fn in_hand(&self, acts: usize) -> InHand {
        let (mut thread, mut moved) = (UNKNOWN_THREAD, Some(0));
        for &act in self.acts[..acts].iter().rev() {
            match act {
                Act::Promise(promised) => thread = promised,
                Act::Count(CountedKnots { kind, count, .. }) if kind.swaps() => {
                    let count = i64::from(count);
                    moved = moved.map(|moved| if kind.left_works() { moved + count } else { moved - count });
                }
                Act::Over { .. } | Act::Until { .. } | Act::To { .. } => moved = None,
                Act::TakeColor(sought) => return InHand { at: None, thread: sought.thread },
                Act::Take(position) => {
                    let at = moved.map(|moved| usize::try_from(i64::from(position) + moved));
                    return InHand { at: at.map(|at| at.unwrap_or(usize::MAX - 1)), thread };
                }
                Act::TakeNext => break,
                _ => {}
            }
        }
        InHand { at: None, thread }
    }

    fn swapped(&mut self, acts: usize, colors: &mut [ThreadId], hand: Hand, gap: u8) -> Option<()> {
        let gap = usize::from(gap);
        colors.swap(gap, gap + 1);
        let done = self.back(acts, colors, hand);
        colors.swap(gap, gap + 1);
        done
    }

    /// The strand in hand was taken there.
    fn taken(&mut self, acts: usize, colors: &mut [ThreadId], hand: Hand, position: u8) -> Option<()> {
        let is_there = |place: Option<u8>| place.is_none_or(|place| place == position);
        match is_there(hand.at) && is_there(hand.taken) {
            true => self.back(acts, colors, Hand::default()),
            false => Some(()),
        }
    }

    /// The strand in hand hangs there after this act.
    fn tied(&mut self, acts: usize, colors: &mut [ThreadId], hand: Hand, act: Act) -> Option<()> {
        self.left = self.left.checked_sub(1)?;
        let own = hand.at?;
        let at = usize::from(own);
        let (kind, reaches) = match act {
            Act::Promise(thread) => (Kind::Forward, 0..usize::from(keeps(thread, colors[at]))),
            Act::Count(counted) => (counted.kind, Ties { colors, at, edge: counted.edge }.counted(counted)),
            Act::Over { kind, thread, edge } => {
                let ties = Ties { colors, at, edge };
                let is_last = ties.next(kind).is_none_or(|next| next != thread);
                let most = if is_last { ties.most(kind, |base| base == thread) } else { 0 };
                (kind, 1..most + 1)
            }
            Act::Until { kind, thread, edge } => {
                let ties = Ties { colors, at, edge };
                let is_last = ties.next(kind).is_some_and(|next| next == thread);
                let most = if is_last { ties.most(kind, |base| base != thread) } else { 0 };
                (kind, 1..most + 1)
            }
            Act::To { kind, position } => {
                let most = Ties { colors, at, edge: position }.most(kind, |_| true);
                (kind, if own == position { 0..most + 1 } else { 0..0 })
            }
            _ => return None,
        };
        let is_rightward = kind.left_works();
        for reach in reaches {
            let from = if is_rightward { at - reach } else { at + reach };
            move_strand(colors, at, from);
            self.back(acts, colors, Hand { at: Some(from.to_u8()), ..hand })?;
            move_strand(colors, from, at);
        }
        Some(())
    }
}

/// The strand at one place hangs at another one then, and those between make room.
fn move_strand(colors: &mut [ThreadId], from: usize, to: usize) {
    match from <= to {
        true => (from..to).for_each(|gap| colors.swap(gap, gap + 1)),
        false => (to..from).rev().for_each(|gap| colors.swap(gap, gap + 1)),
    }
}

/// A strand after it has tied over others, no farther than to the edge.
struct Ties<'c> {
    colors: &'c [ThreadId],
    at: usize,
    edge: u8,
}

impl Ties<'_> {
    /// The one that it would tie over next.
    fn next(&self, kind: Kind) -> Option<ThreadId> {
        let next = if kind.left_works() { self.at.checked_add(1) } else { self.at.checked_sub(1) };
        let next = next.filter(|_| self.at != usize::from(self.edge));
        next.and_then(|next| self.colors.get(next).copied())
    }

    /// How many such ones it may have tied over.
    fn most(&self, kind: Kind, is_base: impl Fn(ThreadId) -> bool) -> usize {
        let edge = usize::from(self.edge);
        match kind.left_works() {
            true if self.at <= edge => {
                self.colors[..self.at].iter().rev().take_while(|&&base| is_base(base)).count()
            }
            false if self.at >= edge => {
                self.colors[self.at + 1..].iter().take_while(|&&base| is_base(base)).count()
            }
            _ => 0,
        }
    }

    /// By how many places it has come there with counted knots, if it has.
    fn counted(&self, CountedKnots { kind, count, over, .. }: CountedKnots) -> Range<usize> {
        let count = count.to_usize();
        let is_so = match (count, kind.swaps()) {
            (0, _) => true,
            (_, true) => self.most(kind, |base| keeps(over, base)) >= count,
            (_, false) => self.beside().is_some_and(|base| keeps(over, base)),
        };
        let reach = if kind.swaps() { count } else { 0 };
        if is_so { reach..reach + 1 } else { 0..0 }
    }

    /// The one beside it on the way to the edge.
    fn beside(&self) -> Option<ThreadId> {
        let beside = match self.at.cmp(&usize::from(self.edge)) {
            Ordering::Less => self.at + 1,
            Ordering::Equal => return None,
            Ordering::Greater => self.at - 1,
        };
        self.colors.get(beside).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::super::Replay;
    use super::super::act::NthOfColor;
    use super::*;
    use proptest::prelude::*;

    const WIDTH: u8 = 6;

    fn kind() -> impl Strategy<Value = Kind> {
        prop_oneof![
            Just(Kind::Forward),
            Just(Kind::Backward),
            Just(Kind::ForwardBackward),
            Just(Kind::BackwardForward)
        ]
    }

    fn run() -> impl Strategy<Value = Act> {
        let to_the_edge = |kind: Kind| if kind.left_works() { WIDTH - 1 } else { 0 };
        let over = prop_oneof![Just(UNKNOWN_THREAD), 0_u16..3];
        let counted = (kind(), 0_u32..4, over).prop_map(move |(kind, count, over)| {
            Act::Count(CountedKnots { kind, count, edge: to_the_edge(kind), over })
        });
        let swapping = || kind().prop_filter("it goes on", |kind| kind.swaps());
        let over = (swapping(), 0_u16..3).prop_map(move |(kind, thread)| Act::Over {
            kind,
            thread,
            edge: to_the_edge(kind),
        });
        let until = (swapping(), 0_u16..3).prop_map(move |(kind, thread)| Act::Until {
            kind,
            thread,
            edge: to_the_edge(kind),
        });
        let to = (swapping(), 0..WIDTH).prop_map(|(kind, position)| Act::To { kind, position });
        prop_oneof![3 => counted, 1 => over, 1 => until, 1 => to]
    }

    fn step() -> impl Strategy<Value = Vec<Act>> {
        let by_color = (0_u16..3, 0_u8..3, any::<bool>()).prop_map(|(thread, after, is_turned)| {
            let (from, to) = if is_turned { (WIDTH - 1, 0) } else { (0, WIDTH - 1) };
            Act::TakeColor(NthOfColor { thread, after, from, to })
        });
        let take = prop_oneof![(0..WIDTH).prop_map(Act::Take), by_color];
        let promise = prop::option::of((0_u16..3).prop_map(Act::Promise));
        let then = prop::option::of(prop::collection::vec(run(), 1..3));
        (take, promise, prop::collection::vec(run(), 1..3), then).prop_map(|(take, promise, runs, then)| {
            let then = then.into_iter().flat_map(|runs| std::iter::once(Act::TakeNext).chain(runs));
            std::iter::once(take).chain(promise).chain(runs).chain(then).collect()
        })
    }

    proptest! {
        #[test]
        fn a_step_taken_back_leads_to_all_that_it_came_from(
            colors in prop::collection::vec(0_u16..3, usize::from(WIDTH)),
            acts in step(),
        ) {
            let (threads, width) = (colors.clone(), colors.len());
            let last = acts.len().to_u32();
            let mut part = PartStudy::default();
            (part.threads, part.width, part.acts, part.last) = (threads, width, acts, last);
            let mut after = colors.clone();
            let tied = Replay::of(&part, u64::MAX).tie(&mut after, 0..last);
            let mut step =
                TakenBack { acts: &part.acts, start: &part.threads, left: usize::MAX, found: Vec::new() };
            prop_assert!(step.before(&after).is_some());
            // What it leads to comes back to the same, too.
            for before in &step.found {
                let mut again = before.clone();
                prop_assert!(Replay::of(&part, u64::MAX).tie(&mut again, 0..last).is_ok());
                prop_assert_eq!(&again, &after);
            }
            prop_assert!(tied.is_err() || step.found.contains(&colors));
        }
    }
}
