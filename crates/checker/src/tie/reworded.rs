//! A `take` of which one word is read otherwise: its acts are those that were written down, but for what the word says.

use super::act::{Act, CountedKnots, NthOfColor};
use super::run::kind_of;
use super::{Change, Overlay, Passing};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use knotwright_band::Kind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expr, Extent, Goal, GoalPlace, Name, Run, StrandBy, Take};
use std::cell::Cell;

/// A `take` of more acts than this is tied from the text.
const MOST_ACTS: usize = 12;

/// A few acts, kept without asking for room: thousands of edits are read.
#[derive(Debug)]
pub(super) struct FewActs {
    acts: [Act; MOST_ACTS],
    count: usize,
}

impl FewActs {
    fn none() -> Self {
        Self { acts: [Act::Nothing; MOST_ACTS], count: 0 }
    }

    fn push(&mut self, act: Act) -> Result<(), Misread> {
        *self.acts.get_mut(self.count).ok_or(Misread::Unknown)? = act;
        self.count += 1;
        Ok(())
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = Act> {
        self.acts[..self.count].iter().copied()
    }
}

/// Why the acts are not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Misread {
    /// Something is wrong then, whoever hangs there.
    Wrong,
    /// Only a tie shows it.
    Unknown,
}

/// A `take`, and how it is read.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reworded<'a> {
    pub(crate) take: &'a Take,
    pub(crate) overlay: &'a Overlay,
}

impl Reworded<'_> {
    /// Its acts as it was begun once; `acts`: those of the text as it is.
    pub(super) fn acts(self, begun: &Passing, acts: &[Act]) -> Result<FewActs, Misread> {
        let Self { take, overlay } = self;
        let (within, mirrored) = (begun.within, begun.mirrored);
        let reader = Reader { overlay, within, mirrored, is_read: Cell::new(false) };
        let mut acts = acts.iter().copied().filter(|act| *act != Act::Nothing);
        let mut read = FewActs::none();
        read.push(reader.strand(take, acts.next().ok_or(Misread::Unknown)?)?)?;
        if let Some(promise) = &take.promise {
            let Some(Act::Promise(thread)) = acts.next() else { return Err(Misread::Unknown) };
            read.push(Act::Promise(reader.thread(promise, thread)))?;
        }
        let (mut kind, mut is_other_kind) = (Kind::Forward, false);
        for (number, runs) in
            std::iter::once(&take.runs).chain(take.thens.iter().map(|then| &then.runs)).enumerate()
        {
            if number > 0 {
                let next = acts.next().filter(|act| *act == Act::TakeNext);
                read.push(next.ok_or(Misread::Unknown)?)?;
            }
            for run in runs {
                let act = acts.next().ok_or(Misread::Unknown)?;
                if let Some((written, span)) = run.kind {
                    let change = reader.change_at(span);
                    is_other_kind = change.is_some();
                    kind = kind_of(if let Some(Change::Kind(other)) = change { other } else { written });
                }
                // Of the runs that stay as they are, most are not looked at.
                let is_same = !is_other_kind && !reader.is_within(run.span) && is_simple(run);
                read.push(if is_same { act } else { reader.run(run, kind, act)? })?;
            }
        }
        // A number may be part of a sum.
        let is_known = acts.next().is_none() && reader.is_read.get();
        if is_known { Ok(read) } else { Err(Misread::Unknown) }
    }
}

struct Reader<'o> {
    overlay: &'o Overlay,
    within: (u8, u8),
    mirrored: bool,
    /// Whether the word was come to that is read otherwise.
    is_read: Cell<bool>,
}

/// Whether it is one act: a series is one for each of its numbers.
fn is_simple(run: &Run) -> bool {
    !matches!(run.extent, Extent::Series(_))
}

