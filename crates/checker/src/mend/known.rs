//! Edits of which it is known what comes of them without tying the text again: those that only put in another order what is
//! tied anyway, tie it twice, in a mirror, or not at all; and those of one word of a `take`.

use super::again::MOST_LOOKS;
use super::candidates::Candidate;
use super::edits::{EditSearch, HungStrands, OtherKnots, PartKnots, TiedEdit};
use super::renaming::Renamed;
use crate::Source;
use crate::resolve::ThreadId;
use crate::tie::{
    Change, Copied, CopiedBut, FEW_KNOTS, KnownStretch, KnownTurns, Moment, Overlay, PartStudy, Passing,
    Replay, Reworded, StatementEdit, Stuck, Studied, hanging_at,
};
use knotwright_grammar::tree::Take;
use knotwright_numbers::ToNumber;
use std::rc::Rc;

/// A statement as it is begun once, for those who ask what comes of its edits.
#[derive(Debug, Clone, Copy)]
pub(crate) struct KnownPass<'b> {
    /// The statement, if it is one.
    take: Option<&'b Take>,
    own: Passing,
    /// When it is begun next, or the part ends.
    next: u32,
    /// Whether it is asked how the colors must hang after it.
    is_told: bool,
}

impl KnownPass<'_> {
    pub(crate) fn own(&self) -> &Passing {
        &self.own
    }
}

impl EditSearch {
    /// The statement that starts there, as it is begun at that time; `None` if only a tie of the text shows what comes of its
    /// edits.
    pub(crate) fn known_pass<'b>(
        &self,
        start: u32,
        take: Option<&'b Take>,
        time: u32,
    ) -> Option<KnownPass<'b>> {
        let part = known(&self.studied.parts[self.part])?;
        let passes = part.begun.get(&start)?;
        let at = passes.partition_point(|begun| begun.time < time);
        let own = *passes.get(at).filter(|begun| begun.time == time && begun.until < u32::MAX)?;
        let next = passes.get(at + 1).map_or(part.end, |next| next.time);
        let is_told = part.is_told_by_colors() && !part.echoes.comes_again(start);
        Some(KnownPass { take, own, next, is_told })
    }

    /// A statement tied with an edit of it, if what comes of that is known: from a moment that is the statement's own, or that of
    /// the one above it if they change places. An error if something is wrong then, or will be before it comes again.
    pub(crate) fn tied_again(
        &mut self,
        candidate: usize,
        KnownPass { take, own, next, is_told }: KnownPass,
        from: Moment,
    ) -> Option<Result<TiedEdit, ()>> {
        let studied = Rc::clone(&self.studied);
        let part = &studied.parts[self.part];
        let Candidate { overlay, from_above, .. } = self.candidates[candidate];
        let edited = EditedPass::of(part, Edit { overlay: &overlay, take }, &own, from.time)?;
        let tied = self.keeps_knots().then(|| Vec::with_capacity(FEW_KNOTS));
        let mut replay = Replay { tied, ..Replay::of(part, self.again.looks) };
        let mut colors = self.colors_before(candidate, from);
        let came = edited.tie(&mut replay, &mut colors, &mut self.turns);
        self.work += self.again.looks - replay.left;
        self.again.looks = replay.left;
        // If the statement above is edited as well, it is edited again before it comes again.
        let is_told = is_told && !from_above;
        let may_hold = || !is_told || part.may_hold(own.until, hanging_at(own.until, &colors), next);
        let tied = match came {
            Ok(count) if may_hold() => Some(Ok(TiedEdit {
                candidate,
                from_above,
                hung: HungStrands::Colors(colors.clone()),
                before: from.knots,
                count,
                knots: replay.tied,
            })),
            Ok(_) | Err(Stuck::Wrong { .. }) => Some(Err(())),
            Err(Stuck::Unknown) => None,
        };
        self.colors.now = colors;
        tied
    }

    /// How the colors hang before a statement that is tied with an edit. Most edits are tried where none was tied before.
    fn colors_before(&mut self, candidate: usize, from: Moment) -> Vec<ThreadId> {
        let HangingColors { now, raw, time } = &mut self.colors;
        let renamed = self.tried.renamed(self.states[candidate].place());
        let threads = &self.studied.parts[self.part].threads;
        if !renamed.places().is_empty() {
            renamed.put_colors(from.order, threads, now);
        } else {
            if *time != Some(from.time) {
                renamed.put_colors(from.order, threads, raw);
                *time = Some(from.time);
            }
            now.clone_from(raw);
        }
        std::mem::take(now)
    }
}

/// Colors by position, kept as room for the next ones.
#[derive(Debug, Default)]
pub(super) struct HangingColors {
    /// With an edit.
    now: Vec<ThreadId>,
    /// Without any, and at which time.
    raw: Vec<ThreadId>,
    time: Option<u32>,
}

impl HangingColors {
    /// Another part begins, with times of its own.
    pub(super) fn begin(&mut self) {
        self.time = None;
    }
}

