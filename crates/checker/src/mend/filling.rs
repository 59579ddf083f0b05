//! What comes of a step that is put in to fill a hole, as far as it is known without tying the text.

use super::candidates::Candidate;
use super::edits::{KnownKnots, PartKnots};
use super::follower::{FollowedEdit, Follower};
use super::renaming::Outlook;
use super::splice::{added, added_knots, passes_of};
use super::trial::{Choice, SiftedChoice};
use crate::tie::{Studied, keeps};
use knotwright_numbers::ToNumber;

/// Sifts steps that are put in where nothing is wrong.
pub(super) struct FillingSieve<'s> {
    studied: &'s Studied,
    /// Who follows edits through the only part; `None` if there are more.
    follower: Option<Follower<'s>>,
}

/// What is known of a step that is put in.
enum Filled {
    Fails,
    Holds(SiftedChoice),
    Unsure,
}

impl<'s> FillingSieve<'s> {
    pub(super) fn of(studied: &'s Studied) -> Self {
        let mut parts = studied.parts.iter().filter(|part| !part.threads.is_empty());
        let only = parts.next().filter(|part| parts.next().is_none() && part.rests_on_colors());
        Self { studied, follower: only.map(Follower::new) }
    }

    /// Whether it is mostly said for sure whether all holds.
    pub(super) fn is_sure(&self) -> bool {
        self.follower.is_some()
    }

    /// `None` if something is wrong then.
    pub(super) fn sift(&mut self, candidate: Candidate) -> Option<SiftedChoice> {
        match self.fill(&candidate).unwrap_or(Filled::Unsure) {
            Filled::Fails => None,
            Filled::Holds(sifted) => Some(sifted),
            Filled::Unsure => Some(SiftedChoice::unsure(Choice::Step(candidate))),
        }
    }

    fn fill(&mut self, candidate: &Candidate) -> Option<Filled> {
        let follower = self.follower.as_mut()?;
        let (step, is_after) = added(candidate)?;
        let PartKnots { part, others } = added_knots(candidate, self.studied)?;
        let part = &self.studied.parts[part];
        let passes = passes_of(part, candidate, is_after)?;
        let mut edit = FollowedEdit::default();
        for (number, (pass, own)) in passes.iter().zip(&others).enumerate() {
            let order = part.order(pass)?;
            let mut colors = edit.renamed.colors(order, &part.threads);
            for &(gap, kind) in &own.knots {
                let gap = usize::from(gap);
                if step.meets && !keeps(colors[gap], colors[gap + 1]) {
                    return Some(Filled::Fails);
                }
                if kind.swaps() {
                    colors.swap(gap, gap + 1);
                }
            }
            edit.renamed.put(&colors, order, &part.threads);
            let until = match passes.get(number + 1) {
                Some(next) => part.moment(next)?,
                None => part.after_all(part.end),
            };
            match follower.follow(&mut edit, pass.time, until) {
                Outlook::Fails => return Some(Filled::Fails),
                Outlook::Unsure => return Some(Filled::Unsure),
                Outlook::Holds => {}
            }
        }
        let closes = follower.follow(&mut edit, part.end, part.after_all(u32::MAX)) == Outlook::Holds;
        let own: u64 = others.iter().map(|own| own.knots.len().to_u64()).sum();
        let knots = (part.knots + own).saturating_add_signed(edit.more);
        let known = if edit.is_same { KnownKnots::Added } else { KnownKnots::None };
        let unsure = SiftedChoice::unsure(Choice::Step(*candidate));
        Some(Filled::Holds(SiftedChoice { closes, knots: Some(knots), known, ..unsure }))
    }
}
