//! Holes in a band, strands that hang loose beside it, and strips that nothing joins.
//!
//! Only two knots of one gap, one after the other, are looked at: rows between them that the brick pattern fills elsewhere are
//! a slit. Slits that touch are joined (union-find), and a whole with an open side is no hole. So the time goes with the
//! knots, and not with rows times gaps, of which a sparse band has many more.

use crate::band_rows::{MissingRows, TwoKnots};
use crate::{BandRows, Piece};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::collections::hash_map::Entry;
use std::ops::Range;

/// A place where knots are missing while knots lie all around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hole {
    /// The first row in which a knot is missing.
    pub first_row: u32,
    /// The last one.
    pub last_row: u32,
    /// The first gap in which a knot is missing.
    pub first_gap: u8,
    /// The last one.
    pub last_gap: u8,
    /// How many knots are missing.
    pub knots: u32,
    /// The knot that closes it from below, by number: the last one tied there.
    pub closed_by: u32,
}

/// The outermost strand of one side, untied for some rows between two knots.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Loose {
    /// The gap in which it would be tied: the first or the last one.
    pub gap: u8,
    /// How many knots in bricks would tie it there.
    pub knots: u32,
    /// How many knots are tied beside it meanwhile, in the next gap.
    pub beside: u32,
    /// The knot that ties it again, by number.
    pub tied_by: u32,
}

impl BandRows {
    fn row(&self, knot: u32) -> u32 {
        self.rows()[knot.to_usize()]
    }

    /// The holes, from the top down.
    ///
    /// A brick is missing where none lies between two knots of its gap though the brick pattern has one. Missing bricks
    /// that touch, slantwise or one above the other, are one hole, whatever its shape. It is closed all round: what is
    /// open above, below or to the edge is none, nor is a gap that is never knotted (see [`never_joined`]). Beside the
    /// straight rows of a leader no hole is seen: there bricks do not lie in their pattern. To see the places where one
    /// set joins the next, give the set followed by itself.
    pub fn holes(&self) -> Vec<Hole> {
        self.find_holes(|slit| self.below(slit.gap, slit.last_row))
    }

    /// The holes for those who do not ask which knots close them: to find those takes longest.
    pub fn hole_shapes(&self) -> Vec<Hole> {
        self.find_holes(|_| 0)
    }

    fn find_holes(&self, closed_by: impl Fn(&Slit) -> u32) -> Vec<Hole> {
        let mut slits = self.slits();
        let mut joined = Joined::new(slits.len());
        each_near(&slits, |other, number| {
            if slits[other].touches(&slits[number]) {
                joined.join(other, number);
            }
        });
        for number in 0..slits.len() {
            let whole = joined.root(number);
            slits[whole].is_open |= slits[number].is_open;
        }
        // The first slit of a hole is its root, and comes first.
        let mut holes: Vec<Hole> = Vec::new();
        let mut hole_of: HashMap<usize, usize> = HashMap::default();
        for number in 0..slits.len() {
            let whole = joined.root(number);
            if slits[whole].is_open {
                continue;
            }
            let own = slits[number].hole(closed_by(&slits[number]));
            match hole_of.entry(whole) {
                Entry::Occupied(known) => holes[*known.get()] = both(holes[*known.get()], own),
                Entry::Vacant(free) => {
                    free.insert(holes.len());
                    holes.push(own);
                }
            }
        }
        holes.sort_unstable();
        holes
    }

    /// Of the same places only those bricks that have knots at all four corners, each with those above and below it: what is
    /// surely a hole in a band where strands go slantwise untied.
    pub fn closed_bricks(&self) -> Vec<Hole> {
        let mut found = self.closed_brick_shapes();
        found.iter_mut().for_each(|hole| hole.closed_by = self.below(hole.first_gap, hole.last_row));
        found.sort_unstable();
        found
    }