/// The knots that are tied with an edit after which nothing is wrong, from where its statement is begun first up to the end of
/// its part; `None` if only a tie of the text shows them.
pub(super) fn knots_with(candidate: &Candidate, studied: &Studied, source: &Source) -> Option<PartKnots> {
    let Candidate { overlay, statement, from_above, .. } = candidate;
    let mut parts = studied.parts.iter().enumerate().filter(|(_, part)| part.begun.contains_key(statement));
    let (number, part) = parts.next().filter(|_| parts.next().is_none() && !from_above)?;
    let (part, passes) = (known(part)?, part.begun.get(statement)?);
    let take = source.parsed.tree.statement_at(*statement)?.get::<Take>();
    let begun = part.moment(passes.first()?)?;
    let mut colors = Renamed::default().colors(begun.order, &part.threads);
    let mut replay =
        Replay { tied: Some(Vec::with_capacity(part.knots.to_usize())), ..Replay::of(part, MOST_LOOKS) };
    let (mut since, mut turns) = (begun.time, KnownTurns::default());
    for own in passes {
        let edited = EditedPass::of(part, Edit { overlay, take }, own, own.time)?;
        replay.tie(&mut colors, since..own.time).ok()?;
        edited.tie(&mut replay, &mut colors, &mut turns).ok()?;
        since = own.until;
    }
    replay.tie(&mut colors, since..part.end).ok()?;
    let instead_of = begun.knots.to_usize()..part.knots.to_usize();
    Some(PartKnots { part: number, others: vec![OtherKnots { instead_of, knots: replay.tied? }] })
}

/// A part of which acts say all.
fn known(part: &PartStudy) -> Option<&PartStudy> {
    Some(part).filter(|part| !part.has_labels() && part.threads.len() == part.width)
}

/// An edit, and its statement if that is a `take`.
#[derive(Clone, Copy)]
struct Edit<'e> {
    overlay: &'e Overlay,
    take: Option<&'e Take>,
}

/// What is tied with an edit instead of its statement, as that is begun once.
enum EditedPass<'e> {
    Stretches([Option<KnownStretch>; 2]),
    Reworded(&'e Passing, Reworded<'e>),
}

impl<'e> EditedPass<'e> {
    /// `from`: when the statement is begun, or the one above it if they change places. `None` if it is not known.
    fn of(part: &PartStudy, Edit { overlay, take }: Edit<'e>, own: &'e Passing, from: u32) -> Option<Self> {
        if own.until == u32::MAX {
            return None;
        }
        Some(match (overlay.change, take) {
            (Change::Statement(edit), _) => Self::Stretches(stretches(part, edit, from, own)?),
            (Change::Number(_) | Change::Kind(_) | Change::Side | Change::Thread(_), Some(take)) => {
                Self::Reworded(own, Reworded { take, overlay })
            }
            _ => return None,
        })
    }

    /// How many knots it takes.
    fn tie(self, replay: &mut Replay, colors: &mut [ThreadId], turns: &mut KnownTurns) -> Result<u64, Stuck> {
        match self {
            Self::Stretches(stretches) => replay.tie_all(colors, stretches.into_iter().flatten(), turns),
            Self::Reworded(own, read) => replay.tie_reworded(colors, own, read),
        }
    }
}

/// The stretches that are tied with an edit of a whole statement, two at most. `own`: the statement as it is begun.
fn stretches(
    part: &PartStudy,
    edit: StatementEdit,
    from: u32,
    own: &Passing,
) -> Option<[Option<KnownStretch>; 2]> {
    let whole = KnownStretch::of(own)?;
    let turned = KnownStretch { mirrored: true, ..whole.clone() };
    Some(match edit {
        StatementEdit::LeftOut => [None, None],
        StatementEdit::Doubled => [Some(whole.clone()), Some(whole)],
        StatementEdit::Both => [Some(whole), Some(turned)],
        StatementEdit::Mirrored => [Some(turned), None],
        StatementEdit::Swapped => {
            let above = KnownStretch { time: from..own.time, ..whole.clone() };
            [Some(whole), Some(above)]
        }
        StatementEdit::CopyBefore(copied) => [Some(copy(part, own, copied)?), Some(whole)],
        StatementEdit::CopyAfter(copied) => [Some(whole), Some(copy(part, own, copied)?)],
        StatementEdit::Plain | StatementEdit::Before(_) | StatementEdit::After(_) => return None,
    })
}

/// A statement that is tied elsewhere in the same range. What it knows by names may be something else there.
fn copy(part: &PartStudy, own: &Passing, Copied { start, but }: Copied) -> Option<KnownStretch> {
    let mirrored = match but {
        CopiedBut::Same => false,
        CopiedBut::Mirrored => true,
        CopiedBut::Argument(..) => return None,
    };
    let is_alike = |begun: &&Passing| {
        (begun.within, begun.mirrored) == (own.within, own.mirrored) && !begun.knows_names && !own.knows_names
    };
    let known = part.begun.get(&start)?.iter().find(is_alike)?;
    Some(KnownStretch { mirrored, ..KnownStretch::of(known)? })
}
