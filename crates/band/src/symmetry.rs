//! In which mirrors a face looks the same, and in which it nearly does.
//!
//! Colors are numbers in binary, and each of their digits in a gap is a set of bits, one bit a row: a mirror compares a gap
//! with another one, moved on by some rows, a machine word at a time. Most mirrors are refused by the first words, as soon
//! as too many knots are off.

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

/// A symmetry that a face comes near to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NearSymmetry {
    /// The symmetry.
    pub symmetry: Symmetry,
    /// The knots that are off, row by row: where it takes them, another color lies, or no knot.
    pub off: Vec<FaceSpot>,
}

/// The symmetries of a face.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Symmetries {
    /// Those that it has.
    pub exact: Vec<Symmetry>,
    /// Those that it comes nearest to, all with as many knots off, in the order of [`Turning`] and rows. A face that has a
    /// symmetry already may leave out a knot where another one would ask for it: of such a face, only those are among them
    /// of which each knot that is off has a counterpart.
    pub near: Vec<NearSymmetry>,
    /// Whether all were tried.
    pub is_whole: bool,
}

/// How many words of rows are compared at most: some hundred microseconds.
const MOST_WORK: u64 = 300_000;

impl Face {
    /// Its symmetries, and those that it comes nearest to with at most `most` knots off. Takes time in proportion to rows and
    /// knots, up to a bound; where that is met, the symmetries that a person would see first have been tried.
    pub fn symmetries(&self, most: u32) -> Symmetries {
        let mut columns = FaceColumns::of(self);
        let mut found = self.nearest(&mut columns, most, |_| true);
        if found.exact.is_empty() {
            return found;
        }
        let has_counterparts = |near: &NearSymmetry| self.has_counterparts(near);
        if found.near.iter().any(has_counterparts) {
            found.near.retain(has_counterparts);
        } else if !found.near.is_empty() {
            found = self.nearest(&mut columns, most, has_counterparts);
        }
        found
    }

    /// Its symmetries, and of those that it comes near to only such that `counts`.
    fn nearest(
        &self,
        columns: &mut FaceColumns,
        mut most: u32,
        counts: impl Fn(&NearSymmetry) -> bool,
    ) -> Symmetries {
        let mut found = Symmetries { is_whole: true, ..Symmetries::default() };
        columns.work = 0;
        for symmetry in self.thinkable() {
            if columns.work > MOST_WORK {
                found.is_whole = false;
                break;
            }
            if !columns.compare(symmetry, most) {
                continue;
            }
            let near = NearSymmetry { symmetry, off: columns.spots_off() };
            let off = near.off.len().to_u32();
            if off == 0 {
                found.exact.push(symmetry);
            } else if counts(&near) {
                if off < most {
                    found.near.clear();
                    // Whatever is farther is refused the sooner.
                    most = off;
                }
                found.near.push(near);
            }
        }
        found
    }

    /// Whether a knot lies wherever the counterpart of one that is off would be.
    fn has_counterparts(&self, NearSymmetry { symmetry, off }: &NearSymmetry) -> bool {
        off.iter().all(|spot| self.image(*symmetry, *spot).is_some_and(|image| self.at(image).is_some()))
    }

    /// How many of these symmetries it has.
    pub fn symmetric_by(&self, symmetries: &[Symmetry]) -> usize {
        let mut columns = FaceColumns::of(self);
        symmetries.iter().filter(|symmetry| columns.compare(**symmetry, 0)).count()
    }

    /// Each symmetry once: one that moves on by some rows and its inverse are the same.
    fn thinkable(&self) -> Vec<Symmetry> {
        let (rows, around) = (self.rows, self.is_around);
        // Of a piece that is tied once nothing moves, and the last row that a flip can reach lies twice as far down.
        let half = if around { rows / 2 } else { 0 };
        let ends = if around { rows } else { (2 * rows).saturating_sub(1) };
        // In bricks, every second row takes each knot to where none can lie.
        let (is_brick, odd) = (self.is_brick(), (u32::from(self.gaps) + 1) % 2);
        let mut found = Vec::new();
        for (turning, by, odd) in [
            (Turning::Mirror, 0..half + 1, odd),
            (Turning::Turn, 0..ends, odd),
            (Turning::Flip, 0..ends, 0),
            (Turning::Shift, 1..half + 1, 0),
        ] {
            let (skipped, step) = if is_brick { ((by.start + odd) % 2, 2) } else { (0, 1) };
            let by = (by.start + skipped..by.end).step_by(step);
            found.extend(by.map(|by| Symmetry { turning, by }));
        }
        found
    }

