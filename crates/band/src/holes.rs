//! Bricks that are missing, and strips of a band that nothing joins.

use crate::{Layout, Piece};

/// A gap without knots for some rows in which both of its neighbors have theirs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hole {
    /// The first row in which a knot is missing.
    pub row: u32,
    /// The gap.
    pub gap: u8,
    /// How many knots are missing, one every second row.
    pub knots: u32,
}

/// The holes of a piece tied by itself, by row and gap. `layout` is the piece's own.
///
/// A knot is missing at a row and gap if none lies there though the brick pattern has one, and knots lie at all four
/// of its corners: above and below it in the gaps to its left and right. So a hole is closed all round: places at the
/// edges and above or below all knots are none, nor is a gap that is never knotted (see [`never_joined`]).
/// Straight rows count as knots, and nothing is missing in them. To see the places where one set joins the next, give
/// the set followed by itself.
pub fn holes(piece: &Piece, layout: &Layout) -> Vec<Hole> {
    let by_gap = rows_by_gap(piece, layout);
    let mut holes = Vec::new();
    for gap in 1..by_gap.len().saturating_sub(1) {
        if !by_gap[gap].is_empty() {
            holes_in(&by_gap, gap, &mut holes);
        }
    }
    holes.sort_unstable();
    holes
}

fn rows_by_gap(piece: &Piece, layout: &Layout) -> Vec<Vec<u32>> {
    let mut by_gap = vec![Vec::new(); piece.gaps()];
    for (knot, row) in piece.knots().iter().zip(&layout.rows) {
        by_gap[usize::from(knot.gap)].push(*row);
    }
    by_gap
}

fn holes_in(by_gap: &[Vec<u32>], gap: usize, holes: &mut Vec<Hole>) {
    let (mut own, mut right) = (Rising(&by_gap[gap]), Rising(&by_gap[gap + 1]));
    let mut open: Option<Hole> = None;
    for pair in by_gap[gap - 1].windows(2) {
        let (above, row) = (pair[0], pair[0] + 1);
        let brick = (row as usize + gap).is_multiple_of(2);
        if !brick
            || pair[1] != above + 2
            || own.has(row)
            || !right.has(above)
            || !right.clone().has(above + 2)
        {
            continue;
        }
        match &mut open {
            Some(hole) if hole.row + 2 * hole.knots == row => hole.knots += 1,
            _ => holes.extend(open.replace(Hole { row, gap: gap as u8, knots: 1 })),
        }
    }
    holes.extend(open);
}

/// Rows in order, asked for in order: what has been passed is not looked at again.
#[derive(Clone)]
struct Rising<'a>(&'a [u32]);

impl Rising<'_> {
    fn has(&mut self, row: u32) -> bool {
        while let [first, rest @ ..] = self.0
            && *first < row
        {
            self.0 = rest;
        }
        self.0.first() == Some(&row)
    }
}

/// Gaps in which none of the pieces has a knot: the band falls into strips there.
pub fn never_joined(pieces: &[&Piece]) -> Vec<u8> {
    let gaps = pieces.iter().map(|piece| piece.gaps()).max().unwrap_or(0);
    let mut joined = vec![false; gaps];
    for knot in pieces.iter().flat_map(|piece| piece.knots()) {
        joined[usize::from(knot.gap)] = true;
    }
    (0..gaps as u8).filter(|&gap| !joined[usize::from(gap)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind::Forward;

    fn holes(piece: &Piece) -> Vec<Hole> {
        super::holes(piece, &Layout::of(piece))
    }

    /// A piece from a drawing in brick rows: `o` a knot, `.` none.
    fn drawn(strands: usize, rows: &[&str]) -> Piece {
        let mut steps = Vec::new();
        for (row, line) in rows.iter().enumerate() {
            let marks = line.chars().filter(|c| *c != ' ').enumerate();
            steps.extend(marks.filter(|(_, c)| *c == 'o').map(|(at, _)| ((2 * at + row % 2) as u8, Forward)));
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
        assert_eq!(holes(&piece), [Hole { row: 2, gap: 2, knots: 1 }]);
    }

    #[test]
    fn bricks_missing_one_below_the_other_are_one_hole() {
        let piece = drawn(6, &["o o o", " o o", "o . o", " o o", "o . o", " o o", "o o o"]);
        assert_eq!(holes(&piece), [Hole { row: 2, gap: 2, knots: 2 }]);
        let piece = drawn(6, &["o o o", " o o", "o . o", " o o", "o o o", " o o", "o . o", " o o"]);
        assert_eq!(holes(&piece), [Hole { row: 2, gap: 2, knots: 1 }, Hole { row: 6, gap: 2, knots: 1 }]);
    }

    #[test]
    fn an_open_edge_or_a_slit_is_no_hole() {
        assert_eq!(holes(&drawn(6, &["o o o", " o o", ". o o", " o o", "o o o"])), [], "an edge");
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
}
