//! How the knots of a band lie: that takes far less time to find out than how it looks.

use super::edits::OtherKnots;
use super::shape::Blemishes;
use super::trial::Pieces;
use crate::Part;
use crate::resolve::ThreadId;
use knotwright_band::{BrickRows, Kind, Knot, Piece};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxBuildHasher, FxHasher};
use std::cmp::Ordering;
use std::hash::{BuildHasher, Hash, Hasher};

/// How the knots of a band lie.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lie {
    /// The blemishes that are seen in it. There may be more.
    pub(super) blemishes: Blemishes,
    /// What distinguishes this band from those that look otherwise. Most look the same whichever way they were tied.
    pub(super) band: u64,
}

impl Lie {
    /// That of a band of these parts with strands of these threads; of its set, whether steps pick by color, and whether
    /// it closes.
    pub(super) fn of(
        strands: &[ThreadId],
        parts: [Option<&Part>; 3],
        picks_by_color: bool,
        closes: Option<bool>,
    ) -> Self {
        let blemishes = Blemishes::of_pieces(parts.into_iter().flatten().map(|part| &part.piece));
        let mut band = FxHasher::default();
        (strands, closes, parts.map(|part| part.is_some()), blemishes.band).hash(&mut band);
        // If not all sets are alike, the later ones rest on the steps.
        let is_alike = closes == Some(true) || !picks_by_color;
        if !is_alike || parts.into_iter().flatten().any(is_ordered) {
            for part in parts.into_iter().flatten() {
                part.piece.straight().hash(&mut band);
                part.piece.steps().for_each(|step| step.hash(&mut band));
            }
        }
        Self { blemishes, band: band.finish() }
    }
}

/// Whether more of a part is seen than its knots in bricks: then it also matters in which order it was tied.
fn is_ordered(part: &Part) -> bool {
    let piece = &part.piece;
    piece.is_rehung()
        || !piece.straight().is_empty()
        || !piece.joins().is_empty()
        || part.beads().next().is_some()
}

impl Blemishes {
    /// Those that are seen in how the knots of these pieces lie. There may be more.
    pub(super) fn of_pieces<'p>(pieces: impl IntoIterator<Item = &'p Piece>) -> Self {
        let mut found = Self::default();
        pieces.into_iter().for_each(|piece| found.look(piece));
        found
    }

    fn look(&mut self, piece: &Piece) {
        if piece.gaps() == 0 || piece.is_rehung() {
            return;
        }
        let (gaps, height) = GapKnots::laid(piece);
        self.empty += empty_places_in(piece.gaps(), height, piece.knots().len());
        self.lopsided += gaps.lopsided();
        let mut hasher = FxHasher::default();
        (self.band, gaps).hash(&mut hasher);
        self.band = hasher.finish();
    }
}

/// How many places of these pieces are empty: of all blemishes, that takes the least time to find out.
pub(super) fn empty_places<'p>(pieces: impl IntoIterator<Item = &'p Piece>) -> usize {
    let empty = |piece: &Piece| {
        let mut rows = BrickRows::default();
        rows.pass(gaps_of(piece.knots()));
        empty_places_in(piece.gaps(), rows.height(), piece.knots().len())
    };
    pieces.into_iter().filter(|piece| !piece.is_rehung()).map(empty).sum()
}

/// The same of one piece, with these knots in place of others. `None` if it has straight rows or joined strands, or none of
/// these.
pub(super) fn empty_places_with(piece: &Piece, others: &[OtherKnots]) -> Option<usize> {
    let (rows, knots) = lay_with(BrickRows::default(), piece, others, |_, _| ())?;
    Some(empty_places_in(piece.gaps(), rows.height(), knots))
}

/// How knots lie.
#[derive(Debug, Clone, Copy)]
pub(super) struct KnotsLie {
    /// What distinguishes it, in whatever order they were tied.
    pub(super) lie: u64,
    /// Whether bricks are missing, one above the other, between two walls without a gap: that is a hole, whatever is tied below.
    pub(super) is_torn: bool,
}

/// How one piece lies with these knots in place of others, when nothing is above it; `None` as above.
pub(super) fn lie_with(piece: &Piece, others: &[OtherKnots]) -> Option<KnotsLie> {
    let (mut lie, mut walls) = (0, Walls::default());
    lay_with(BrickRows::default(), piece, others, |gap, row| {
        lie = knot_lie(gap, row).wrapping_add(lie);
        walls.lay(gap, row);
    })?;
    Some(KnotsLie { lie, is_torn: walls.is_torn })
}

/// Whether bricks are missing so below other pieces; not if those have straight rows or joined strands.
pub(super) fn is_torn_below<'p>(
    above: impl IntoIterator<Item = &'p Piece>,
    piece: &Piece,
    others: &[OtherKnots],
) -> bool {
    let (mut rows, mut walls) = (BrickRows::default(), Walls::default());
    for piece in above {
        let laid = lay_with(rows, piece, &[], |gap, row| walls.lay(gap, row));
        let Some((laid, _)) = laid else { return false };
        rows = laid;
    }
    lay_with(rows, piece, others, |gap, row| walls.lay(gap, row)).is_some() && walls.is_torn
}

