//! What a part is tied from, act by act: which strand is taken in hand, how far it ties, what is promised of whom. Numbers,
//! names and ranges are computed already; what a color decides is not. So what comes of strands of other colors can be found
//! out without the text ([`replay`](super::replay)).

use super::frame::Frame;
use super::run::Hand;
use super::{KnownStretch, PartStudy, Study, Tie};
use crate::FactKind;
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use knotwright_band::Kind;
use knotwright_grammar::tree::{BeadPlace, StrandBy};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// The most acts of a part that are kept.
const MOST_ACTS: usize = 1_000_000;

/// One of them; each takes one moment of a study's time. Positions are those of the band, from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Act {
    /// The strand that hangs there is taken in hand.
    Take(u8),
    /// So is one of a thread.
    TakeColor(NthOfColor),
    /// What hangs now where the strand was taken in hand is taken next.
    TakeNext,
    /// What is in hand must be of that thread.
    Promise(ThreadId),
    /// It ties as many knots.
    Count(CountedKnots),
    /// It ties over all next to it that are of that thread.
    Over { kind: Kind, thread: ThreadId, edge: u8 },
    /// It ties up to the next one of that thread.
    Until { kind: Kind, thread: ThreadId, edge: u8 },
    /// It ties up to that position.
    To { kind: Kind, position: u8 },
    /// It goes on with that thread.
    Join(ThreadId),
    /// It must hang there.
    IsAt(u8),
    /// Two strands are tied, whoever they are.
    Knot { gap: u8, kind: Kind },
    /// Two of one color are tied: forward, in a mirror too.
    Meet { gap: u8 },
    /// The strand that hangs there must be of that thread.
    Wants { position: u8, thread: ThreadId },
    /// It must be of the thread that hung at that position as the part began.
    WantsStart { position: u8, start: u8 },
    /// Those beside a gap must be of one thread.
    WantsAlike(u8),
    /// Whoever hangs where, something is wrong.
    Wrong,
    /// Only a tie shows what comes of it.
    Unknown,
    /// Nothing, or nothing that the acts around it do not say.
    Nothing,
}

/// The strand of a thread that comes after that many others of it, from one position towards another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct NthOfColor {
    pub(crate) thread: ThreadId,
    pub(crate) after: u8,
    pub(crate) from: u8,
    pub(crate) to: u8,
}

impl NthOfColor {
    /// The position where it hangs.
    pub(super) fn find(self, colors: &[ThreadId]) -> Option<u8> {
        let Self { thread, after, from, to } = self;
        let is_own = |found: &(u8, &ThreadId)| *found.1 == thread;
        let within = colors[usize::from(from.min(to))..=usize::from(from.max(to))].iter();
        match from <= to {
            true => (from..).zip(within).filter(is_own).nth(after.into()).map(|found| found.0),
            false => {
                let found = (0..).zip(within.rev()).filter(is_own).nth(after.into());
                found.map(|(past, _)| from - past)
            }
        }
    }
}

/// As many knots of a kind, no farther than the edge, over strands of a thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct CountedKnots {
    pub(crate) kind: Kind,
    pub(crate) count: u32,
    pub(crate) edge: u8,
    /// An unknown one if any will do.
    pub(crate) over: ThreadId,
}

impl PartStudy {
    /// What is done in a stretch of time, as far as it is kept; and whether that is all.
    pub(super) fn acts(&self, time: Range<u32>) -> (&[Act], bool) {
        let (start, end) = (time.start.to_usize(), time.end.to_usize());
        let kept = end.min(self.acts.len());
        (self.acts.get(start..kept).unwrap_or_default(), kept == end)
    }
}

