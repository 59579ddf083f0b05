//! One run: a kind of knot, and how far.

use super::act::Act;
use super::place::Target;
use super::{Done, Halt, Tie, keeps};
use crate::resolve::ThreadId;
use crate::{FactKind, Side};
use knotwright_band::Kind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expr, Extent, KnotKind, Run};
use knotwright_numbers::ToNumber;

/// The strand in hand: where it hangs, and how it is to tie.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hand {
    /// Its position in the band.
    pub(super) at: usize,
    /// The kind as it is written, regardless of mirrors.
    pub(super) kind: Kind,
}

impl Hand {
    /// The side of the text that its neighbor is on.
    fn side(self) -> Side {
        if self.kind.left_works() { Side::Right } else { Side::Left }
    }
}

/// Where a run with a number stands, and whether its number is computed.
#[derive(Debug, Clone, Copy)]
pub(super) struct CountedRun {
    pub(super) span: Span,
    pub(super) is_computed: bool,
}

impl CountedRun {
    fn of(run: &Run) -> Self {
        let is_computed = !matches!(run.extent, Extent::Count { count: Expr::Number(_), .. });
        Self { span: run.span, is_computed }
    }
}

pub(crate) fn kind_of(kind: KnotKind) -> Kind {
    match kind {
        KnotKind::Forward => Kind::Forward,
        KnotKind::Backward => Kind::Backward,
        KnotKind::ForwardBackward => Kind::ForwardBackward,
        KnotKind::BackwardForward => Kind::BackwardForward,
    }
}

impl<'a> Tie<'a> {
    /// Ties a run; `series` is the number of the present pass. Where the strand hangs then.
    pub(super) fn run(&mut self, run: &'a Run, hand: Hand, series: Option<i64>) -> Done<usize> {
        match &run.extent {
            Extent::Count { count, over } => {
                let value = self.number(count)?;
                let over = over.as_ref().map(|over| self.thread(over));
                self.counted_run(CountedRun::of(run), hand, value, over)
            }
            Extent::Series(_) => self.counted_run(CountedRun::of(run), hand, series.unwrap_or(0), None),
            _ if !hand.kind.swaps() => Err(Halt::Lost),
            Extent::Over(name) => {
                let thread = self.deciding_thread(name)?;
                let count = self.ahead(hand).take_while(|&found| found == thread).count();
                let (kind, edge) = self.towards(hand);
                self.study_read_ahead(thread, hand, count + 1, Act::Over { kind, thread, edge });
                if count == 0 {
                    self.nothing_to_tie(run.span, hand, "over", thread);
                }
                self.tie(hand, count)
            }
            Extent::Until(name) => {
                let thread = self.deciding_thread(name)?;
                self.until(run.span, hand, thread)
            }
            Extent::To(goal) => {
                let target = self.target(goal)?;
                self.to(goal.span, hand, target)
            }
        }
    }