/// After how many knots of a piece below others it is known that bricks are missing so: what is tied otherwise from there on
/// fills no hole. `None` if that is never known.
pub(super) fn torn_after<'p>(above: impl IntoIterator<Item = &'p Piece>, piece: &Piece) -> Option<usize> {
    let (mut rows, mut walls) = (BrickRows::default(), Walls::default());
    for piece in above {
        rows = lay_with(rows, piece, &[], |gap, row| walls.lay(gap, row))?.0;
    }
    let (mut knots, mut torn) = (0, walls.is_torn.then_some(0));
    lay_with(rows, piece, &[], |gap, row| {
        walls.lay(gap, row);
        knots += 1;
        torn = torn.or(walls.is_torn.then_some(knots));
    })?;
    torn
}

/// Looks for missing bricks while knots are laid.
struct Walls {
    /// By gap, with one more at each end: the row of the last knot, from 1 on.
    last: [u32; 258],
    /// How many bricks there are, one above the other without one missing, down to the last one.
    bricks: [u32; 258],
    is_torn: bool,
}

impl Default for Walls {
    fn default() -> Self {
        Self { last: [0; 258], bricks: [0; 258], is_torn: false }
    }
}

impl Walls {
    #[inline]
    fn lay(&mut self, gap: u8, row: u32) {
        let (at, row) = (usize::from(gap) + 1, row + 1);
        let last = std::mem::replace(&mut self.last[at], row);
        if last + 2 == row {
            self.bricks[at] += 1;
            return;
        }
        self.bricks[at] = 1;
        // What lies beside it was tied before: else it would lie further down.
        let wall = (row - last) / 2;
        let is_wall = |at: usize| self.last[at] + 1 == row && self.bricks[at] >= wall;
        self.is_torn |= last > 0 && is_wall(at - 1) && is_wall(at + 1);
    }
}

/// Lays a piece with these knots in place of others, each of which is given to somebody with its gap and its row. The rows, and
/// how many of the piece's knots lie in them.
#[inline]
fn lay_with(
    mut rows: BrickRows,
    piece: &Piece,
    others: &[OtherKnots],
    mut each: impl FnMut(u8, u32),
) -> Option<(BrickRows, usize)> {
    if !piece.straight().is_empty() || !piece.joins().is_empty() {
        return None;
    }
    let (mut count, mut done) = (piece.knots().len(), 0);
    for other in others {
        rows.lay(gaps_of(piece.knots().get(done..other.instead_of.start)?), &mut each);
        rows.lay(other.knots.iter().map(|knot| knot.0), &mut each);
        (count, done) = (count + other.knots.len() - other.instead_of.len(), other.instead_of.end);
    }
    rows.lay(gaps_of(piece.knots().get(done..)?), &mut each);
    Some((rows, count))
}

/// What distinguishes how the knots of pieces lie, in whatever order they were tied.
pub(super) fn lie_of(pieces: &Pieces) -> u64 {
    lie_of_parts(pieces.each_ref().map(|piece| piece.as_ref().map(lie_of_piece)))
}

/// The same, of how each part lies.
pub(super) fn lie_of_parts(parts: [Option<u64>; 3]) -> u64 {
    FxBuildHasher.hash_one(parts)
}

pub(super) fn lie_of_piece(piece: &Piece) -> u64 {
    let knots = piece.knots().iter();
    if piece.straight().is_empty() {
        let mut lie = 0_u64;
        let each = |gap, row| lie = knot_lie(gap, row).wrapping_add(lie);
        BrickRows::default().lay(knots.map(|knot| knot.gap), each);
        return lie;
    }
    // What lies straight is told by its number.
    let gaps: Vec<u8> = knots.map(|knot| knot.gap).collect();
    FxBuildHasher.hash_one((piece.straight(), gaps))
}

/// A number for a knot in its place. They are added up, so that it makes no difference in which order they are tied.
fn knot_lie(gap: u8, row: u32) -> u64 {
    let place = (u64::from(row) << 8 | u64::from(gap)) + 1;
    let mixed = place.wrapping_mul(0x9e37_79b9_7f4a_7c15);
    (mixed ^ mixed >> 32).wrapping_mul(0xd6e8_feb8_6659_fd93)
}

fn gaps_of(knots: &[Knot]) -> impl Iterator<Item = u8> {
    knots.iter().map(|knot| knot.gap)
}

fn empty_places_in(gaps: usize, height: u32, knots: usize) -> usize {
    // Every second place of a row is a brick.
    (height.to_usize() * gaps).div_ceil(2).saturating_sub(knots)
}

/// A knot by its row and its kind.
type GapKnot = (u32, Kind);

/// The knots of a piece gap by gap, each gap from the top down: so all scripts of one band give the same, as with its
/// [`normal_form`](knotwright_band::normal_form), for which they would have to be sorted by rows.
#[derive(Hash)]
struct GapKnots {
    /// By gap, where its knots end in the list.
    ends: Vec<usize>,
    knots: Vec<GapKnot>,
}

