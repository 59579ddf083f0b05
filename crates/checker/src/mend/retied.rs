//! The band that an edit makes, where no step asks for a color: all knots but those around the edit lie as they did. So only what
//! stands around it is tied again.

use super::candidates::{Candidate, What};
use super::search::Goal;
use crate::tie::{HangingStrands, Mark, StretchRange, Studied, Tied, block_of, picks_by_color, tie_stretch};
use crate::{Part, PartKind, Pattern};
use knotwright_numbers::ToNumber;

/// A pattern as it is tied, with the marks on the way.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TiedBand<'a> {
    pub(crate) pattern: &'a Pattern,
    /// By part.
    pub(crate) marks: &'a [Vec<Mark>; 3],
}

impl TiedBand<'_> {
    /// The band with an edit after which every promise holds. `None` if something else may be tied otherwise, too.
    pub(super) fn with(&self, goal: &Goal, studied: &Studied, candidate: &Candidate) -> Option<Tied> {
        let script = goal.script;
        let parts = PartKind::ALL.map(|kind| self.pattern.part(kind));
        let is_plain = |part: &&Part| !part.piece.is_rehung() && part.joins.is_empty();
        if studied.reads_strands() || !studied.is_as_tied() || !parts.iter().flatten().all(is_plain) {
            return None;
        }
        let span = match candidate.what {
            What::Statement { above: Some(above) } => above.to(candidate.overlay.place.span),
            _ => candidate.overlay.place.span,
        };
        let which = PartKind::ALL.into_iter().find(|&which| {
            let block = block_of(script, which);
            block.is_some_and(|block| {
                block.open.end <= span.start && block.close.is_some_and(|close| span.end <= close.start)
            })
        })?;
        let marks = &self.marks[which as usize];
        let end = marks.len().checked_sub(1)?;
        let from = marks[..end].iter().rfind(|mark| mark.names == 0 && mark.start <= span.start)?;
        let is_after = |mark: &&Mark| mark.names == 0 && mark.start >= span.end;
        let to = marks[..end].iter().find(is_after).unwrap_or(&marks[end]);
        let threads = studied.parts[which as usize].threads.clone();
        let range = StretchRange {
            statements: from.statement..to.statement,
            overlay: Some(candidate.overlay),
            given_up: goal.given_up,
        };
        let stretch = tie_stretch(script, which, HangingStrands { threads, order: &from.order }, range)?;
        let mut parts = parts.map(Option::<&Part>::cloned);
        parts[which as usize].as_mut()?.exchange(from.tied..to.tied, &to.order, stretch.part);
        let knots = parts.iter().flatten().map(|part| part.piece.knots().len().to_u64()).sum();
        let [opening, set, closing] = parts;
        let strands = script.head.strands.clone()?;
        let begins =
            opening.as_ref().map_or(strands.clone(), |opening| opening.piece.threads_after(&strands));
        let closes = set.as_ref().map(|set| set.piece.threads_after(&begins) == begins);
        Some(Tied {
            opening,
            set,
            closing,
            closes: closes.filter(|_| goal.closes.is_some()),
            picks_by_color: picks_by_color(&stretch.marks),
            whole: true,
            knots,
            ..Tied::default()
        })
    }
}
