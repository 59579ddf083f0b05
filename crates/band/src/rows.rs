//! In which row a knot lies.
//!
//! A knot lies as far up as it can: below the last knot in its own gap and in the gaps next to it, in the brick
//! pattern, that is with `row + gap` even. A leader's row lies straight: all its knots in one row, below everything
//! that came before in its gaps and the gaps next to them. Rows count from 0.
//!
//! Source of the brick row: mathematics of partially commuting letters, P. Cartier & D. Foata, Lecture Notes in
//! Mathematics 85, 1969; heaps of pieces, X. Viennot, Lecture Notes in Mathematics 1234, 1986.

use crate::{Knot, Piece};
use knotwright_numbers::ToNumber;

/// Rows as they fill up, piece after piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rows {
    /// By gap, with one more at each end: the first row below the last knot there.
    free: Vec<u64>,
}

impl Rows {
    /// Nothing tied yet.
    pub fn new(strands: usize) -> Self {
        Self { free: vec![0; strands + 1] }
    }

    /// Rows whose gaps are free from these rows on.
    pub(crate) fn from_free(free: impl IntoIterator<Item = u64>) -> Self {
        let free = free.into_iter();
        let mut padded = Vec::with_capacity(free.size_hint().0 + 2);
        padded.push(0);
        padded.extend(free);
        padded.push(0);
        Self { free: padded }
    }

    /// By gap, the first row below its last knot.
    pub fn free(&self) -> &[u64] {
        self.free.get(1..self.free.len() - 1).unwrap_or(&[])
    }

    /// How many rows there are so far.
    pub fn height(&self) -> u64 {
        self.free.iter().copied().max().unwrap_or(0)
    }

    /// Lays a piece; by knot, its row. Gaps past the edge (a wider piece than before) are cut off to row 0.
    pub fn lay(&mut self, piece: &Piece) -> Vec<u32> {
        let mut rows = vec![0; piece.knots().len()];
        let mut free = rows.iter_mut();
        self.lay_with(piece, |row| free.next().into_iter().for_each(|place| *place = row.to_u32()));
        rows
    }

    /// Lays a piece without keeping the rows of its knots.
    pub fn pass(&mut self, piece: &Piece) {
        self.lay_with(piece, |_| ());
    }

    fn lay_with(&mut self, piece: &Piece, mut each: impl FnMut(u64)) {
        let mut done = 0;
        for range in piece.straight() {
            let (start, end) = (range.start.to_usize(), range.end.to_usize());
            piece.knots()[done..start].iter().for_each(|knot| each(self.brick(knot)));
            let row = self.straight(&piece.knots()[start..end]);
            (start..end).for_each(|_| each(row));
            done = end;
        }
        piece.knots()[done..].iter().for_each(|knot| each(self.brick(knot)));
    }

    fn brick(&mut self, knot: &Knot) -> u64 {
        let gap = usize::from(knot.gap);
        let Some([left, own, right]) = self.free.get_mut(gap..gap + 3) else { return 0 };
        let least = (*own).max(*left).max(*right);
        let row = least + ((least ^ gap.to_u64()) & 1);
        *own = row + 1;
        row
    }

    fn straight(&mut self, knots: &[Knot]) -> u64 {
        let gaps = || knots.iter().map(|knot| usize::from(knot.gap));
        let (Some(first), Some(last)) = (gaps().min(), gaps().max()) else { return 0 };
        let Some(beside) = self.free.get_mut(first..last + 3) else { return 0 };
        let row = beside.iter().copied().max().unwrap_or(0);
        beside[1..=last - first + 1].fill(row + 1);
        row
    }
}

/// In which row a knot in bricks lies. `free`: by gap, with one more at each end, the first row below the last knot.
#[inline]
pub(crate) fn brick_row(free: &[u32; 258], gap: u8) -> u32 {
    let at = usize::from(gap);
    let least = free[at].max(free[at + 1]).max(free[at + 2]);
    least + ((least ^ u32::from(gap)) & 1)
}

/// Bricks as they fill up, for those who only ask for the number of rows: gaps are bytes, so that no index needs to be tested.
#[derive(Debug, Clone)]
pub struct BrickRows {
    /// With one more gap at each end: the first row below the last knot.
    free: [u32; 258],
    height: u32,
}

impl Default for BrickRows {
    fn default() -> Self {
        Self { free: [0; 258], height: 0 }
    }
}

impl BrickRows {
    /// Lays knots in these gaps.
    pub fn pass(&mut self, gaps: impl IntoIterator<Item = u8>) {
        self.lay(gaps, |_, _| ());
    }

    /// Lays knots in these gaps. Each is given to somebody with its gap and its row.
    #[inline]
    pub fn lay(&mut self, gaps: impl IntoIterator<Item = u8>, mut each: impl FnMut(u8, u32)) {
        for gap in gaps {
            let row = brick_row(&self.free, gap);
            self.free[usize::from(gap) + 1] = row + 1;
            self.height = self.height.max(row + 1);
            each(gap, row);
        }
    }

