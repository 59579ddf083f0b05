//! In which mirrors a face looks the same, and in which it nearly does.
//!
//! Columns of one color are sets of bits, one bit a row: a mirror compares a column with another one, moved on by some
//! rows, a machine word at a time. Most mirrors are refused by the first columns, as soon as too many knots are off.

use crate::face::{Face, FaceSpot};
use knotwright_numbers::ToNumber;

/// What a mirror does to the face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turning {
    /// Left and right change places.
    Mirror,
    /// It is turned upside down, by half a turn.
    Turn,
    /// Top and bottom change places.
    Flip,
    /// It moves down.
    Shift,
}

/// A symmetry that a face may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Symmetry {
    /// What it does.
    pub turning: Turning,
    /// By how many rows it moves the face besides; of a turn or a flip, the row in which the first row comes to lie.
    pub by: u32,
}

/// The symmetries of a face.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Symmetries {
    /// Those that it has.
    pub exact: Vec<Symmetry>,
    /// Those that it comes near to, each with how many of its knots are off: where it takes them, another color lies, or
    /// no knot. In no order but that of [`Turning`] and rows.
    pub near: Vec<(Symmetry, u32)>,
    /// Whether all were tried.
    pub is_whole: bool,
}

/// How many machine words are compared at most: some hundred microseconds.
const MOST_WORK: u64 = 300_000;

impl Face {
    /// Its symmetries, and those with at most `most` knots off. Takes time in proportion to rows and knots, up to a bound;
    /// where that is met, the symmetries that a person would see first have been tried.
    pub fn symmetries(&self, most: u32) -> Symmetries {
        let mut columns = Columns::of(self);
        let mut found = Symmetries { is_whole: true, ..Symmetries::default() };
        for symmetry in self.thinkable() {
            if columns.work > MOST_WORK {
                found.is_whole = false;
                break;
            }
            match columns.off(symmetry, most) {
                Some(0) => found.exact.push(symmetry),
                Some(off) => found.near.push((symmetry, off)),
                None => {}
            }
        }
        found
    }

    /// Each symmetry once: one that moves on by some rows and its inverse are the same.
    fn thinkable(&self) -> impl Iterator<Item = Symmetry> + use<> {
        let (rows, around) = (self.rows, self.is_around);
        // Of a piece that is tied once nothing moves, and the last row that a flip can reach lies twice as far down.
        let half = if around { rows / 2 } else { 0 };
        let ends = if around { rows } else { (2 * rows).saturating_sub(1) };
        let all = |turning, by: std::ops::Range<u32>| by.map(move |by| Symmetry { turning, by });
        let all = all(Turning::Mirror, 0..half + 1)
            .chain(all(Turning::Turn, 0..ends))
            .chain(all(Turning::Flip, 0..ends))
            .chain(all(Turning::Shift, 1..half + 1));
        // In bricks, every second row takes each knot to where none can lie.
        let (is_brick, last) = (self.is_brick(), u32::from(self.gaps) + 1);
        all.filter(move |&Symmetry { turning, by }| {
            !is_brick
                || match turning {
                    Turning::Mirror | Turning::Turn => (by + last).is_multiple_of(2),
                    Turning::Flip | Turning::Shift => by.is_multiple_of(2),
                }
        })
    }

    /// Whether its knots lie as bricks do, also where the last row meets the first.
    fn is_brick(&self) -> bool {
        let mut parities = self.spots().map(|(spot, _)| (spot.row + u32::from(spot.gap)) % 2);
        let first = parities.next();
        (!self.is_around || self.rows.is_multiple_of(2)) && parities.all(|parity| Some(parity) == first)
    }

