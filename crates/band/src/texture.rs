//! How well a spot of a face fits in: whether what lies around it is seen elsewhere, too.

use crate::face::{Face, FaceSpot};
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

/// A spot and its eight neighbors, by color.
type Patch = [u16; 9];

const NO_KNOT: u16 = u16::MAX;
const BEYOND: u16 = u16::MAX - 1;

/// By rows and gaps, the neighbors of a knot in bricks: those that touch it, and the next ones in its row and its gap.
const IN_BRICKS: [[i64; 2]; 9] =
    [[0, 0], [-1, -1], [-1, 1], [1, -1], [1, 1], [-2, 0], [2, 0], [0, -2], [0, 2]];
const IN_STRAIGHT_ROWS: [[i64; 2]; 9] =
    [[0, 0], [-1, -1], [-1, 0], [-1, 1], [0, -1], [0, 1], [1, -1], [1, 0], [1, 1]];

/// As it is, mirrored, upside down, and both.
const TURNED: [[i64; 2]; 4] = [[1, 1], [1, -1], [-1, 1], [-1, -1]];

impl Face {
    /// How often what lies around `spots` is seen elsewhere, turned or mirrored or as it is; more is likelier to be meant.
    /// Only good to compare faces that differ at these spots alone. Takes time in proportion to the knots.
    pub fn likeness(&self, spots: &[FaceSpot]) -> u32 {
        let near: HashSet<FaceSpot> = spots.iter().flat_map(|&spot| self.around(spot)).collect();
        let mut elsewhere: HashMap<Patch, u32> = HashMap::default();
        for (spot, _) in self.spots().filter(|(spot, _)| !near.contains(spot)) {
            for turned in TURNED {
                *elsewhere.entry(self.patch(spot, turned)).or_default() += 1;
            }
        }
        let mut near: Vec<FaceSpot> = near.into_iter().filter(|&spot| self.at(spot).is_some()).collect();
        near.sort_unstable();
        let often = |&spot: &FaceSpot| elsewhere.get(&self.patch(spot, [1, 1])).copied().unwrap_or(0);
        near.iter().map(|spot| (3 * often(spot) + 1).ilog2()).sum()
    }

    fn neighbors(&self) -> &'static [[i64; 2]; 9] {
        if self.is_straight { &IN_STRAIGHT_ROWS } else { &IN_BRICKS }
    }

    /// The spot that lies some rows and gaps on.
    fn beside(&self, spot: FaceSpot, [rows, gaps]: [i64; 2]) -> Option<FaceSpot> {
        let gap = u8::try_from(i64::from(spot.gap) + gaps).ok().filter(|&gap| gap < self.gaps)?;
        let row = i64::from(spot.row) + rows;
        let row = if self.is_around { row.rem_euclid(i64::from(self.rows)) } else { row };
        u32::try_from(row).ok().filter(|&row| row < self.rows).map(|row| FaceSpot { row, gap })
    }

    fn around(&self, spot: FaceSpot) -> impl Iterator<Item = FaceSpot> + '_ {
        self.neighbors().iter().filter_map(move |&by| self.beside(spot, by))
    }

    fn patch(&self, spot: FaceSpot, [down, right]: [i64; 2]) -> Patch {
        self.neighbors().map(|[rows, gaps]| match self.beside(spot, [rows * down, gaps * right]) {
            Some(beside) => self.at(beside).map_or(NO_KNOT, |seen| seen.color),
            None => BEYOND,
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::{Face, FaceSpot, Kind, Piece};

    #[test]
    fn what_is_seen_elsewhere_fits_in_better() {
        // A checkered piece: both colors take turns in every row.
        let row = |row: u8| {
            (0..7_u8).filter(move |gap| (gap + row).is_multiple_of(2)).map(|gap| (gap, Kind::ForwardBackward))
        };
        let piece = Piece::tie(8, (0..12_u8).flat_map(row)).unwrap();
        let face = Face::of_once(&piece, |strand| u16::from(strand / 2 % 2)).unwrap();
        let spot = FaceSpot { row: 4, gap: 4 };
        let own = face.at(spot).unwrap().color;
        let spoiled = face.recolored(spot, 1 - own);
        assert!(face.likeness(&[spot]) > spoiled.likeness(&[spot]));
    }
}