    /// [`closed_bricks`](Self::closed_bricks) for those who do not ask which knots close them.
    pub fn closed_brick_shapes(&self) -> Vec<Hole> {
        let mut found: Vec<Hole> = Vec::new();
        for slit in self.slits().iter().filter(|slit| !slit.is_straight) {
            let hole = slit.hole(0);
            for row in
                (hole.first_row..=hole.last_row).step_by(2).filter(|&row| self.is_closed(hole.first_gap, row))
            {
                let own = Hole { first_row: row, last_row: row, knots: 1, ..hole };
                match found
                    .last_mut()
                    .filter(|last| last.first_gap == own.first_gap && last.last_row + 2 == row)
                {
                    Some(last) => *last = both(*last, own),
                    None => found.push(own),
                }
            }
        }
        found.sort_unstable();
        found
    }

    /// Whether bricks lie at all four corners of a spot.
    fn is_closed(&self, gap: u8, row: u32) -> bool {
        self.beside(gap).iter().all(|knots| {
            let has = |row: u32| {
                knots.is_some_and(|knots| {
                    let found = knots.binary_search_by_key(&row, |&knot| self.row(knot));
                    found.is_ok_and(|at| !self.is_straight(knots[at]))
                })
            };
            has(row - 1) && has(row + 1)
        })
    }

    /// The knots of the gaps on either side.
    fn beside(&self, gap: u8) -> [Option<&[u32]>; 2] {
        let gap = usize::from(gap);
        [gap.checked_sub(1), Some(gap + 1)].map(|gap| self.gap(gap?))
    }

    /// Of the knots on either side that come next below a row, the one tied last.
    fn below(&self, gap: u8, row: u32) -> u32 {
        let below = self.beside(gap).into_iter().flatten().filter_map(|knots| {
            let at = knots.partition_point(|&knot| self.row(knot) <= row);
            knots.get(at).copied()
        });
        below.max().unwrap_or(0)
    }

    /// Where the outermost strand of either side is left out between two of its knots, side by side and from the top down.
    pub fn loose(&self) -> Vec<Loose> {
        let last = self.gaps().saturating_sub(1).to_u8();
        let at_edge = |two: &&TwoKnots| last > 0 && [0, last].contains(&two.gap);
        let loose = |two: &TwoKnots| {
            let next = if two.gap == 0 { 1 } else { two.gap - 1 };
            let knots = MissingRows::between(self.rows_of(*two), two.gap).len().to_u32();
            Loose { gap: two.gap, knots, beside: self.beside_two(*two, next), tied_by: two.below }
        };
        self.apart().iter().filter(at_edge).map(loose).collect()
    }

    /// How many knots of the next gap lie beside two knots and what is between them.
    fn beside_two(&self, two: TwoKnots, next: u8) -> u32 {
        if !self.has_straight() {
            // Gaps side by side lie in the order in which they are tied.
            return self.gaps_of(two.above..two.below).filter(|&gap| gap == next).count().to_u32();
        }
        let [first, end] = self.rows_of(two);
        let knots = self.gap(next.into()).unwrap_or_default();
        let from = knots.partition_point(|&knot| self.row(knot) < first);
        knots.partition_point(|&knot| self.row(knot) <= end).saturating_sub(from).to_u32()
    }

    fn rows_of(&self, two: TwoKnots) -> [u32; 2] {
        [two.above, two.below].map(|knot| self.row(knot))
    }

    /// Stretches of gaps in which bricks are missing one above the other, by gap and row.
    fn slits(&self) -> Vec<Slit> {
        self.apart().iter().map(|two| self.slit(*two)).collect()
    }

    fn slit(&self, two: TwoKnots) -> Slit {
        let TwoKnots { gap, above, below } = two;
        let MissingRows { first: first_row, last: last_row } = MissingRows::between(self.rows_of(two), gap);
        let is_straight = [above, below].iter().any(|&knot| self.is_straight(knot));
        let gaps = [usize::from(gap).checked_sub(1), Some(usize::from(gap) + 1)];
        let is_open = is_straight
            || gaps.iter().any(|gap| gap.is_none_or(|gap| self.is_open(gap, first_row - 1..last_row + 2)));
        Slit { first_row, last_row, gap, is_straight, is_open }
    }