    /// Where a symmetry takes a spot; `None` if it leaves the face.
    pub fn image(&self, Symmetry { turning, by }: Symmetry, spot: FaceSpot) -> Option<FaceSpot> {
        let gap = match turning {
            Turning::Mirror | Turning::Turn => self.gaps.checked_sub(1)?.checked_sub(spot.gap)?,
            Turning::Flip | Turning::Shift => spot.gap,
        };
        let row = match turning {
            Turning::Mirror | Turning::Shift => u64::from(spot.row) + u64::from(by),
            Turning::Turn | Turning::Flip if self.is_around => {
                u64::from(by) + u64::from(self.rows) - u64::from(spot.row)
            }
            Turning::Turn | Turning::Flip => u64::from(by.checked_sub(spot.row)?),
        };
        let row = if self.is_around { row % u64::from(self.rows) } else { row };
        (row < u64::from(self.rows)).then_some(FaceSpot { row: row.to_u32(), gap })
    }

    /// The spots whose knots are off, row by row.
    pub fn off(&self, symmetry: Symmetry) -> Vec<FaceSpot> {
        let color = |spot| self.at(spot).map(|seen| seen.color);
        let is_off = |(spot, seen): &(FaceSpot, crate::Seen)| {
            self.image(symmetry, *spot).and_then(color) != Some(seen.color)
        };
        self.spots().filter(is_off).map(|(spot, _)| spot).collect()
    }
}

/// The columns of every color, as bits; each with the same number of words.
struct Columns {
    gaps: usize,
    /// After how many rows they come again: those of a piece that is tied once, after as many empty ones.
    rows: usize,
    /// By color, the one with the most knots first, and gap: its rows.
    bits: Bits,
    /// The rows twice over, as they come again below the last one; read from any row on.
    twice: Bits,
    /// The same from the first row upward.
    upward: Bits,
    work: u64,
}

/// Sets of rows, one after another.
struct Bits {
    /// How many words each has.
    words: usize,
    all: Vec<u64>,
}

const BITS: usize = u64::BITS as usize;

impl Bits {
    fn empty(sets: usize, words: usize) -> Self {
        Self { words, all: vec![0; sets * words] }
    }

    fn put(&mut self, set: usize, row: usize) {
        self.all[set * self.words + row / BITS] |= 1 << (row % BITS);
    }

    #[inline]
    fn of(&self, set: usize) -> &[u64] {
        &self.all[set * self.words..(set + 1) * self.words]
    }
}

impl Columns {
    fn of(face: &Face) -> Self {
        let rows = face.rows.to_usize() * if face.is_around { 1 } else { 2 };
        let gaps = usize::from(face.gaps);
        let colors = by_frequency(face);
        let sets = colors.len() * gaps;
        let long = (2 * rows).div_ceil(BITS) + 2;
        let [mut bits, mut twice, mut upward] =
            [rows.div_ceil(BITS), long, long].map(|words| Bits::empty(sets, words));
        for (spot, seen) in face.spots() {
            let color = colors.iter().position(|&color| color == seen.color).unwrap_or_default();
            let (set, row) = (color * gaps + usize::from(spot.gap), spot.row.to_usize());
            bits.put(set, row);
            for again in [0, rows] {
                twice.put(set, row + again);
                upward.put(set, (rows - row) % rows + again);
            }
        }
        Self { gaps, rows, bits, twice, upward, work: 0 }
    }

    /// How many knots are off; `None` if more than `most`.
    fn off(&mut self, Symmetry { turning, by }: Symmetry, most: u32) -> Option<u32> {
        let by = by.to_usize() % self.rows.max(1);
        let (from, first) = match turning {
            Turning::Mirror | Turning::Shift => (&self.twice, by),
            // Row r comes from row `by` - r, which is r - `by` upward.
            Turning::Turn | Turning::Flip => (&self.upward, (self.rows - by) % self.rows.max(1)),
        };
        let crosses = matches!(turning, Turning::Mirror | Turning::Turn);
        let (words, gaps) = (self.bits.words.max(1), self.gaps.max(1));
        let mut off = 0;
        for (color, columns) in self.bits.all.chunks(words * gaps).enumerate() {
            for (gap, column) in columns.chunks(words).enumerate() {
                let other = from.of(color * gaps + if crosses { gaps - 1 - gap } else { gap });
                for (word, bits) in column.iter().enumerate() {
                    off += (bits & !read(other, first + word * BITS)).count_ones();
                }
                self.work += words.to_u64();
                if off > most {
                    return None;
                }
            }
        }
        Some(off)
    }
}