impl Reader<'_> {
    /// Whether the word that is read otherwise is there.
    fn is_within(&self, span: Span) -> bool {
        let word = self.overlay.place.span;
        span.start <= word.start && word.end <= span.end
    }

    fn change_at(&self, span: Span) -> Option<Change> {
        let is_here = self.overlay.place.span == span;
        self.is_read.set(self.is_read.get() || is_here);
        is_here.then_some(self.overlay.change)
    }

    fn number_at(&self, expr: &Expr) -> Option<i64> {
        let Expr::Number(number) = expr else { return None };
        match self.change_at(number.span) {
            Some(Change::Number(read)) => Some(read),
            _ => None,
        }
    }

    fn thread(&self, name: &Name, written: ThreadId) -> ThreadId {
        match self.change_at(name.span) {
            Some(Change::Thread(thread)) => thread,
            _ => written,
        }
    }

    fn turned(&self, position: u8) -> u8 {
        self.within.0 + self.within.1 - position
    }

    /// The position of a place that is counted from one side of the range as the text sees it.
    fn position(&self, number: i64, is_left: bool) -> Result<u8, Misread> {
        let (low, high) = self.within;
        let from_edge = u8::try_from(number - 1).ok().filter(|&from_edge| from_edge <= high - low);
        let from_edge = from_edge.ok_or(Misread::Wrong)?;
        Ok(if is_left != self.mirrored { low + from_edge } else { high - from_edge })
    }

    fn strand(&self, take: &Take, act: Act) -> Result<Act, Misread> {
        let is_turned = self.change_at(take.strand.span) == Some(Change::Side);
        Ok(match (&take.strand.by, act) {
            (StrandBy::Left(number) | StrandBy::Right(number), Act::Take(position)) => {
                let is_left = matches!(take.strand.by, StrandBy::Left(_));
                match self.number_at(number) {
                    Some(read) => Act::Take(self.position(read, is_left)?),
                    None if is_turned => Act::Take(self.turned(position)),
                    None => act,
                }
            }
            (StrandBy::CenterLeft | StrandBy::CenterRight, Act::Take(position)) if is_turned => {
                Act::Take(self.turned(position))
            }
            (StrandBy::CenterLeft | StrandBy::CenterRight | StrandBy::Center, Act::Take(_)) => act,
            (StrandBy::Color { color, number, .. }, Act::TakeColor(sought)) => {
                let NthOfColor { thread, after, from, to } = sought;
                let [from, to] = [from, to].map(|end| if is_turned { self.turned(end) } else { end });
                let after = match self.number_at(number) {
                    Some(read) => u8::try_from(read - 1).map_err(|_| Misread::Wrong)?,
                    None => after,
                };
                let thread = self.thread(color, thread);
                if thread == UNKNOWN_THREAD {
                    return Err(Misread::Unknown);
                }
                Act::TakeColor(NthOfColor { thread, after, from, to })
            }
            _ => return Err(Misread::Unknown),
        })
    }

    /// `kind`: as it is read.
    fn run(&self, run: &Run, kind: Kind, act: Act) -> Result<Act, Misread> {
        let kind = if self.mirrored { kind.mirrored() } else { kind };
        let edge = if kind.left_works() { self.within.1 } else { self.within.0 };
        Ok(match (&run.extent, act) {
            (Extent::Count { count, over }, Act::Count(counted)) => {
                let count = self.number_at(count).map_or(Ok(counted.count), u32::try_from);
                let count = count.map_err(|_| Misread::Wrong)?;
                let over = over.as_ref().map_or(counted.over, |over| self.thread(over, counted.over));
                Act::Count(CountedKnots { kind, count, edge, over })
            }
            // Only a strand that goes on comes to others.
            (Extent::Over(_) | Extent::Until(_) | Extent::To(_), _) if !kind.swaps() => {
                return Err(Misread::Wrong);
            }
            (Extent::Over(name), Act::Over { thread, .. }) => {
                Act::Over { kind, thread: self.thread(name, thread), edge }
            }
            (Extent::Until(name), Act::Until { thread, .. }) => {
                Act::Until { kind, thread: self.thread(name, thread), edge }
            }
            (Extent::To(goal), Act::To { position, .. }) => {
                Act::To { kind, position: self.goal(goal, position, edge)? }
            }
            _ => return Err(Misread::Unknown),
        })
    }

    fn goal(&self, goal: &Goal, written: u8, edge: u8) -> Result<u8, Misread> {
        let is_turned = self.change_at(goal.span) == Some(Change::Side);
        match &goal.place {
            GoalPlace::Edge => Ok(edge),
            GoalPlace::Left(number) | GoalPlace::Right(number) if self.number_at(number).is_some() => {
                let is_left = matches!(goal.place, GoalPlace::Left(_));
                self.position(self.number_at(number).unwrap_or_default(), is_left)
            }
            GoalPlace::Center => Ok(written),
            _ => Ok(if is_turned { self.turned(written) } else { written }),
        }
    }
}
