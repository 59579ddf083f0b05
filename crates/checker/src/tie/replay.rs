//! A part tied once more among strands of other colors, act by act. It is for those who ask what comes of an edit that was tied
//! already: which steps come after it, and from which numbers, is known. It takes a tenth of what tying the text takes.

use super::act::{Act, CountedKnots, NthOfColor};
use super::reworded::{Misread, Reworded};
use super::turns::KnownTurns;
use super::{PartStudy, Passing, keeps};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use knotwright_band::Kind;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// Ties stretches of a part again.
#[derive(Debug)]
pub(crate) struct Replay<'s> {
    pub(crate) part: &'s PartStudy,
    /// By position, the threads as the part began.
    pub(crate) start: &'s [ThreadId],
    /// How many acts and strands may be looked at yet.
    pub(crate) left: u64,
    /// What was tied, each knot with its gap; `None` if nobody wants to know, or if knots do not say how they lie: the rows of a
    /// leader are straight.
    pub(crate) tied: Option<Vec<(u8, Kind)>>,
}

/// Why a stretch is not tied to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stuck {
    /// Something is wrong, at that time if that is known.
    Wrong { time: Option<u32> },
    /// Only a tie of the text shows what comes of it.
    Unknown,
}

impl KnownStretch {
    /// A statement as it is begun; `None` if it is not known when it had been tied.
    pub(crate) fn of(begun: &Passing) -> Option<Self> {
        let time = begun.time..begun.until;
        (begun.until < u32::MAX).then_some(Self { time, within: begun.within, mirrored: false })
    }
}

impl<'s> Replay<'s> {
    /// Of a part that begins as it is written.
    pub(crate) fn of(part: &'s PartStudy, left: u64) -> Self {
        Self { part, start: &part.threads[..part.width], left, tied: None }
    }

    /// Ties what comes in a stretch of time, which begins with a statement, among strands of these colors, by position; then they
    /// are as they hang after it. How many knots it takes.
    pub(crate) fn tie(&mut self, colors: &mut [ThreadId], time: Range<u32>) -> Result<u64, Stuck> {
        let end = time.end.min(self.part.last);
        let (acts, is_whole) = self.part.acts(time.start..end);
        let acts = (time.start..).zip(acts.iter().copied());
        let knots = self.perform(colors, acts)?;
        if is_whole { Ok(knots) } else { Err(Stuck::Unknown) }
    }

    /// Ties some stretches, one after the other. How many knots that takes. `turns`: what is known of those of the part.
    pub(crate) fn tie_all(
        &mut self,
        colors: &mut [ThreadId],
        stretches: impl IntoIterator<Item = KnownStretch>,
        turns: &mut KnownTurns,
    ) -> Result<u64, Stuck> {
        let mut all = 0;
        for stretch in stretches {
            if let Some(turned) = turns.tie(self.part, &stretch, colors, &mut self.left) {
                let knots = turned.map_err(|()| Stuck::Wrong { time: None })?;
                self.tied.iter_mut().for_each(|tied| tied.extend_from_slice(knots));
                all += knots.len().to_u64();
                continue;
            }
            let (acts, is_whole) = self.part.acts(stretch.time.clone());
            if !is_whole {
                return Err(Stuck::Unknown);
            }
            let acts = acts.iter().map(|&act| match act {
                act if act.is_elsewhere_otherwise() => Act::Unknown,
                act if stretch.mirrored => act.mirrored(&stretch),
                act => act,
            });
            all += self.perform(colors, (stretch.time.start..).zip(acts))?;
        }
        Ok(all)
    }

    /// Ties a `take`, as it is begun once, with one word read otherwise. How many knots it takes.
    pub(crate) fn tie_reworded(
        &mut self,
        colors: &mut [ThreadId],
        begun: &Passing,
        read: Reworded,
    ) -> Result<u64, Stuck> {
        let (acts, is_whole) = self.part.acts(begun.time..begun.until);
        if !is_whole {
            return Err(Stuck::Unknown);
        }
        match read.acts(begun, acts) {
            Ok(acts) => self.perform(colors, acts.iter().map(|act| (begun.time, act))),
            Err(Misread::Wrong) => Err(Stuck::Wrong { time: Some(begun.time) }),
            Err(Misread::Unknown) => Err(Stuck::Unknown),
        }
    }

    /// Performs acts, each with its time.
    fn perform(
        &mut self,
        colors: &mut [ThreadId],
        acts: impl Iterator<Item = (u32, Act)>,
    ) -> Result<u64, Stuck> {
        let mut hands = Hands::new(self.start, colors, &mut self.tied);
        let mut done = Ok(());
        for (time, act) in acts {
            hands.looked += 1;
            done = match hands.perform(act) {
                Ok(()) if hands.looked > self.left => Err(Stuck::Unknown),
                Ok(()) => continue,
                Err(Stop::Wrong) => Err(Stuck::Wrong { time: Some(time) }),
                Err(Stop::Unknown) => Err(Stuck::Unknown),
            };
            break;
        }
        self.left = self.left.saturating_sub(hands.looked);
        done.map(|()| hands.knots)
    }
}

/// What is tied once in a stretch of time.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(crate) struct KnownStretch {
    pub(crate) time: Range<u32>,
    /// In which range.
    pub(crate) within: (u8, u8),
    /// Whether its mirror image is tied instead.
    pub(crate) mirrored: bool,
}

/// Why an act is not done.
pub(super) enum Stop {
    Wrong,
    Unknown,
}

/// The colors that hang side by side, and the strand in hand.
pub(super) struct Hands<'c> {
    /// By position, the thread as the part began.
    start: &'c [ThreadId],
    /// By position, the thread now.
    colors: &'c mut [ThreadId],
    /// Where the strand hung that was taken in hand.
    taken: u8,
    /// Where it hangs.
    at: u8,
    knots: u64,
    looked: u64,
    tied: &'c mut Option<Vec<(u8, Kind)>>,
}