/// The colors that are seen, the most frequent first.
fn by_frequency(face: &Face) -> Vec<u16> {
    let mut counts: Vec<(u16, u32)> = Vec::new();
    for (_, seen) in face.spots() {
        match counts.iter_mut().find(|count| count.0 == seen.color) {
            Some(count) => count.1 += 1,
            None => counts.push((seen.color, 1)),
        }
    }
    counts.sort_by_key(|&(color, count)| (std::cmp::Reverse(count), color));
    counts.into_iter().map(|count| count.0).collect()
}

/// A word's worth of bits from `first` on.
fn read(bits: &[u64], first: usize) -> u64 {
    let (word, by) = (first / BITS, first % BITS);
    match by {
        0 => bits[word],
        _ => bits[word] >> by | bits[word + 1] << (BITS - by),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind::{self, Backward, BackwardForward, Forward, ForwardBackward};
    use crate::Piece;
    use proptest::prelude::*;

    fn two_colors(strand: u8) -> u16 {
        u16::from(strand.is_multiple_of(3))
    }

    /// Every symmetry with at most `most` knots off, knot by knot.
    fn by_force(face: &Face, most: u32) -> (Vec<Symmetry>, Vec<(Symmetry, u32)>) {
        let counted = face.thinkable().map(|symmetry| (symmetry, face.off(symmetry).len().to_u32()));
        let (exact, others): (Vec<_>, Vec<_>) = counted.partition(|counted| counted.1 == 0);
        let near = others.into_iter().filter(|other| other.1 <= most).collect();
        (exact.into_iter().map(|exact| exact.0).collect(), near)
    }

    fn kinds() -> impl Strategy<Value = Kind> {
        prop_oneof![Just(Forward), Just(Backward), Just(ForwardBackward), Just(BackwardForward)]
    }

    proptest! {
        #[test]
        fn bits_count_what_is_off_knot_by_knot(
            strands in 2_usize..7,
            steps in prop::collection::vec((0_u8..6, kinds()), 1..160),
            around in any::<bool>(),
            most in 0_u32..40,
        ) {
            let steps = steps.into_iter().map(|(gap, kind)| (gap % (strands.to_u8() - 1), kind));
            let piece = Piece::tie(strands, steps).unwrap();
            let face = if around { Face::of_set(&piece, two_colors) } else { Face::of_once(&piece, two_colors) };
            if let Some(face) = face {
                let Symmetries { exact, near, is_whole } = face.symmetries(most);
                prop_assert!(is_whole);
                prop_assert_eq!((exact, near), by_force(&face, most));
            }
        }
    }

    #[test]
    fn a_chevron_is_a_mirror_image_of_itself() {
        let arms = [(0, Forward), (4, Backward), (1, Forward), (3, Backward), (2, Forward)];
        let piece = Piece::tie(6, arms.into_iter().chain(arms).chain(arms)).unwrap();
        let face = Face::of_set(&piece, |strand| u16::from(strand.min(5 - strand))).unwrap();
        let mirror = Symmetry { turning: Turning::Mirror, by: 0 };
        assert!(face.symmetries(2).exact.contains(&mirror));
        let spot = FaceSpot { row: 0, gap: 0 };
        let spoiled = face.recolored(spot, 9);
        let near = spoiled.symmetries(2).near;
        assert!(near.contains(&(mirror, 2)), "{near:?}");
        assert_eq!(spoiled.off(mirror), [spot, FaceSpot { row: 0, gap: 4 }]);
    }

    #[test]
    fn a_huge_face_is_looked_at_only_so_long() {
        let steps = (0..40_000_u32).map(|at| ((at * at % 7).to_u8(), Forward));
        let piece = Piece::tie(8, steps).unwrap();
        let face = Face::of_once(&piece, two_colors).unwrap();
        assert!(!face.symmetries(2000).is_whole);
    }
}