    /// The threads of the strands that the hand would tie over, the next one first.
    pub(super) fn ahead(&self, hand: Hand) -> impl Iterator<Item = ThreadId> + '_ {
        let right = self.frame.is_right(hand.side());
        let beyond = self.frame.beyond(hand.at, right);
        (1..=beyond).map(move |step| self.thread_at(if right { hand.at + step } else { hand.at - step }))
    }

    pub(super) fn counted_run(
        &mut self,
        run: CountedRun,
        hand: Hand,
        value: i64,
        over: Option<ThreadId>,
    ) -> Done<usize> {
        let Ok(wanted) = u64::try_from(value) else {
            self.say(run.span, FactKind::NegativeCount { value });
            return Ok(hand.at);
        };
        let beyond = self.frame.beyond(hand.at, self.frame.is_right(hand.side())).to_u64();
        let tied = match hand.kind.swaps() {
            true => wanted.min(beyond),
            false if beyond == 0 => 0,
            false => wanted,
        };
        if let Some(over) = over {
            self.bases(run.span, hand, over, tied.to_usize());
        }
        self.study_count(hand, wanted, over);
        let at = self.tie(hand, tied.to_usize())?;
        if tied < wanted {
            let CountedRun { span, is_computed } = run;
            self.say(span, FactKind::PastEdge { wanted, tied, side: hand.side(), is_computed });
        }
        Ok(at)
    }

    /// Every base strand must be of the promised thread.
    fn bases(&mut self, span: Span, hand: Hand, over: ThreadId, tied: usize) {
        let tied = if hand.kind.swaps() { tied } else { tied.min(1) };
        self.study_bases(hand, over, tied);
        let Some(nth) = self.ahead(hand).take(tied).position(|found| !keeps(over, found)) else { return };
        if !self.is_to_be_said() {
            return;
        }
        let found = self.sight_ahead(hand, nth + 1);
        let promised = self.script.thread_name(over);
        self.say(span, FactKind::BaseIsOther { promised, found, nth: nth.to_u64() + 1 });
    }

    fn sight_ahead(&mut self, hand: Hand, step: usize) -> crate::Sighting {
        self.sight(self.ahead_of(hand, step))
    }

    /// The position of the strand that the hand ties over with its knot of that number.
    pub(super) fn ahead_of(&self, hand: Hand, step: usize) -> usize {
        if self.frame.is_right(hand.side()) { hand.at + step } else { hand.at - step }
    }

    fn nothing_to_tie(&mut self, span: Span, hand: Hand, word: &'static str, thread: ThreadId) {
        let is_one_there = self.ahead(hand).next().is_some();
        let found = is_one_there.then(|| self.sight_ahead(hand, 1));
        let thread = self.script.thread_name(thread);
        self.say(span, FactKind::NothingToTie { word, thread, found });
    }

    fn until(&mut self, span: Span, hand: Hand, thread: ThreadId) -> Done<usize> {
        let (beyond, stop) = (self.ahead(hand).count(), self.ahead(hand).position(|found| found == thread));
        let count = stop.unwrap_or(beyond);
        let (kind, edge) = self.towards(hand);
        self.study_read_ahead(thread, hand, count + 1, Act::Until { kind, thread, edge });
        if count == 0 {
            self.nothing_to_tie(span, hand, "until", thread);
        } else if stop.is_none() {
            self.say(span, FactKind::UntilNever { thread: self.script.thread_name(thread) });
        }
        self.tie(hand, count)
    }

    fn to(&mut self, span: Span, hand: Hand, target: Target) -> Done<usize> {
        let at = self.frame.local(hand.at);
        let onward = hand.side() == Side::Right;
        let goal = match target {
            Target::Local(goal) => goal,
            Target::Edge if onward => self.frame.width(),
            Target::Edge => 1,
        };
        let (kind, position) = (self.towards(hand).0, self.frame.position(goal).to_u8());
        self.study_act(Act::To { kind, position });
        if (onward && goal < at) || (!onward && goal > at) {
            self.say(span, FactKind::WrongWay { at, goal });
            return Ok(hand.at);
        }
        self.tie(hand, goal.abs_diff(at))
    }

    /// Ties `count` knots, all of which fit. Where the strand hangs then.
    fn tie(&mut self, hand: Hand, count: usize) -> Done<usize> {
        self.afford(count)?;
        let (kind, at) = (self.towards(hand).0, hand.at);
        if count > 0 {
            let gap = if kind.left_works() { at } else { at - 1 };
            let tied = self.strands.tie_run(gap.to_u8(), kind, count);
            debug_assert!(tied.is_some(), "only what fits is tied");
        }
        let end = match kind {
            Kind::Forward => at + count,
            Kind::Backward => at - count,
            Kind::ForwardBackward | Kind::BackwardForward => at,
        };
        self.log.run(kind, count, self.strands.knots().len());
        Ok(end)
    }
}
