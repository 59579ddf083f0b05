//! How a band looks on the whole: the fewer blemishes, the likelier it is the one that was meant.

use super::trial::Look;
use crate::{GivenUp, PartKind, Pattern, Tag, rules};
use knotwright_band::{Cell, Piece, normal_form};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxHashMap as HashMap, FxHasher};
use std::hash::{Hash, Hasher};

/// What is not as it would be in most bands. Less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Blemishes {
    /// All warnings but those of names, of which edits of what is tied change one alone: a thread may hang nowhere.
    pub(super) warnings: usize,
    /// Places in the rows of the band where no knot lies.
    pub(super) empty: usize,
    /// Knots whose mirror image is not there.
    pub(super) lopsided: usize,
    /// Parts whose picture has no symmetry. Most have one, and few slips give another.
    pub(super) asymmetric: usize,
    /// Warnings of holes; they are among the warnings.
    pub(super) holes: usize,
    /// What distinguishes this band from others.
    pub(super) band: u64,
}

/// The blemishes of bands that were looked at already, without those of how their steps are written: edits in other
/// places may tie one and the same band.
pub(super) type KnownBands = HashMap<u64, Blemishes>;

/// How many empty places a part without any symmetry counts for.
const ASYMMETRIC: usize = 4;

impl Blemishes {
    /// Those of a band.
    pub(super) fn of(look: &Look, known: &mut KnownBands) -> Self {
        let Look { pattern, checked, sound, contents } = look;
        let found = *known.entry(band_in_colors(pattern)).or_insert_with(|| Self::of_band(look));
        let of_steps = rules::find_in_steps(checked, sound.as_ref(), contents).len();
        let threads = 0..checked.script.head.threads.len();
        let idle = threads.filter(|thread| !pattern.strands.contains(&thread.to_u16())).count();
        Self { warnings: found.warnings + of_steps + idle, ..found }
    }

    /// Those that are seen in how its knots lie, or all of a band that is known; and whether there may be more.
    pub(super) fn rough(look: &Look, known: &mut KnownBands) -> (Self, bool) {
        if known.contains_key(&band_in_colors(look.pattern)) {
            return (Self::of(look, known), false);
        }
        (Self::of_pieces(look.pattern.parts().map(|(_, part)| &part.piece)), true)
    }

    /// Those that are seen in how the knots of these pieces lie.
    pub(super) fn of_pieces<'p>(pieces: impl IntoIterator<Item = &'p Piece>) -> Self {
        let mut found = Self::default();
        pieces.into_iter().for_each(|piece| found.look(piece));
        found
    }

    fn of_band(Look { pattern, sound, .. }: &Look) -> Self {
        let warnings: Vec<_> =
            sound.iter().flat_map(|sound| rules::find_in_band(sound, &GivenUp::NEVER)).collect();
        let holes = warnings.iter().filter(|warning| warning.rule.has(Tag::Hole)).count();
        let mut found = Self { warnings: warnings.len(), holes, ..Self::default() };
        pattern.parts().for_each(|(_, part)| found.look(&part.piece));
        let seen =
            sound.iter().flat_map(|sound| PartKind::ALL.into_iter().filter_map(|kind| sound.seen(kind)));
        found.asymmetric = seen.filter(|seen| seen.symmetries.exact.is_empty()).count();
        found
    }

    /// What is compared. `odds`: how many empty places a likelier kind of edit outweighs.
    pub(super) fn rank(&self, odds: usize) -> (usize, usize, usize) {
        (self.warnings, self.empty + odds + ASYMMETRIC * self.asymmetric, self.lopsided)
    }

    fn look(&mut self, piece: &Piece) {
        let Some(last) = piece.strands().checked_sub(2).filter(|_| !piece.is_rehung()) else { return };
        let cells = normal_form(piece);
        let rows = cells.iter().map(|cell| cell.row.to_usize() + 1).max().unwrap_or(0);
        // Every second place of a row is a brick.
        self.empty += (rows * (last + 1)).div_ceil(2).saturating_sub(cells.len());
        self.lopsided += lopsided(&cells, last.to_u8());
        let mut hasher = FxHasher::default();
        (self.band, &cells, &piece.knots().first().map(|knot| knot.working)).hash(&mut hasher);
        self.band = hasher.finish();
    }
}

/// How many of these knots, which are in order of row and gap, have no mirror image; `last`: the gap at the right edge.
fn lopsided(cells: &[Cell], last: u8) -> usize {
    let rows = cells.chunk_by(|one, other| one.row == other.row);
    let alone_in = |row: &[Cell]| {
        let is_alone = |cell: &&Cell| {
            let gap = last - cell.gap;
            let image = row.binary_search_by_key(&gap, |other| other.gap).ok().map(|at| row[at].kind);
            gap != cell.gap && image != Some(cell.kind.mirrored())
        };
        row.iter().filter(is_alone).count()
    };
    rows.map(alone_in).sum()
}

/// What distinguishes bands of which strands of one color may have changed places.
fn band_in_colors(pattern: &Pattern) -> u64 {
    let mut hasher = FxHasher::default();
    (&pattern.strands, pattern.picks_by_color).hash(&mut hasher);
    for (kind, part) in pattern.parts() {
        let threads = pattern.threads_before(kind);
        let thread = |strand: u8| threads.get(usize::from(strand)).copied();
        (kind as usize, part.piece.straight()).hash(&mut hasher);
        for knot in part.piece.knots() {
            (knot.gap, knot.kind, thread(knot.working), thread(knot.base)).hash(&mut hasher);
        }
    }
    hasher.finish()
}
