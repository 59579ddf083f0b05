//! Whether an edit fills a hole, found from its knots alone: most do not, and are not looked at any further.

use super::lie::{KnotsLie, lie_of, torn_after};
use super::search::Goal;
use super::shape::Blemishes;
use super::trial::{Look, Pieces};
use crate::contents::Contents;
use crate::woven::{Sound, Woven};
use crate::{Checked, PartKind, Pattern, Place, finders, rules};
use knotwright_band::Hole;
use rustc_hash::FxHashMap as HashMap;
use std::cell::OnceCell;

/// The band with its holes.
pub(super) struct Torn<'a> {
    goal: Goal<'a>,
    pattern: &'a Pattern,
    /// How many holes are reported.
    pub(super) reported: usize,
    /// How many warnings there are, once somebody has asked.
    warnings: OnceCell<usize>,
    /// With how many holes an edit fills one.
    most: usize,
    /// By how the knots lie, whether there are no more.
    known: HashMap<u64, bool>,
}

impl<'a> Torn<'a> {
    /// Of the pattern without an edit. `None` if something is wrong with it.
    pub(super) fn of(goal: Goal<'a>, pattern: &'a Pattern) -> Option<Self> {
        let (warnings, known) = (OnceCell::new(), HashMap::default());
        let mut torn = Self { goal, pattern, reported: 0, warnings, most: 0, known };
        torn.reported = finders::find_holes(&Sound::of(&torn.checked(goal.closes))?).len();
        // Of several holes one may be reported, as one step closes them: then none must be left, or it still is.
        if torn.reported > 1 {
            torn.most = torn.count(&torn.pieces())?.saturating_sub(1);
        }
        torn.known.insert(lie_of(&torn.pieces()), false);
        Some(torn)
    }

    /// Whether there are more warnings than that.
    pub(super) fn warns_more(&self, warnings: usize) -> bool {
        let count = || {
            let contents = Contents::of(self.goal.script.source());
            let look = Look::of(self.checked(self.goal.closes), &contents);
            look.map_or(0, |look| Blemishes::of_warnings(&look).warnings)
        };
        // There is one of a hole.
        warnings == 0 || warnings < *self.warnings.get_or_init(count)
    }

    /// By part, after how many of its knots there is a hole whatever is tied then; `None` where that is not known, or where the
    /// other holes may be there still.
    pub(super) fn torn_after(&self) -> [Option<usize>; 3] {
        let pieces = self.pieces();
        std::array::from_fn(|part| {
            let piece = pieces[part].as_ref().filter(|_| self.most == 0)?;
            torn_after(pieces[..part].iter().flatten(), piece)
        })
    }

    /// As they are without an edit.
    pub(super) fn pieces(&self) -> Pieces {
        PartKind::ALL.map(|kind| self.pattern.part(kind).map(|part| part.piece.clone()))
    }

    /// The holes that the step at `place` closes.
    pub(super) fn holes_closed_at(&self, place: Place) -> Vec<Hole> {
        let sound = Sound::of(&self.checked(self.goal.closes));
        sound.map_or(Vec::new(), |sound| rules::holes_closed_at(&sound, place))
    }

    /// Whether the band has fewer holes with these pieces, which lie so.
    pub(super) fn is_filled(&mut self, pieces: &Pieces, lie: u64) -> bool {
        if let Some(&is_filled) = self.known.get(&lie) {
            return is_filled;
        }
        let is_filled = self.count(pieces).is_some_and(|holes| holes <= self.most);
        self.known.insert(lie, is_filled);
        is_filled
    }

    /// Whether it is known that a band that lies so has not.
    pub(super) fn is_torn(&self, KnotsLie { lie, is_torn }: KnotsLie) -> bool {
        (is_torn && self.most == 0) || self.known.get(&lie) == Some(&false)
    }

    fn count(&self, pieces: &Pieces) -> Option<usize> {
        let sound = Sound::of(&self.checked(self.goal.closes.map(|_| true)))?;
        Some(rules::count_holes(&Woven::of_pieces(&sound, |kind| pieces[kind as usize].clone())))
    }

    fn checked(&self, closes: Option<bool>) -> Checked<'a> {
        let script = self.goal.script;
        Checked {
            source: script.source(),
            script,
            pattern: Some(self.pattern),
            facts: &[],
            closes,
            sound: true,
        }
    }
}