impl<'c> Hands<'c> {
    pub(super) fn new(
        start: &'c [ThreadId],
        colors: &'c mut [ThreadId],
        tied: &'c mut Option<Vec<(u8, Kind)>>,
    ) -> Self {
        Self { start, colors, taken: 0, at: 0, knots: 0, looked: 0, tied }
    }

    /// The thread of the strand in hand.
    pub(super) fn in_hand(&self) -> ThreadId {
        self.thread(self.at)
    }

    pub(super) fn perform(&mut self, act: Act) -> Result<(), Stop> {
        match act {
            Act::Take(position) => self.take(position),
            Act::TakeColor(sought) => {
                let position = self.find(sought).ok_or(Stop::Wrong)?;
                self.take(position);
            }
            Act::TakeNext => self.at = self.taken,
            Act::Promise(thread) => sure(keeps(thread, self.in_hand()))?,
            Act::Count(counted) => self.count(counted)?,
            Act::Over { kind, thread, edge } => {
                let count = self.ahead(edge).take_while(|&&found| found == thread).count();
                sure(count > 0)?;
                self.go(kind, count.to_u8());
            }
            Act::Until { kind, thread, edge } => {
                let count = self.ahead(edge).position(|&found| found == thread);
                self.go(kind, count.filter(|&count| count > 0).ok_or(Stop::Wrong)?.to_u8());
            }
            Act::To { kind, position } => {
                let is_onward = position == self.at || (position > self.at) == kind.left_works();
                sure(is_onward)?;
                self.go(kind, position.abs_diff(self.at));
            }
            Act::Join(thread) => self.colors[usize::from(self.at)] = thread,
            Act::IsAt(position) if position == self.at => *self.tied = None,
            Act::Knot { gap, kind } => self.knot(gap, kind),
            Act::Meet { gap } => self.knot(gap, Kind::Forward),
            Act::Wants { position, thread } => sure(keeps(thread, self.thread(position)))?,
            Act::WantsStart { position, start } => {
                sure(keeps(self.start[usize::from(start)], self.thread(position)))?;
            }
            Act::WantsAlike(gap) => sure(keeps(self.thread(gap), self.thread(gap + 1)))?,
            Act::Wrong => return Err(Stop::Wrong),
            Act::IsAt(_) | Act::Unknown => return Err(Stop::Unknown),
            Act::Nothing => {}
        }
        Ok(())
    }

    pub(super) fn thread(&self, position: u8) -> ThreadId {
        self.colors[usize::from(position)]
    }

    fn take(&mut self, position: u8) {
        (self.taken, self.at) = (position, position);
    }

    fn find(&mut self, sought: NthOfColor) -> Option<u8> {
        let found = sought.find(self.colors);
        let past = found.unwrap_or(sought.to).abs_diff(sought.from);
        self.looked += u64::from(past / 8);
        found
    }

    /// The strands that the one in hand would tie over, the next one first.
    fn ahead(&self, edge: u8) -> impl Iterator<Item = &ThreadId> {
        let (at, edge) = (usize::from(self.at), usize::from(edge));
        let (left, right) = match at <= edge {
            true => (&[][..], &self.colors[at + 1..=edge]),
            false => (&self.colors[edge..at], &[][..]),
        };
        right.iter().chain(left.iter().rev())
    }

    fn count(&mut self, CountedKnots { kind, count, edge, over }: CountedKnots) -> Result<(), Stop> {
        let beyond = edge.abs_diff(self.at);
        let (reach, is_past) = match kind.swaps() {
            true => (count.min(beyond.into()), count > beyond.into()),
            false => (count.min(1), count > 0 && beyond == 0),
        };
        let is_base = |&found: &ThreadId| keeps(over, found);
        let fits = || over == UNKNOWN_THREAD || self.ahead(edge).take(reach.to_usize()).all(is_base);
        sure(!is_past && fits())?;
        match kind.swaps() {
            true => self.go(kind, reach.to_u8()),
            false => {
                self.knots += u64::from(count);
                let gap = if kind.left_works() { self.at } else { self.at.saturating_sub(1) };
                self.keep((0..count).map(|_| (gap, kind)));
            }
        }
        Ok(())
    }

    fn keep(&mut self, knots: impl Iterator<Item = (u8, Kind)>) {
        if let Some(tied) = self.tied {
            tied.extend(knots);
        }
    }

    /// Two strands side by side.
    fn knot(&mut self, gap: u8, kind: Kind) {
        self.knots += 1;
        self.keep(std::iter::once((gap, kind)));
        if kind.swaps() {
            self.colors.swap(gap.into(), usize::from(gap) + 1);
        }
    }

    /// The strand in hand ties over as many to the one side, and hangs behind them.
    fn go(&mut self, kind: Kind, count: u8) {
        let (at, reach) = (usize::from(self.at), usize::from(count));
        let own = self.colors[at];
        match kind.left_works() {
            true => {
                self.colors.copy_within(at + 1..=at + reach, at);
                self.keep((self.at..self.at + count).map(|gap| (gap, kind)));
                self.at += count;
            }
            false => {
                self.colors.copy_within(at - reach..at, at - reach + 1);
                self.keep((self.at - count..self.at).rev().map(|gap| (gap, kind)));
                self.at -= count;
            }
        }
        self.colors[usize::from(self.at)] = own;
        self.knots += u64::from(count);
        self.looked += u64::from(count / 8);
    }
}

fn sure(is_right: bool) -> Result<(), Stop> {
    if is_right { Ok(()) } else { Err(Stop::Wrong) }
}