    /// How many rows there are so far.
    pub fn height(&self) -> u32 {
        self.height
    }
}

/// Where the knots of a piece lie when it is tied by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// By knot, its row.
    pub rows: Vec<u32>,
    /// How many rows there are.
    pub height: u32,
}

impl Layout {
    /// Lays a piece, its leaders' rows straight.
    pub fn of(piece: &Piece) -> Self {
        let mut rows = Rows::new(piece.strands());
        let of_knots = rows.lay(piece);
        Self { rows: of_knots, height: rows.height().to_u32() }
    }

    /// How many rows hold a straight row. Takes time in proportion to those.
    pub fn straight_rows(&self, piece: &Piece) -> u64 {
        let of = |range: &std::ops::Range<u32>| self.rows.get(range.start.to_usize()).copied();
        let mut rows: Vec<u32> = piece.straight().iter().filter_map(of).collect();
        rows.sort_unstable();
        rows.dedup();
        rows.len().to_u64()
    }

    /// The knots (by number) sorted by row and, within a row, by gap. Takes time in proportion to knots and rows.
    pub fn sorted(&self, piece: &Piece) -> Vec<u32> {
        let by_gap = counting_sort(piece.gaps(), 0..self.rows.len().to_u32(), |knot| {
            usize::from(piece.knots()[knot.to_usize()].gap)
        });
        counting_sort(self.height.to_usize(), by_gap, |knot| self.rows[knot.to_usize()].to_usize())
    }
}

/// Sorts by a key below `keys`; what has one key keeps its order.
fn counting_sort(
    keys: usize,
    items: impl IntoIterator<Item = u32> + Clone,
    key: impl Fn(u32) -> usize,
) -> Vec<u32> {
    let mut place = vec![0_u32; keys + 1];
    let mut count = 0;
    for item in items.clone() {
        place[key(item) + 1] += 1;
        count += 1;
    }
    for at in 1..place.len() {
        place[at] += place[at - 1];
    }
    let mut sorted = vec![0; count];
    for item in items {
        let at = &mut place[key(item)];
        sorted[at.to_usize()] = item;
        *at += 1;
    }
    sorted
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind::{Backward, Forward};

    fn rows(strands: usize, gaps: &[u8]) -> Vec<u32> {
        let piece = Piece::tie(strands, gaps.iter().map(|&gap| (gap, Forward))).unwrap();
        Layout::of(&piece).rows
    }

    #[test]
    fn a_knot_lies_as_far_up_as_it_can_in_the_brick_pattern() {
        assert_eq!(rows(5, &[0, 2, 1, 3, 0]), [0, 0, 1, 1, 2]);
        assert_eq!(rows(5, &[0, 1, 2, 3]), [0, 1, 2, 3], "a diagonal");
        assert_eq!(rows(5, &[3, 2, 1, 0]), [1, 2, 3, 4], "the other way: gap 3 begins in row 1");
        assert_eq!(rows(3, &[1, 1, 1]), [1, 3, 5]);
    }

    #[test]
    fn a_leaders_row_is_one_row() {
        let steps = [(0, Forward), (1, Backward), (2, Forward), (2, Backward), (1, Backward), (0, Forward)];
        let piece = Piece::tie(4, steps).unwrap().with_straight(vec![0..3, 3..6]).unwrap();
        assert_eq!(Layout::of(&piece), Layout { rows: vec![0, 0, 0, 1, 1, 1], height: 2 });
    }

    #[test]
    fn bricks_keep_their_pattern_above_and_below_a_straight_row() {
        // A brick in gap 3, then a leader across gaps 0 to 2, then bricks.
        let steps = [(3, Forward), (0, Forward), (1, Forward), (2, Forward), (0, Forward), (3, Forward)];
        let piece = Piece::tie(5, steps).unwrap().with_straight(vec![1..4; 1]).unwrap();
        assert_eq!(Layout::of(&piece).rows, [1, 2, 2, 2, 4, 3]);
    }

    #[test]
    fn sorted_reads_row_by_row_from_the_left() {
        let piece = Piece::tie(5, [3, 0, 1, 0, 2].map(|gap| (gap, Forward))).unwrap();
        let layout = Layout::of(&piece);
        let read: Vec<(u32, u8)> = layout
            .sorted(&piece)
            .iter()
            .map(|&k| (layout.rows[k.to_usize()], piece.knots()[k.to_usize()].gap))
            .collect();
        assert_eq!(read, [(0, 0), (1, 1), (1, 3), (2, 0), (2, 2)]);
    }

    #[test]
    fn seven_knots_in_a_diagonal_are_seven_rows_but_add_two_a_set() {
        let diagonal = Piece::tie(8, (0..7).map(|gap| (gap, Forward))).unwrap();
        let mut rows = Rows::new(8);
        let heights: Vec<u64> = (0..4)
            .map(|_| {
                rows.pass(&diagonal);
                rows.height()
            })
            .collect();
        assert_eq!(heights, [7, 9, 11, 13]);
    }
}
