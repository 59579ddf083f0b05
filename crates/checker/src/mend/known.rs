//! Edits of which it is known what comes of them without tying the text again: those that only put in another order what is
//! tied anyway, tie it twice, in a mirror, or not at all; and those of one word of a `take`.

use super::again::MOST_LOOKS;
use super::candidates::Candidate;
use super::edits::{EditSearch, HungStrands, OtherKnots, PartKnots, TiedEdit};
use super::renaming::Renamed;
use crate::Source;
use crate::resolve::ThreadId;
use crate::tie::{
    Change, Copied, CopiedBut, KnownStretch, Moment, Overlay, PartStudy, Passing, Replay, Reworded,
    StatementEdit, Stuck, Studied, hanging_at,
};
use knotwright_grammar::tree::Take;
use knotwright_numbers::ToNumber;

impl EditSearch {
    /// A statement tied with an edit of it, if what comes of that is known: from a moment that is the statement's own, or that of
    /// the one above it if they change places; its own is at `time`. An error if something is wrong then, or
    /// will be before it comes again.
    pub(crate) fn tied_again(
        &mut self,
        candidate: usize,
        take: Option<&Take>,
        from: Moment,
        time: u32,
    ) -> Option<Result<TiedEdit, ()>> {
        let Candidate { overlay, statement, from_above, .. } = self.candidates[candidate];
        let part = known(&self.studied.parts[self.part])?;
        let (own, next) = passing_at(part, statement, time)?;
        let edited = EditedPass::of(part, Edit { overlay: &overlay, take }, own, from.time)?;
        let tied = self.keeps_knots().then(Vec::new);
        let mut replay = Replay { tied, ..Replay::of(part, self.again.looks) };
        let mut colors = self.renamed(candidate).colors(from.order, &part.threads);
        let came = edited.tie(&mut replay, &mut colors);
        self.work += self.again.looks - replay.left;
        self.again.looks = replay.left;
        // If the statement above is edited as well, it is edited again before it comes again.
        let is_told = part.is_told_by_colors() && !from_above && !part.echoes.comes_again(statement);
        let may_hold = || part.may_hold(own.until, hanging_at(own.until, &colors), next);
        match came {
            Ok(_) if is_told && !may_hold() => Some(Err(())),
            Ok(count) => Some(Ok(TiedEdit {
                candidate,
                from_above,
                hung: HungStrands::Colors(colors),
                before: from.knots,
                count,
                knots: replay.tied,
            })),
            Err(Stuck::Wrong { .. }) => Some(Err(())),
            Err(Stuck::Unknown) => None,
        }
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
    let mut replay = Replay { tied: Some(Vec::new()), ..Replay::of(part, MOST_LOOKS) };
    let mut since = begun.time;
    for own in passes {
        let edited = EditedPass::of(part, Edit { overlay, take }, own, own.time)?;
        replay.tie(&mut colors, since..own.time).ok()?;
        edited.tie(&mut replay, &mut colors).ok()?;
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
    Stretches(Vec<KnownStretch>),
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
    fn tie(self, replay: &mut Replay, colors: &mut [ThreadId]) -> Result<u64, Stuck> {
        match self {
            Self::Stretches(stretches) => replay.tie_all(colors, stretches),
            Self::Reworded(own, read) => replay.tie_reworded(colors, own, read),
        }
    }
}

/// The stretches that are tied with an edit of a whole statement. `own`: the statement as it is begun.
fn stretches(part: &PartStudy, edit: StatementEdit, from: u32, own: &Passing) -> Option<Vec<KnownStretch>> {
    let whole = KnownStretch::of(own)?;
    let turned = KnownStretch { mirrored: true, ..whole.clone() };
    Some(match edit {
        StatementEdit::LeftOut => Vec::new(),
        StatementEdit::Doubled => vec![whole.clone(), whole],
        StatementEdit::Both => vec![whole, turned],
        StatementEdit::Mirrored => vec![turned],
        StatementEdit::Swapped => {
            let above = KnownStretch { time: from..own.time, ..whole.clone() };
            vec![whole, above]
        }
        StatementEdit::CopyBefore(copied) => vec![copy(part, own, copied)?, whole],
        StatementEdit::CopyAfter(copied) => vec![whole, copy(part, own, copied)?],
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

/// The statement that starts there, as it is begun at that time; and when it is begun next, or the part ends.
fn passing_at(part: &PartStudy, start: u32, time: u32) -> Option<(&Passing, u32)> {
    let passes = part.begun.get(&start)?;
    let at = passes.partition_point(|begun| begun.time < time);
    let next = passes.get(at + 1).map_or(part.end, |next| next.time);
    Some((passes.get(at).filter(|begun| begun.time == time)?, next))
}