impl GapKnots {
    /// Those of a piece, all of it in bricks; and how many rows it has.
    fn laid(piece: &Piece) -> (Self, u32) {
        let mut ends = vec![0; piece.gaps()];
        piece.knots().iter().for_each(|knot| ends[usize::from(knot.gap)] += 1);
        let mut before = 0;
        for end in &mut ends {
            before += std::mem::replace(end, before);
        }
        let mut knots = vec![(0, Kind::Forward); piece.knots().len()];
        let (mut rows, mut kinds) = (BrickRows::default(), piece.knots().iter().map(|knot| knot.kind));
        rows.lay(gaps_of(piece.knots()), |gap, row| {
            let end = &mut ends[usize::from(gap)];
            knots[*end] = (row, kinds.next().unwrap_or(Kind::Forward));
            *end += 1;
        });
        (Self { ends, knots }, rows.height())
    }

    fn gap(&self, gap: usize) -> &[GapKnot] {
        let first = gap.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.knots[first..self.ends[gap]]
    }

    /// How many knots have no mirror image; each in the middle is its own.
    fn lopsided(&self) -> usize {
        let mirrored = |gap: usize| self.gap(self.ends.len() - 1 - gap);
        (0..self.ends.len() / 2).map(|gap| lopsided(self.gap(gap), mirrored(gap))).sum()
    }
}

/// How many knots of two gaps that mirror each other have no image in the other one.
fn lopsided(mut one: &[GapKnot], mut other: &[GapKnot]) -> usize {
    let mut found = 0;
    while let ([(row, kind), rest @ ..], [(other_row, other_kind), other_rest @ ..]) = (one, other) {
        found += match row.cmp(other_row) {
            Ordering::Equal if *kind == other_kind.mirrored() => 0,
            Ordering::Equal => 2,
            Ordering::Less | Ordering::Greater => 1,
        };
        if row <= other_row {
            one = rest;
        }
        if other_row <= row {
            other = other_rest;
        }
    }
    found + one.len() + other.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_band::{BandRows, Cell, normal_form};
    use proptest::prelude::*;

    /// How many knots have no mirror image, each looked up among all.
    fn lopsided_by_force(cells: &[Cell], last: u8) -> usize {
        let mirrored = |cell: &Cell| Cell { gap: last - cell.gap, kind: cell.kind.mirrored(), ..*cell };
        cells.iter().filter(|cell| 2 * cell.gap != last && !cells.contains(&mirrored(cell))).count()
    }

    proptest! {
        #[test]
        fn a_band_lies_the_same_whichever_way_it_was_tied(
            strands in 2_usize..8,
            steps in prop::collection::vec((0_u8..7, any::<bool>()), 1..40),
        ) {
            let last = strands.to_u8() - 2;
            let kind = |is_forward| if is_forward { Kind::Forward } else { Kind::Backward };
            let steps = steps.into_iter().map(|(gap, is_forward)| (gap % (last + 1), kind(is_forward)));
            let piece = Piece::tie(strands, steps).unwrap();
            let cells = normal_form(&piece);
            let lie = Blemishes::of_pieces([&piece]);
            prop_assert_eq!(lie.lopsided, lopsided_by_force(&cells, last));
            let rows = cells.iter().map(|cell| cell.row.to_usize() + 1).max().unwrap();
            prop_assert_eq!(lie.empty, (rows * usize::from(last + 1)).div_ceil(2).saturating_sub(cells.len()));
            let by_rows = Piece::tie(strands, cells.iter().map(|cell| (cell.gap, cell.kind))).unwrap();
            prop_assert_eq!(Blemishes::of_pieces([&by_rows]).band, lie.band);
            prop_assert_eq!(lie_of_piece(&by_rows), lie_of_piece(&piece));
            prop_assert_eq!(lie_with(&piece, &[]).unwrap().lie, lie_of_piece(&piece));
        }

        #[test]
        fn what_is_missing_between_two_walls_is_a_hole_whatever_lies_around_it(
            strands in 3_usize..6,
            gaps in prop::collection::vec(prop::collection::vec(0_u8..5, 0..30), 3),
        ) {
            let steps = |gaps: &Vec<u8>| -> Vec<(u8, Kind)> {
                gaps.iter().map(|gap| (gap % (strands.to_u8() - 1), Kind::Forward)).collect()
            };
            let pieces: Vec<Piece> = gaps.iter().map(|gaps| Piece::tie(strands, steps(gaps)).unwrap()).collect();
            if is_torn_below([&pieces[0]], &pieces[1], &[]) {
                let band = BandRows::of(pieces.clone());
                prop_assert!(!band.hole_shapes().is_empty() && !band.closed_brick_shapes().is_empty());
            }
            if let Some(knots) = torn_after([&pieces[0]], &pieces[1]) {
                let mut others = steps(&gaps[1]);
                others.splice(knots.., steps(&gaps[2]));
                let band = BandRows::of([pieces[0].clone(), Piece::tie(strands, others).unwrap()]);
                prop_assert!(!band.hole_shapes().is_empty() && !band.closed_brick_shapes().is_empty());
            }
        }
    }
}