    /// Whether a gap is open in some of these rows, above its first knot or below its last one, or lies straight there.
    fn is_open(&self, gap: usize, rows: Range<u32>) -> bool {
        let Some((first, last)) = self.ends(gap) else { return true };
        let is_straight = || {
            let knots = self.gap(gap).unwrap_or_default();
            let from = knots.partition_point(|&knot| self.row(knot) < rows.start);
            let mut near = knots[from..].iter().take_while(|&&knot| self.row(knot) < rows.end);
            near.any(|&knot| self.is_straight(knot))
        };
        rows.start < self.row(first)
            || rows.end > self.row(last) + 1
            || (self.has_straight() && is_straight())
    }
}

/// Bricks missing one above the other in one gap.
#[derive(Debug)]
struct Slit {
    first_row: u32,
    last_row: u32,
    gap: u8,
    /// Whether it lies above or below a straight row.
    is_straight: bool,
    /// Whether it is open to some side, or nobody can say.
    is_open: bool,
}

impl Slit {
    /// The hole that it is by itself, closed from below by that knot.
    fn hole(&self, closed_by: u32) -> Hole {
        let &Self { first_row, last_row, gap, .. } = self;
        let knots = MissingRows { first: first_row, last: last_row }.len().to_u32();
        Hole { first_row, last_row, first_gap: gap, last_gap: gap, knots, closed_by }
    }

    /// Whether it lies so far before another one that nothing of it can touch that one, or what comes after it.
    fn ends_before(&self, other: &Self) -> bool {
        self.gap + 1 < other.gap || (self.gap + 1 == other.gap && self.last_row + 1 < other.first_row)
    }

    /// Whether it lies so far behind another one that nothing of it, or of what comes after it, can touch that one.
    fn begins_after(&self, other: &Self) -> bool {
        self.gap + 1 > other.gap || (self.gap + 1 == other.gap && self.first_row > other.last_row + 1)
    }

    /// Whether it touches one in the next gap.
    fn touches(&self, other: &Self) -> bool {
        self.gap + 1 == other.gap
            && self.first_row <= other.last_row + 1
            && other.first_row <= self.last_row + 1
    }
}

/// Visits pairs of slits in gaps side by side, all that touch among them. Slits are in order of gaps and rows, and do not
/// lie in one another: so each is visited with few, however many there are.
fn each_near(slits: &[Slit], mut visit: impl FnMut(usize, usize)) {
    let mut above = 0;
    for (number, slit) in slits.iter().enumerate() {
        while above < number && slits[above].ends_before(slit) {
            above += 1;
        }
        let near = (above..number).take_while(|&other| !slits[other].begins_after(slit));
        near.for_each(|other| visit(other, number));
    }
}

/// Two parts of one hole.
fn both(one: Hole, other: Hole) -> Hole {
    let knots = one.knots + other.knots;
    let lower = if other.last_row > one.last_row { other } else { one };
    let closed_by = match one.last_row == other.last_row {
        true => one.closed_by.max(other.closed_by),
        false => lower.closed_by,
    };
    Hole {
        first_row: one.first_row.min(other.first_row),
        last_row: one.last_row.max(other.last_row),
        first_gap: one.first_gap.min(other.first_gap),
        last_gap: one.last_gap.max(other.last_gap),
        knots,
        closed_by,
    }
}

/// Which slits are one hole.
struct Joined(Vec<u32>);

impl Joined {
    fn new(count: usize) -> Self {
        Self((0..count.to_u32()).collect())
    }

    fn root(&mut self, mut at: usize) -> usize {
        while self.0[at].to_usize() != at {
            self.0[at] = self.0[self.0[at].to_usize()];
            at = self.0[at].to_usize();
        }
        at
    }

    fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.root(one), self.root(other));
        self.0[one.max(other)] = one.min(other).to_u32();
    }
}

/// Gaps in which none of the pieces has a knot: the band falls into strips there.
pub fn never_joined(pieces: &[&Piece]) -> Vec<u8> {
    let gaps = pieces.iter().map(|piece| piece.gaps()).max().unwrap_or(0);
    let (mut joined, mut left) = (vec![false; gaps], gaps);
    for knot in pieces.iter().flat_map(|piece| piece.knots()) {
        left -= usize::from(!std::mem::replace(&mut joined[usize::from(knot.gap)], true));
        if left == 0 {
            break;
        }
    }
    (0..gaps.to_u8()).filter(|&gap| !joined[usize::from(gap)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind::{self, Forward};
    use crate::Layout;
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    fn holes(piece: &Piece) -> Vec<Hole> {
        BandRows::of([piece.clone()]).holes()
    }

    /// Rows, gaps and size of every hole.
    fn shapes(piece: &Piece) -> Vec<(Range<u32>, Range<u8>, u32)> {
        let shape =
            |hole: &Hole| (hole.first_row..hole.last_row + 1, hole.first_gap..hole.last_gap + 1, hole.knots);
        holes(piece).iter().map(shape).collect()
    }

    /// A piece from a drawing in brick rows: `o` a knot, `.` none.
    fn drawn(strands: usize, rows: &[&str]) -> Piece {
        let mut steps = Vec::new();
        for (row, line) in rows.iter().enumerate() {
            let marks = line.chars().filter(|c| *c != ' ').enumerate();
            steps.extend(
                marks.filter(|(_, c)| *c == 'o').map(|(at, _)| ((2 * at + row % 2).to_u8(), Forward)),
            );
        }
        Piece::tie(strands, steps).unwrap()
    }

    #[test]
    fn a_whole_band_has_no_hole() {
        assert_eq!(holes(&drawn(6, &["o o o", " o o", "o o o", " o o"])), []);
    }

    #[test]
    fn a_missing_brick_is_named_by_row_and_gap() {
        let piece = drawn(6, &["o o o", " o o", "o . o", " o o", "o o o"]);
        assert_eq!(shapes(&piece), [(2..3, 2..3, 1)]);
        // The right one of the two knots below it was tied last.
        assert_eq!(holes(&piece)[0].closed_by, 8);
    }

    #[test]
    fn bricks_missing_one_below_the_other_are_one_hole() {
        let piece = drawn(6, &["o o o", " o o", "o . o", " o o", "o . o", " o o", "o o o"]);
        assert_eq!(shapes(&piece), [(2..5, 2..3, 2)]);
        let piece = drawn(6, &["o o o", " o o", "o . o", " o o", "o o o", " o o", "o . o", " o o", "o o o"]);
        assert_eq!(shapes(&piece), [(2..3, 2..3, 1), (6..7, 2..3, 1)]);
    }

    #[test]
    fn a_hole_of_any_shape_is_one_hole() {
        let slanted = drawn(8, &["o o o o", " o o o", "o . o o", " o . o", "o o . o", " o o o", "o o o o"]);
        assert_eq!(shapes(&slanted), [(2..5, 2..5, 3)]);
        let bent = drawn(8, &["o o o o", " o o o", "o . o o", " o . o", "o . o o", " o o o", "o o o o"]);
        assert_eq!(shapes(&bent), [(2..5, 2..4, 3)]);
        let beside = drawn(8, &["o o o o", " o o o", "o . . o", " o o o", "o o o o", " o o o"]);
        assert_eq!(shapes(&beside), [(2..3, 2..3, 1), (2..3, 4..5, 1)], "a knot lies between them");
    }

    #[test]
    fn an_open_edge_or_a_slit_is_no_hole() {
        assert_eq!(holes(&drawn(6, &["o o o", " o o", ". o o", " o o", "o o o"])), [], "an edge");
        assert_eq!(holes(&drawn(6, &["o o o", " . o", ". o o", " . o", "o o o", " o o"])), [], "a bay");
        let slit = drawn(4, &["o o", " .", "o o", " .", "o o"]);
        assert_eq!(holes(&slit), []);
        assert_eq!(never_joined(&[&slit]), [1]);
        assert_eq!(never_joined(&[&slit, &drawn(4, &["o o", " o"])]), [0_u8; 0]);
    }

    #[test]
    fn a_straight_row_fills_its_gaps() {
        let steps = [(0, Forward), (2, Forward), (0, Forward), (1, Forward), (2, Forward)];
        let piece = Piece::tie(4, steps).unwrap().with_straight(vec![2..5; 1]).unwrap();
        assert_eq!(holes(&piece), []);
    }

    #[test]
    fn a_strand_that_hangs_loose_at_the_edge_is_measured_in_knots() {
        let piece = drawn(6, &["o o o", " o o", ". o o", " o o", ". o o", " o o", "o o o"]);
        let loose = |piece: &Piece| BandRows::of([piece.clone()]).loose();
        assert_eq!(loose(&piece), [Loose { gap: 0, knots: 2, beside: 3, tied_by: 13 }]);
        assert_eq!(loose(&drawn(2, &["o"])), []);
    }

    #[test]
    fn each_slit_is_compared_with_few_others_however_long_the_band() {
        let visits = |rows: usize| {
            let drawing = ["o o o o", " o o o", "o . o o", " o . o"].repeat(rows);
            let piece = drawn(8, &drawing);
            let slits = BandRows::of([piece]).slits();
            let mut visits = 0;
            each_near(&slits, |_, _| visits += 1);
            (visits, slits.len())
        };
        let (few, many) = (visits(50), visits(500));
        assert!(few.1 > 50 && many.1 > 500, "{few:?} {many:?}");
        assert!(many.0 <= 11 * few.0 && many.0 <= 3 * many.1, "{few:?} {many:?}");
    }

    /// The sizes of all holes: bricks that are missing, spot by spot, filled from every one that is open.
    fn by_force(piece: &Piece) -> Vec<u32> {
        let layout = Layout::of(piece);
        let there: BTreeSet<(i64, i64)> = piece
            .knots()
            .iter()
            .zip(&layout.rows)
            .map(|(knot, &row)| (i64::from(row), i64::from(knot.gap)))
            .collect();
        let (height, gaps) = (i64::from(layout.height), piece.gaps().to_i64());
        let mut free: BTreeSet<(i64, i64)> = (-2..height + 2)
            .flat_map(|row| (-1..=gaps).map(move |gap| (row, gap)))
            .filter(|spot| (spot.0 + spot.1).rem_euclid(2) == 0 && !there.contains(spot))
            .collect();
        let mut sizes = Vec::new();
        while let Some(first) = free.pop_first() {
            let (mut open, mut size, mut due) = (false, 0, vec![first]);
            while let Some((row, gap)) = due.pop() {
                size += 1;
                open |= gap < 0 || gap >= gaps || row < 0 || row >= height;
                for beside in [(1, 1), (1, -1), (-1, 1), (-1, -1), (2, 0), (-2, 0)] {
                    due.extend(free.take(&(row + beside.0, gap + beside.1)));
                }
            }
            if !open {
                sizes.push(size);
            }
        }
        sizes.sort_unstable();
        sizes
    }

    proptest! {
        #[test]
        fn holes_are_what_is_left_when_all_that_is_open_is_filled(
            strands in 2_usize..8,
            gaps in prop::collection::vec(0_u8..7, 1..90),
        ) {
            let steps = gaps.into_iter().map(|gap| (gap % (strands.to_u8() - 1), Kind::Forward));
            let piece = Piece::tie(strands, steps).unwrap();
            let mut sizes: Vec<u32> = holes(&piece).iter().map(|hole| hole.knots).collect();
            sizes.sort_unstable();
            prop_assert_eq!(sizes, by_force(&piece));
        }
    }
}
