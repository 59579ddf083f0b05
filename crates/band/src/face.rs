//! What is seen of a piece: which color lies in which row and gap.
//!
//! Of a set that is tied over and over, the rows count around: the row below the last one is the first one again.

use crate::{BandRows, Knot, Piece, Rows, ThreadWalk};
use knotwright_numbers::ToNumber;

/// Where a color lies: a row and a gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FaceSpot {
    /// The row, counted from 0.
    pub row: u32,
    /// The gap, counted from 0.
    pub gap: u8,
}

/// What is seen at a spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Seen {
    /// The color.
    pub color: u16,
    /// The knot that shows it, by its number in the piece.
    pub knot: u32,
}

/// The face of a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    pub(crate) rows: u32,
    pub(crate) gaps: u8,
    /// Whether the first row comes again below the last.
    pub(crate) is_around: bool,
    /// Whether rows lie straight somewhere, as a leader's do.
    pub(crate) is_straight: bool,
    /// By knot, what is seen.
    pub(crate) seen: Vec<SeenKnot>,
    pub(crate) colors: FaceColors,
    /// Row by row, by gap, the number of the knot that lies there, counted from 1; 0 where none lies.
    numbers: Vec<u32>,
}

/// Where a knot lies, and the number of the color that it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct SeenKnot {
    pub(crate) row: u32,
    pub(crate) color: u16,
    pub(crate) gap: u8,
}

/// A face with more spots is none: it would take long to look at, and nobody sees it at once.
const MOST_SPOTS: usize = 1 << 20;

/// After this many sets their rows come again or never do, as a person would see it.
const MOST_SETS: usize = 8;

impl Face {
    /// The face of a set that is tied over and over. `color`: by strand of the piece, its color. `None` if it has no knot,
    /// or if its rows do not lie alike from set to set: a gap without knots, strips that nothing joins.
    pub fn of_set(set: &Piece, color: impl Fn(u8) -> u16) -> Option<Self> {
        let mut band = BandRows::of([set.clone()]);
        for _ in 0..MOST_SETS {
            if !band.repeat_last() {
                return None;
            }
            let twice = band.rows().len() - 2 * set.knots().len();
            if let Some(again) = RowsAgain::of(&band.rows()[twice..]) {
                return Self::of_rows_again(set, &again, color);
            }
        }
        None
    }

    /// The face of a set that is laid twice already, at the top of a band: that saves laying it again.
    pub fn of_set_at_top(band: &BandRows, color: impl Fn(u8) -> u16) -> Option<Self> {
        let set = band.pieces().next()?;
        match band.rows().get(..2 * set.knots().len()).and_then(RowsAgain::of) {
            Some(again) => Self::of_rows_again(set, &again, color),
            None => Self::of_set(set, color),
        }
    }

    fn of_rows_again(set: &Piece, again: &RowsAgain, color: impl Fn(u8) -> u16) -> Option<Self> {
        let RowsAgain { rows, period } = *again;
        let first = rows.iter().min()? / period * period;
        let at = rows.iter().map(|row| {
            let row = row - first;
            if row < period { row } else { row % period }
        });
        Self::laid(set, (period, true), at, color)
    }

    /// The face of a piece that is tied once.
    pub fn of_once(piece: &Piece, color: impl Fn(u8) -> u16) -> Option<Self> {
        let mut rows = Rows::new(piece.strands());
        let laid = rows.lay(piece);
        let height = u32::try_from(rows.height()).ok()?;
        Self::laid(piece, (height, false), laid.into_iter(), color)
    }

    fn laid(
        piece: &Piece,
        (rows, is_around): (u32, bool),
        at: impl Iterator<Item = u32>,
        color: impl Fn(u8) -> u16,
    ) -> Option<Self> {
        let gaps = u8::try_from(piece.gaps()).ok()?;
        let spots = rows.to_usize().checked_mul(usize::from(gaps)).filter(|&spots| spots <= MOST_SPOTS)?;
        let begins: Vec<u16> = (0..=u8::MAX).take(piece.strands()).map(color).collect();
        let mut walk = ThreadWalk::new(piece, &begins);
        let mut colors = FaceColors::default();
        let shown = |((row, number), knot): ((u32, u32), &Knot)| {
            walk.go_to(number);
            SeenKnot { row, color: colors.number(walk.of(knot.working)), gap: knot.gap }
        };
        let numbered = at.zip(0..piece.knots().len().to_u32());
        let seen: Vec<SeenKnot> = numbered.zip(piece.knots()).map(shown).collect();
        let mut numbers = vec![0; spots];
        for (number, seen) in (1..).zip(&seen) {
            *numbers.get_mut(place(gaps, seen.row, seen.gap))? = number;
        }
        let is_straight = !piece.straight().is_empty();
        let face = Self { rows, gaps, is_around, is_straight, seen, colors, numbers };
        (!face.seen.is_empty()).then_some(face)
    }

    /// How many rows there are.
    pub fn rows(&self) -> u32 {
        self.rows
    }

    /// How many gaps there are.
    pub fn gaps(&self) -> u8 {
        self.gaps
    }

    /// How many knots are seen.
    pub fn knots(&self) -> u32 {
        self.seen.len().to_u32()
    }

    /// What is seen at a spot, if a knot lies there.
    pub fn at(&self, spot: FaceSpot) -> Option<Seen> {
        let number =
            self.numbers.get(place(self.gaps, spot.row, spot.gap)).filter(|_| spot.gap < self.gaps)?;
        self.shown_by(*number)
    }

