//! Whether an edit fills a hole, found from its knots alone: most do not, and are not looked at any further.

use super::search::Goal;
use super::trial::Pieces;
use crate::woven::{Sound, Woven};
use crate::{Checked, PartKind, Pattern, rules};
use knotwright_band::Layout;
use rustc_hash::{FxHashMap as HashMap, FxHasher};
use std::hash::{Hash, Hasher};

/// The band with its holes.
pub(super) struct Torn<'a> {
    goal: Goal<'a>,
    pattern: Pattern,
    holes: usize,
    /// By how the knots lie, whether there are fewer.
    known: HashMap<u64, bool>,
}

impl<'a> Torn<'a> {
    /// Of the pattern without an edit.
    pub(super) fn new(goal: Goal<'a>, pattern: Pattern) -> Self {
        let mut torn = Self { goal, pattern, holes: 0, known: HashMap::default() };
        torn.holes = torn.count(&torn.pieces());
        torn
    }

    /// As they are without an edit.
    pub(super) fn pieces(&self) -> Pieces {
        PartKind::ALL.map(|kind| self.pattern.part(kind).map(|part| part.piece.clone()))
    }

    /// Whether the band has fewer holes with these pieces.
    pub(super) fn is_filled(&mut self, pieces: &Pieces) -> bool {
        let seen = lie(pieces);
        if let Some(&is_filled) = self.known.get(&seen) {
            return is_filled;
        }
        let is_filled = self.count(pieces) < self.holes;
        self.known.insert(seen, is_filled);
        is_filled
    }

    fn count(&self, pieces: &Pieces) -> usize {
        let script = self.goal.script;
        let closes = self.goal.closes.map(|_| true);
        let (source, pattern) = (script.source(), Some(&self.pattern));
        let checked = Checked { source, script, pattern, facts: &[], closes, sound: true };
        let sound = Sound::of(&checked);
        sound.map_or(0, |sound| {
            rules::count_holes(&Woven::of_pieces(&sound, |kind| pieces[kind as usize].clone()))
        })
    }
}

/// What distinguishes how the knots of pieces lie, in whatever order they were tied: gap by gap, in which rows.
fn lie(pieces: &Pieces) -> u64 {
    let mut hasher = FxHasher::default();
    for piece in pieces.iter().flatten() {
        let mut by_gap = vec![FxHasher::default(); piece.gaps()];
        for (knot, row) in piece.knots().iter().zip(Layout::of(piece).rows) {
            // A hash takes no notice of a 0 at first.
            by_gap[usize::from(knot.gap)].write_u32(row + 1);
        }
        piece.straight().hash(&mut hasher);
        // What lies straight is told by its number.
        if !piece.straight().is_empty() {
            piece.knots().iter().for_each(|knot| hasher.write_u8(knot.gap));
        }
        by_gap.iter().for_each(|rows| hasher.write_u64(rows.finish()));
    }
    hasher.finish()
}