    /// Whether its knots lie as bricks do, also where the last row meets the first.
    fn is_brick(&self) -> bool {
        let mut parities = self.seen.iter().map(|seen| (seen.row + u32::from(seen.gap)) % 2);
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

/// The colors of every gap, as bits.
struct FaceColumns {
    gaps: usize,
    /// After how many rows they come again: those of a piece that is tied once, after as many empty ones.
    rows: usize,
    /// How many digits are kept of the number of a color: a power of two.
    digits: usize,
    /// The rows from the first one down.
    down: GapBits,
    /// The rows twice over, as they come again below the last one; read from any row on.
    twice: GapBits,
    /// The rows from the first one up, twice over.
    upward: GapBits,
    /// How many words were compared.
    work: u64,
    /// Which knots were off: the gap, the first of its rows, and a bit for each row from there.
    off: Vec<(usize, usize, u64)>,
}

/// For each gap the numbers of its colors, 0 where no knot lies: as many rows as a word has bits, their first digits in one
/// word, their second ones in the next, and so on; and then the rows that follow.
struct GapBits {
    /// How many words there are for a gap.
    words: usize,
    all: Vec<u64>,
}

const BITS: usize = u64::BITS as usize;

impl GapBits {
    fn empty(gaps: usize, words: usize) -> Self {
        Self { words, all: vec![0; gaps * words] }
    }

    fn of(&self, gap: usize) -> &[u64] {
        &self.all[gap * self.words..(gap + 1) * self.words]
    }

    /// Gap by gap.
    fn columns(&self) -> impl Iterator<Item = &[u64]> {
        self.all.chunks(self.words.max(1))
    }
}

impl FaceColumns {
    fn of(face: &Face) -> Self {
        let rows = face.rows.to_usize() * if face.is_around { 1 } else { 2 };
        let (gaps, words) = (usize::from(face.gaps), rows.div_ceil(BITS));
        // 0 is where no knot lies.
        let digits = digits_of(face.colors.all.len()).next_power_of_two();
        let [mut down, mut up] = [(); 2].map(|()| GapBits::empty(gaps, words * digits));
        for seen in &face.seen {
            let (row, mut number) = (seen.row.to_usize(), usize::from(seen.color) + 1);
            let place = (usize::from(seen.gap) * words + row / BITS) * digits;
            let bits = &mut down.all[place..place + digits];
            while number != 0 {
                bits[number.trailing_zeros().to_usize()] |= 1 << (row % BITS);
                number &= number - 1;
            }
        }
        for (down, up) in down.columns().zip(up.all.chunks_mut(up.words.max(1))) {
            for digit in 0..digits {
                let places = up.iter_mut().skip(digit).step_by(digits);
                let column = |word: usize| down[word * digits + digit];
                places.zip(upward(words, rows, column)).for_each(|(place, word)| *place = word);
            }
        }
        let (twice, upward) = (twice(&down, rows, digits), twice(&up, rows, digits));
        Self { gaps, rows, digits, down, twice, upward, work: 0, off: Vec::new() }
    }

    /// Finds the knots that are off. Whether there are no more than `most`.
    fn compare(&mut self, Symmetry { turning, by }: Symmetry, most: u32) -> bool {
        let (from, first) = match turning {
            Turning::Mirror | Turning::Shift => (&self.twice, by.to_usize()),
            // Row r comes from row `by` - r, which is r - `by` upward.
            Turning::Turn | Turning::Flip => (&self.upward, self.rows.saturating_sub(by.to_usize())),
        };
        // A division takes as long as to compare some words.
        let first = if first < self.rows { first } else { first % self.rows.max(1) };
        let crosses = matches!(turning, Turning::Mirror | Turning::Turn);
        let (gaps, down, skipped) = (self.gaps, &self.down, first / BITS * self.digits);
        let columns = (0..gaps).map(|gap| {
            let other = from.of(if crosses { gaps - 1 - gap } else { gap });
            (down.of(gap), &other[skipped..])
        });
        let shift = first % BITS;
        self.off.clear();
        // How many digits there are is known to the compiler: nothing else is done as often.
        let compared = match self.digits {
            1 => compare_all::<1>(columns, shift, most, &mut self.off),
            2 => compare_all::<2>(columns, shift, most, &mut self.off),
            4 => compare_all::<4>(columns, shift, most, &mut self.off),
            8 => compare_all::<8>(columns, shift, most, &mut self.off),
            _ => compare_all::<16>(columns, shift, most, &mut self.off),
        };
        self.work += compared.words.to_u64();
        compared.off <= most
    }

    /// The spots of the knots that were off, row by row.
    fn spots_off(&self) -> Vec<FaceSpot> {
        let mut spots = Vec::new();
        for &(gap, first, mut off) in &self.off {
            while off != 0 {
                spots.push(FaceSpot { row: first.to_u32() + off.trailing_zeros(), gap: gap.to_u8() });
                off &= off - 1;
            }
        }
        spots.sort_unstable();
        spots
    }
}

/// What came of comparing columns.
struct ComparedColumns {
    /// How many knots are off.
    off: u32,
    /// How many words were compared.
    words: usize,
}

/// Compares the colors of each gap with those of another one, which begin at that bit, until more than `most` differ.
fn compare_all<'a, const DIGITS: usize>(
    columns: impl Iterator<Item = (&'a [u64], &'a [u64])>,
    shift: usize,
    most: u32,
    found: &mut Vec<(usize, usize, u64)>,
) -> ComparedColumns {
    let (mut all, shift) = (ComparedColumns { off: 0, words: 0 }, shift % BITS);
    for (gap, (own, other)) in columns.enumerate() {
        let own = own.as_chunks::<DIGITS>().0;
        // One word more than its own: what is behind the end of a word is in the next one.
        let other = &other.as_chunks::<DIGITS>().0[..=own.len()];
        for word in 0..own.len() {
            let (own, other, next) = (&own[word], &other[word], &other[word + 1]);
            let (mut lies, mut differs) = (0, 0);
            for digit in 0..DIGITS {
                lies |= own[digit];
                let behind = (next[digit] << 1) << (BITS - 1 - shift);
                differs |= own[digit] ^ (other[digit] >> shift | behind);
            }
            all.words += 1;
            let off = lies & differs;
            if off != 0 {
                all.off += off.count_ones();
                found.push((gap, word * BITS, off));
                if all.off > most {
                    return all;
                }
            }
        }
    }
    all
}

/// How many digits a number has.
fn digits_of(number: usize) -> usize {
    (usize::BITS - number.leading_zeros()).to_usize()
}

/// The words of a column of that many `rows` from the first one up, and around the end: at r is the row that lies r rows above
/// the first. `word`: those of the column itself.
fn upward(words: usize, rows: usize, word: impl Fn(usize) -> u64 + Copy) -> impl Iterator<Item = u64> {
    // From the last bit to the first, and moved so that row 0 would come to lie behind the end; it is the first again.
    let last = (words + 1) * BITS - 1;
    let (skipped, shift) = ((last - rows) / BITS, (last - rows) % BITS);
    let reversed =
        move |at: usize| if (1..=words).contains(&at) { word(words - at).reverse_bits() } else { 0 };
    (0..words).map(move |nth| {
        let first = if nth == 0 { word(0) & 1 } else { 0 };
        let at = nth + skipped;
        first | reversed(at) >> shift | (reversed(at + 1) << 1) << (BITS - 1 - shift)
    })
}

/// The `rows` of a column twice over, and some words in which there is nothing.
fn twice(bits: &GapBits, rows: usize, digits: usize) -> GapBits {
    let mut twice = GapBits::empty(bits.all.len() / bits.words.max(1), 2 * bits.words + 2 * digits);
    let (skipped, shift) = (rows / BITS * digits, rows % BITS);
    for (own, twice) in bits.columns().zip(twice.all.chunks_mut(2 * bits.words + 2 * digits)) {
        for (at, word) in own.iter().enumerate() {
            twice[at] |= word;
            twice[at + skipped] |= word << shift;
            twice[at + skipped + digits] |= (word >> 1) >> (BITS - 1 - shift);
        }
    }
    twice
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

    /// The symmetries of a face, found knot by knot.
    fn by_force(face: &Face, most: u32) -> Symmetries {
        let mut found = Symmetries { is_whole: true, ..Symmetries::default() };
        for symmetry in face.thinkable() {
            match face.off(symmetry) {
                off if off.is_empty() => found.exact.push(symmetry),
                off if off.len().to_u32() <= most => found.near.push(NearSymmetry { symmetry, off }),
                _ => {}
            }
        }
        let counterpart = |symmetry, spot| face.image(symmetry, spot).and_then(|image| face.at(image));
        let has_all =
            |near: &NearSymmetry| near.off.iter().all(|&spot| counterpart(near.symmetry, spot).is_some());
        let is_exact = !found.exact.is_empty();
        found.near.retain(|near| !is_exact || has_all(near));
        let least = found.near.iter().map(|near| near.off.len()).min();
        found.near.retain(|near| Some(near.off.len()) == least);
        found
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
                let found = face.symmetries(most);
                prop_assert!(found.is_whole);
                let exact = face.thinkable().into_iter().filter(|symmetry| face.symmetric_by(&[*symmetry]) == 1);
                prop_assert_eq!(exact.collect::<Vec<_>>(), &found.exact[..]);
                prop_assert_eq!(found, by_force(&face, most));
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
        let off = vec![spot, FaceSpot { row: 0, gap: 4 }];
        assert_eq!(spoiled.off(mirror), off);
        let near = spoiled.symmetries(2).near;
        assert!(near.contains(&NearSymmetry { symmetry: mirror, off }), "{near:?}");
    }

    #[test]
    fn a_huge_face_is_looked_at_only_so_long() {
        let steps = (0..40_000_u32).map(|at| ((at * at % 7).to_u8(), Forward));
        let piece = Piece::tie(8, steps).unwrap();
        let face = Face::of_once(&piece, two_colors).unwrap();
        assert!(!face.symmetries(2000).is_whole);
    }
}
