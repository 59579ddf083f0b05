//! Edits of which it is known what comes of them without tying the text again: those that only put in another order what is
//! tied anyway, tie it twice, in a mirror, or not at all; and those of one word of a `take`.

use super::candidates::Candidate;
use super::edits::{EditSearch, HungStrands, TiedEdit};
use crate::tie::{
    Change, Copied, CopiedBut, KnownStretch, Moment, PartStudy, Passing, Replay, Reworded, StatementEdit,
    Stuck,
};
use knotwright_grammar::tree::Take;

impl EditSearch {
    /// A statement tied with an edit of it, if what comes of that is known: from a moment that is the statement's own, or that of
    /// the one above it if they change places; its own is at `time`. An error if something is wrong then.
    pub(crate) fn tied_again(
        &mut self,
        candidate: usize,
        take: Option<&Take>,
        from: Moment,
        time: u32,
    ) -> Option<Result<TiedEdit, ()>> {
        let Candidate { overlay, statement, .. } = self.candidates[candidate];
        let part = &self.studied.parts[self.part];
        if !part.rests_on_colors() || part.threads.len() != part.width {
            return None;
        }
        let own = passing_at(part, statement, time).filter(|own| own.until < u32::MAX)?;
        let tied = self.keeps_knots().then(Vec::new);
        let mut replay = Replay { tied, ..Replay::of(part, self.again.looks) };
        let colors = || self.renamed(candidate).colors(from.order, &part.threads);
        let (came, colors) = match (overlay.change, take) {
            (Change::Statement(edit), _) => {
                let stretches = stretches(part, edit, &from, own)?;
                let mut colors = colors();
                (replay.tie_all(&mut colors, stretches), colors)
            }
            (Change::Number(_) | Change::Kind(_) | Change::Side | Change::Thread(_), Some(take)) => {
                let mut colors = colors();
                (replay.tie_reworded(&mut colors, own, Reworded { take, overlay: &overlay }), colors)
            }
            _ => return None,
        };
        self.work += self.again.looks - replay.left;
        self.again.looks = replay.left;
        match came {
            Ok(count) => Some(Ok(TiedEdit {
                candidate,
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

/// What is tied with an edit instead of its statement, as far as that is known. `own`: the statement as it is begun.
fn stretches(
    part: &PartStudy,
    edit: StatementEdit,
    from: &Moment,
    own: &Passing,
) -> Option<Vec<KnownStretch>> {
    let whole = KnownStretch::of(own)?;
    let turned = KnownStretch { mirrored: true, ..whole.clone() };
    Some(match edit {
        StatementEdit::LeftOut => Vec::new(),
        StatementEdit::Doubled => vec![whole.clone(), whole],
        StatementEdit::Both => vec![whole, turned],
        StatementEdit::Mirrored => vec![turned],
        StatementEdit::Swapped => {
            let above = KnownStretch { time: from.time..own.time, ..whole.clone() };
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

/// The statement that starts there, as it is begun at that time.
fn passing_at(part: &PartStudy, start: u32, time: u32) -> Option<&Passing> {
    let passes = part.begun.get(&start)?;
    passes.get(passes.partition_point(|begun| begun.time < time)).filter(|begun| begun.time == time)
}