impl Tie<'_> {
    /// Lets a moment pass, in which this is done.
    #[inline]
    pub(super) fn study_act(&mut self, act: Act) {
        let Some(study) = &mut self.study else { return };
        self.clock += 1;
        if let Study::Record(part) = study
            && part.acts.len() < MOST_ACTS
        {
            part.acts.push(act);
        }
    }

    /// The strand in hand ties as many knots.
    pub(super) fn study_count(&mut self, hand: Hand, count: u64, over: Option<ThreadId>) {
        if self.study.is_some() {
            let (kind, edge) = self.towards(hand);
            let count = u32::try_from(count).unwrap_or(u32::MAX);
            let over = over.unwrap_or(UNKNOWN_THREAD);
            self.study_act(Act::Count(CountedKnots { kind, count, edge, over }));
        }
    }

    /// How the strand in hand ties as it is seen from the front of the band, and the last position there that it may come to.
    pub(super) fn towards(&self, hand: Hand) -> (Kind, u8) {
        let Frame { low, high, mirrored } = self.frame;
        let kind = if mirrored { hand.kind.mirrored() } else { hand.kind };
        (kind, if kind.left_works() { high.to_u8() } else { low.to_u8() })
    }

    /// Whether strands of a bead hang side by side may lie in their colors.
    pub(super) fn study_bead(&mut self, place: &BeadPlace) {
        if place.strands.len() > 1
            && place.strands.iter().any(|strand| matches!(strand.by, StrandBy::Color { .. }))
        {
            self.study_act(Act::Unknown);
        }
    }
}

impl Act {
    /// In a mirror, among the positions of a stretch.
    pub(super) fn mirrored(self, among: &KnownStretch) -> Self {
        let (low, high) = among.within;
        let turned = |position: u8| low + high - position;
        let gap_turned = |gap: u8| low + high - 1 - gap;
        match self {
            Self::Take(position) => Self::Take(turned(position)),
            Self::TakeColor(NthOfColor { thread, after, from, to }) => {
                Self::TakeColor(NthOfColor { thread, after, from: turned(from), to: turned(to) })
            }
            Self::Count(CountedKnots { kind, count, edge, over }) => {
                Self::Count(CountedKnots { kind: kind.mirrored(), count, edge: turned(edge), over })
            }
            Self::Over { kind, thread, edge } => {
                Self::Over { kind: kind.mirrored(), thread, edge: turned(edge) }
            }
            Self::Until { kind, thread, edge } => {
                Self::Until { kind: kind.mirrored(), thread, edge: turned(edge) }
            }
            Self::To { kind, position } => Self::To { kind: kind.mirrored(), position: turned(position) },
            Self::IsAt(position) => Self::IsAt(turned(position)),
            Self::Knot { gap, kind } => Self::Knot { gap: gap_turned(gap), kind: kind.mirrored() },
            Self::Meet { gap } => Self::Meet { gap: gap_turned(gap) },
            Self::Wants { position, thread } => Self::Wants { position: turned(position), thread },
            Self::WantsStart { position, start } => {
                Self::WantsStart { position: turned(position), start: turned(start) }
            }
            Self::WantsAlike(gap) => Self::WantsAlike(gap_turned(gap)),
            Self::TakeNext
            | Self::Promise(_)
            | Self::Join(_)
            | Self::Wrong
            | Self::Unknown
            | Self::Nothing => self,
        }
    }

    /// Whether it rests on more than the colors that hang there, or on where it stands.
    pub(super) fn is_elsewhere_otherwise(self) -> bool {
        matches!(self, Self::Join(_) | Self::WantsStart { .. } | Self::Unknown)
    }

    /// What was wrong at that moment. Of what may lie in colors, the act before it tells.
    pub(super) fn of_fault(kind: &FactKind) -> Self {
        match kind {
            FactKind::PastEdge { .. }
            | FactKind::NothingToTie { .. }
            | FactKind::UntilNever { .. }
            | FactKind::WrongWay { .. }
            | FactKind::ColorNotThere { .. }
            | FactKind::LeaderNotAtEdge { .. }
            | FactKind::LabelOutside { .. }
            | FactKind::BeadStrandsApart { .. } => Self::Nothing,
            _ => Self::Wrong,
        }
    }
}