    /// What the knot of that number, counted from 1, shows.
    fn shown_by(&self, number: u32) -> Option<Seen> {
        let knot = number.checked_sub(1)?;
        let number = self.seen.get(knot.to_usize())?.color;
        Some(Seen { color: *self.colors.all.get(usize::from(number))?, knot })
    }

    /// All spots with a knot, row by row.
    pub fn spots(&self) -> impl Iterator<Item = (FaceSpot, Seen)> + '_ {
        let rows = self.numbers.chunks(usize::from(self.gaps).max(1)).zip(0..);
        rows.flat_map(move |(numbers, row)| {
            let spot =
                move |(number, gap): (&u32, u8)| Some((FaceSpot { row, gap }, self.shown_by(*number)?));
            numbers.iter().zip(0..).filter_map(spot)
        })
    }

    /// The colors that are seen, in no order, and how many knots show each.
    pub fn colors(&self) -> Vec<(u16, u32)> {
        let mut colors: Vec<(u16, u32)> = self.colors.all.iter().map(|&color| (color, 0)).collect();
        for seen in &self.seen {
            colors[usize::from(seen.color)].1 += 1;
        }
        colors
    }

    /// The same face with another color at a spot where a knot lies.
    #[must_use]
    pub fn recolored(&self, spot: FaceSpot, color: u16) -> Self {
        let mut face = self.clone();
        if let Some(seen) = self.at(spot).and_then(|seen| face.seen.get_mut(seen.knot.to_usize())) {
            seen.color = face.colors.number(color);
        }
        face
    }
}

/// The rows of a set's knots that lie as those of the set above it, further down.
struct RowsAgain<'a> {
    rows: &'a [u32],
    /// How much further down.
    period: u32,
}

impl<'a> RowsAgain<'a> {
    /// Of the rows of two sets, one after the other. `None` if they lie otherwise, or there are none.
    fn of(both: &'a [u32]) -> Option<Self> {
        let (before, rows) = both.split_at(both.len() / 2);
        let period = rows.first()?.checked_sub(*before.first()?).filter(|&period| period > 0)?;
        let is_again = rows.iter().zip(before).all(|(now, before)| now.wrapping_sub(*before) == period);
        is_again.then_some(Self { rows, period })
    }
}

/// The colors of a face, in the order in which its knots show them first.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct FaceColors {
    pub(crate) all: Vec<u16>,
    /// The number of the one that came last: mostly it comes again.
    last: u16,
}

impl FaceColors {
    /// The number of a color.
    #[inline]
    fn number(&mut self, color: u16) -> u16 {
        if self.all.get(usize::from(self.last)) != Some(&color) {
            let known = self.all.iter().position(|known| *known == color);
            self.last = known.unwrap_or(self.all.len()).to_u16();
            if known.is_none() {
                self.all.push(color);
            }
        }
        self.last
    }
}

/// The place of a spot among all of a face, row by row.
fn place(gaps: u8, row: u32, gap: u8) -> usize {
    row.to_usize() * usize::from(gaps) + usize::from(gap)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind::{Backward, Forward};
    use proptest::prelude::*;

    fn colors(strand: u8) -> u16 {
        u16::from(strand)
    }

    #[test]
    fn the_rows_of_a_set_come_again_after_as_many_as_it_adds() {
        let diagonal = Piece::tie(4, (0..3).map(|gap| (gap, Forward))).unwrap();
        let face = Face::of_set(&diagonal, colors).unwrap();
        assert_eq!((face.rows(), face.gaps(), face.knots()), (2, 3, 3));
        let once = Face::of_once(&diagonal, colors).unwrap();
        assert_eq!(once.rows(), 3);
        assert_eq!(once.at(FaceSpot { row: 1, gap: 1 }), Some(Seen { color: 0, knot: 1 }));
        assert_eq!(once.at(FaceSpot { row: 1, gap: 0 }), None);
    }

    #[test]
    fn what_is_seen_is_the_working_strand() {
        let piece = Piece::tie(3, [(0, Backward), (1, Forward)]).unwrap();
        let face = Face::of_once(&piece, colors).unwrap();
        let seen: Vec<_> = face.spots().map(|(spot, seen)| (spot.row, spot.gap, seen.color)).collect();
        assert_eq!(seen, [(0, 0, 1), (1, 1, 0)]);
    }

    #[test]
    fn strips_that_grow_unlike_have_no_face_in_common() {
        let strips = Piece::tie(4, [(0, Forward), (0, Forward), (2, Forward)]).unwrap();
        assert_eq!(Face::of_set(&strips, colors), None);
        assert_eq!(Face::of_set(&Piece::empty(3), colors), None);
    }

    #[test]
    fn a_leaders_rows_count_one_by_one() {
        let across = [(0, Forward), (1, Forward), (2, Forward)];
        let piece = Piece::tie(4, across).unwrap().with_straight(vec![0..3; 1]).unwrap();
        assert_eq!(Face::of_set(&piece, colors).unwrap().rows(), 1);
    }

    proptest! {
        #[test]
        fn a_set_that_is_laid_already_shows_the_same_face(
            strands in 2_usize..7,
            gaps in prop::collection::vec(0_u8..6, 0..60),
        ) {
            let set = Piece::tie(strands, gaps.into_iter().map(|gap| (gap % (strands.to_u8() - 1), Forward))).unwrap();
            let twice = BandRows::of([set.clone(), set.clone()]);
            prop_assert_eq!(Face::of_set_at_top(&twice, colors), Face::of_set(&set, colors));
        }
    }
}
