//! One step as it was tied: who works, how the strands hang before and after, what each run came to.

use crate::Checked;
use crate::hang::{follow, list, thread_name};
use crate::moments::TiedMoment;
use knotwright_band::{Kind, Knot};
use knotwright_checker::{Named, Part, PartKind, Pattern, Step};
use knotwright_grammar::tree::{Expr, Extent, KnotKind, Run, StrandBy, Take};
use knotwright_numbers::ToNumber;

/// A step and the strands around it.
pub(crate) struct TiedStep<'c> {
    pub(crate) pattern: &'c Pattern,
    pub(crate) which: PartKind,
    pub(crate) part: &'c Part,
    pub(crate) step: &'c Step,
    /// Its number in the part.
    pub(crate) number: usize,
    /// By position, the strand there, before and after.
    pub(crate) before: Vec<u8>,
    pub(crate) after: Vec<u8>,
    /// By strand, its thread.
    pub(crate) threads: Vec<u16>,
}

impl<'c> TiedStep<'c> {
    /// The first step of a moment.
    pub(crate) fn of(checked: &'c Checked, moment: &TiedMoment) -> Option<Self> {
        let pattern = checked.pattern()?;
        let part = checked.part(moment.part)?;
        let step = part.steps.get(moment.step.to_usize())?;
        let before = checked.order(moment.part, step.knots.start);
        let mut after = before.clone();
        let tied = Self {
            pattern,
            which: moment.part,
            part,
            step,
            number: moment.step.to_usize(),
            before,
            after: Vec::new(),
            threads: checked.threads_at(moment.part, part, step.knots.start),
        };
        tied.knots().iter().for_each(|knot| follow(&mut after, knot));
        Some(Self { after, ..tied })
    }

    /// Its knots.
    pub(crate) fn knots(&self) -> &'c [Knot] {
        self.part.knots_of(self.step)
    }

    /// The thread of a strand.
    pub(crate) fn name(&self, strand: u8) -> &'c str {
        let thread = self.threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
        thread_name(self.pattern, thread)
    }

    /// The strand in hand.
    pub(crate) fn hand(&self) -> Option<u8> {
        self.before.get(usize::from(self.step.from)).copied()
    }

    /// Where the strand in hand hangs afterwards, from 0.
    pub(crate) fn goal(&self) -> Option<usize> {
        let hand = self.hand()?;
        self.after.iter().position(|&strand| strand == hand)
    }

    /// The strands of an order, as a list of the notation.
    pub(crate) fn list(&self, order: &[u8]) -> String {
        list(&self.names(order))
    }

    /// The threads of an order.
    pub(crate) fn names(&self, order: &[u8]) -> Vec<&'c str> {
        order.iter().map(|&strand| self.name(strand)).collect()
    }
}

/// The runs of a `take` that were tied as one step: its first runs, or those of a `then`.
pub(crate) fn runs_of(take: &Take, start: u32) -> &[Run] {
    let then = take.thens.iter().find(|then| then.word.start == start);
    then.map_or(&take.runs, |then| &then.runs)
}

/// The kinds of those runs as written; a bare extent after `then` keeps the kind before it.
pub(crate) fn kinds(take: &Take, start: u32) -> Vec<Kind> {
    let wanted = take.thens.iter().position(|then| then.word.start == start).map_or(0, |then| then + 1);
    let mut kind = Kind::Forward;
    let mut kinds_of = |runs: &[Run]| -> Vec<Kind> {
        let next = |run: &Run| {
            kind = run.kind.map_or(kind, |(kind, _)| kind_of(kind));
            kind
        };
        runs.iter().map(next).collect()
    };
    let phases = std::iter::once(&take.runs).chain(take.thens.iter().map(|then| &then.runs));
    phases.take(wanted + 1).map(|runs| kinds_of(runs)).last().unwrap_or_default()
}

pub(crate) fn kind_of(kind: KnotKind) -> Kind {
    match kind {
        KnotKind::Forward => Kind::Forward,
        KnotKind::Backward => Kind::Backward,
        KnotKind::ForwardBackward => Kind::ForwardBackward,
        KnotKind::BackwardForward => Kind::BackwardForward,
    }
}

/// The kind as a pattern writes it.
pub(crate) fn kind_word(kind: Kind) -> &'static str {
    match kind {
        Kind::Forward => "forward",
        Kind::Backward => "backward",
        Kind::ForwardBackward => "forward-backward",
        Kind::BackwardForward => "backward-forward",
    }
}

/// How many knots each of the runs of a step came to; `None` where that cannot be told apart from its neighbors.
pub(crate) fn came_to(tied: &TiedStep, take: &Take, start: u32) -> Vec<Option<usize>> {
    let (knots, runs, kinds) = (tied.knots(), runs_of(take, start), kinds(take, start));
    let mirrored = is_mirrored(tied, take, &kinds);
    let mut at = 0;
    let mut known = true;
    let mut counts = Vec::with_capacity(runs.len());
    for (number, (run, kind)) in runs.iter().zip(&kinds).enumerate() {
        let kind = if mirrored { kind.mirrored() } else { *kind };
        let alike = knots[at..].iter().take_while(|knot| knot.kind == kind).count();
        let next_differs = kinds.get(number + 1).is_none_or(|next| *next != kinds[number]);
        let count =
            if next_differs && known { Some(alike) } else { written(tied, run, &knots[at..at + alike]) };
        known &= count.is_some();
        counts.push(count.filter(|_| known));
        at += count.unwrap_or(0).min(alike);
    }
    counts
}

/// Whether a step was tied in a mirror.
pub(crate) fn is_mirrored(tied: &TiedStep, take: &Take, kinds: &[Kind]) -> bool {
    let before = tied.part.steps.get(..=tied.number).unwrap_or_default();
    // A `then` is mirrored if its `take` is.
    let first = before.iter().rev().find(|step| step.named != Named::Then).unwrap_or(tied.step);
    let middle = usize::from(first.within.0) + usize::from(first.within.1);
    let right_of_middle = 2 * usize::from(first.from) > middle;
    match (&take.strand.by, first.named) {
        (StrandBy::Left(_), named) => named == Named::FromRight,
        (StrandBy::Right(_), named) => named == Named::FromLeft,
        (StrandBy::CenterLeft, _) => right_of_middle,
        (StrandBy::CenterRight, _) => !right_of_middle,
        _ => !fits(tied.knots(), kinds),
    }
}

/// Whether knots of those kinds, in that order and some perhaps none, can have made `knots`.
fn fits(knots: &[Knot], kinds: &[Kind]) -> bool {
    let mut kinds = kinds.iter();
    knots.chunk_by(|one, other| one.kind == other.kind).all(|run| kinds.any(|kind| *kind == run[0].kind))
}

/// The knots of a run that says itself where it ends.
fn written(tied: &TiedStep, run: &Run, knots: &[Knot]) -> Option<usize> {
    let is = |knot: &&Knot, name: &str| tied.name(knot.base) == name;
    match &run.extent {
        Extent::Count { count: Expr::Number(number), .. } => {
            Some(usize::try_from(number.value).map_or(knots.len(), |count| count.min(knots.len())))
        }
        Extent::Over(name) => Some(knots.iter().take_while(|knot| is(knot, &name.text)).count()),
        Extent::Until(name) => Some(knots.iter().take_while(|knot| !is(knot, &name.text)).count()),
        _ => None,
    }
}
