//! What is to be seen.

use knotwright_band::{KnotChart, Layout, MOST_STRANDS, Piece};
use knotwright_numbers::ToNumber;

/// A face with more knots is refused: a solver would take hours over it.
pub const MOST_FACE_KNOTS: usize = 20_000;

/// A knot of a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct WishedKnot {
    /// Its row in the face, counted from 0.
    pub row: u32,
    /// Its gap, counted from 0.
    pub gap: u8,
    /// The color to be seen; `None` is whatever color.
    pub color: Option<u16>,
}

/// Knots in bricks, each with the color that it is to show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WishedFace {
    strands: u8,
    is_offset: bool,
    rows: u32,
    knots: Vec<WishedKnot>,
}

/// A knot that shows another color than is wished.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FaceDifference {
    /// Its number in the face.
    pub wished: usize,
    /// Its number in the piece.
    pub knot: u32,
}

/// Where a piece first differs from a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Parting {
    /// By number, the knot of the face that is to lie there, if one is.
    pub wished: Option<usize>,
    /// By number, the knot of the piece that lies there, or else one of that row.
    pub knot: Option<u32>,
    /// The row and the gap.
    pub spot: (u32, u8),
}

/// Why there is no such face.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoFace {
    /// Fewer than two strands, or more than a band can have.
    StrandCount {
        /// How many were asked for.
        strands: usize,
    },
    /// A row with more or fewer marks than it has pairs of strands.
    RowLength {
        /// The row, from 0.
        row: usize,
        /// Its marks.
        marks: usize,
        /// How many are due.
        wanted: usize,
    },
    /// There is no knot in it.
    Empty,
    /// More than [`MOST_FACE_KNOTS`].
    TooManyKnots {
        /// How many there are.
        knots: usize,
    },
}

impl WishedFace {
    /// A face from rows of marks: by pair of strands, `None` for no knot, `Some(None)` for a knot of whatever color.
    /// `is_offset`: the first row begins with gap 1.
    ///
    /// # Errors
    /// [`NoFace`].
    pub fn from_rows(
        strands: usize,
        is_offset: bool,
        rows: &[Vec<Option<Option<u16>>>],
    ) -> Result<Self, NoFace> {
        if !(2..=MOST_STRANDS).contains(&strands) {
            return Err(NoFace::StrandCount { strands });
        }
        let mut knots = Vec::new();
        for (row, marks) in rows.iter().enumerate() {
            let first = first_gap(row, is_offset);
            let wanted = pairs(strands, first);
            if marks.len() != wanted {
                return Err(NoFace::RowLength { row, marks: marks.len(), wanted });
            }
            let marks = marks.iter().enumerate();
            knots.extend(marks.filter_map(|(at, mark)| {
                Some(WishedKnot { row: row.to_u32(), gap: (first + 2 * at).to_u8(), color: (*mark)? })
            }));
        }
        Self { strands: strands.to_u8(), is_offset, rows: rows.len().to_u32(), knots }.sound()
    }

    /// The face that a piece shows, its rows in bricks. `color`: by strand of the piece, its color.
    ///
    /// # Errors
    /// [`NoFace`], but not [`NoFace::RowLength`].
    pub fn of_piece(piece: &Piece, color: impl Fn(u8) -> u16) -> Result<Self, NoFace> {
        let strands = piece.strands();
        if strands < 2 {
            return Err(NoFace::StrandCount { strands });
        }
        let chart = KnotChart::of(piece);
        let shown = shown(&piece.in_bricks());
        let first = shown.first().map_or(0, |knot| knot.row);
        let threads = threads_of_knots(piece, color);
        let knot = |knot: &ShownKnot| WishedKnot {
            row: knot.row - first,
            gap: knot.gap,
            color: Some(threads[knot.number.to_usize()].0),
        };
        let knots = shown.iter().map(knot).collect();
        Self { strands: strands.to_u8(), is_offset: chart.offset(), rows: chart.height(), knots }.sound()
    }

    fn sound(self) -> Result<Self, NoFace> {
        match self.knots.len() {
            0 => Err(NoFace::Empty),
            knots if knots > MOST_FACE_KNOTS => Err(NoFace::TooManyKnots { knots }),
            _ => Ok(self),
        }
    }

    /// How many strands the band has.
    pub fn strands(&self) -> u8 {
        self.strands
    }

    /// Whether the first row begins with gap 1.
    pub fn is_offset(&self) -> bool {
        self.is_offset
    }

    /// How many rows it has.
    pub fn rows(&self) -> u32 {
        self.rows
    }

    /// Its knots, row by row from the left.
    pub fn knots(&self) -> &[WishedKnot] {
        &self.knots
    }

    /// Its rows as marks, as [`from_rows`](Self::from_rows) takes them.
    pub fn marks(&self) -> Vec<Vec<Option<Option<u16>>>> {
        let strands = usize::from(self.strands);
        let empty = |row: u32| vec![None; pairs(strands, first_gap(row.to_usize(), self.is_offset))];
        let mut rows: Vec<_> = (0..self.rows).map(empty).collect();
        for knot in &self.knots {
            rows[knot.row.to_usize()][usize::from(knot.gap / 2)] = Some(knot.color);
        }
        rows
    }

    /// The same face in colors of other numbers.
    #[must_use]
    pub fn recolored(&self, number: impl Fn(u16) -> u16) -> Self {
        let knots = self.knots.iter().map(|knot| WishedKnot { color: knot.color.map(&number), ..*knot });
        Self { knots: knots.collect(), ..*self }
    }

    /// The same face; the knots of these numbers may show whatever color.
    #[must_use]
    pub fn without(&self, given_up: &[usize]) -> Self {
        let mut face = self.clone();
        for &knot in given_up {
            if let Some(knot) = face.knots.get_mut(knot) {
                knot.color = None;
            }
        }
        face
    }

    /// By number, the knots of this face that `piece` does not show in their color; see [`compare`](Self::compare).
    pub fn differs(&self, piece: &Piece, color: impl Fn(u8) -> u16) -> Option<Vec<usize>> {
        let mut differs: Vec<usize> =
            self.compare(piece, color)?.into_iter().map(|differs| differs.wished).collect();
        differs.sort_unstable();
        Some(differs)
    }

    /// The knots of `piece` that do not show the color that is wished, by row and gap. `None` if they do not even lie where
    /// those of the face lie once each is as far up as it can be. `color`: by strand of the piece, its color as the piece begins.
    pub fn compare(&self, piece: &Piece, color: impl Fn(u8) -> u16) -> Option<Vec<FaceDifference>> {
        let shown = shown(&piece.in_bricks());
        let wished = self.laid();
        if piece.strands() != usize::from(self.strands) || shown.len() != wished.len() {
            return None;
        }
        let threads = threads_of_knots(piece, color);
        let mut differs = Vec::new();
        for (shown, (row, number)) in shown.iter().zip(wished) {
            let knot = self.knots[number];
            if (shown.row, shown.gap) != (row, knot.gap) {
                return None;
            }
            if knot.color.is_some_and(|wanted| wanted != threads[shown.number.to_usize()].0) {
                differs.push(FaceDifference { wished: number, knot: shown.number });
            }
        }
        Some(differs)
    }

    /// Where a piece of which the knots lie in other places first differs, row by row from the left: in a knot that is not
    /// there or is there besides, or in a color. `None` if it does not differ.
    pub fn parting(&self, piece: &Piece, color: impl Fn(u8) -> u16) -> Option<Parting> {
        let (shown, wished) = (shown(&piece.in_bricks()), self.laid());
        let threads = threads_of_knots(piece, color);
        let wished_at =
            |at: usize| wished.get(at).map(|&(row, number)| ((row, self.knots[number].gap), number));
        let is_same = |(at, knot): (usize, &ShownKnot)| {
            let wanted = wished_at(at).filter(|wanted| wanted.0 == (knot.row, knot.gap));
            let wanted = wanted.map(|wanted| self.knots[wanted.1].color);
            wanted
                .is_some_and(|wanted| wanted.is_none_or(|wanted| wanted == threads[knot.number.to_usize()].0))
        };
        let at = shown.iter().enumerate().take_while(|&knot| is_same(knot)).count();
        let tied = shown.get(at).map(|knot| ((knot.row, knot.gap), knot.number));
        match (tied, wished_at(at)) {
            (None, None) => None,
            (Some((spot, knot)), None) => Some(Parting { wished: None, knot: Some(knot), spot }),
            (Some((spot, knot)), Some((wanted, _))) if spot < wanted => {
                Some(Parting { wished: None, knot: Some(knot), spot })
            }
            (Some((spot, knot)), Some((wanted, wished))) if spot == wanted => {
                Some(Parting { wished: Some(wished), knot: Some(knot), spot })
            }
            (_, Some((spot, wished))) => {
                let beside = shown.iter().find(|other| other.row == spot.0).or(shown.last());
                Some(Parting { wished: Some(wished), knot: beside.map(|other| other.number), spot })
            }
        }
    }

    /// The row of each knot once it lies as far up as it can, and its number; by row and, within a row, by gap.
    fn laid(&self) -> Vec<(u32, usize)> {
        let steps = self.knots.iter().map(|knot| (knot.gap, knotwright_band::Kind::Forward));
        let Ok(piece) = Piece::tie(usize::from(self.strands), steps) else { return Vec::new() };
        let layout = Layout::of(&piece);
        let sorted = layout.sorted(&piece).into_iter();
        sorted.map(|number| (layout.rows[number.to_usize()], number.to_usize())).collect()
    }
}

struct ShownKnot {
    /// Its number in the piece.
    number: u32,
    row: u32,
    gap: u8,
}

/// By knot, its two threads; `color`: by strand, as the piece begins.
fn threads_of_knots(piece: &Piece, color: impl Fn(u8) -> u16) -> Vec<(u16, u16)> {
    let begins: Vec<u16> = (0..=u8::MAX).take(piece.strands()).map(color).collect();
    piece.threads_of_knots(&begins)
}

/// What a piece shows, by row and, within a row, by gap.
fn shown(piece: &Piece) -> Vec<ShownKnot> {
    let layout = Layout::of(piece);
    let sorted = layout.sorted(piece).into_iter();
    sorted
        .map(|number| {
            let knot = piece.knots()[number.to_usize()];
            ShownKnot { number, row: layout.rows[number.to_usize()], gap: knot.gap }
        })
        .collect()
}

pub(crate) fn first_gap(row: usize, is_offset: bool) -> usize {
    (row + usize::from(is_offset)) % 2
}

pub(crate) fn pairs(strands: usize, first_gap: usize) -> usize {
    strands.saturating_sub(1 + first_gap).div_ceil(2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_band::Kind::{Backward, Forward};

    #[test]
    fn a_row_has_a_mark_for_each_pair() {
        let mark = Some(Some(0));
        let wrong = WishedFace::from_rows(5, false, &[vec![mark; 2], vec![mark; 3]]);
        assert_eq!(wrong, Err(NoFace::RowLength { row: 1, marks: 3, wanted: 2 }));
        assert_eq!(WishedFace::from_rows(1, false, &[]), Err(NoFace::StrandCount { strands: 1 }));
        assert_eq!(WishedFace::from_rows(4, false, &[vec![None; 2]]), Err(NoFace::Empty));
    }

    #[test]
    fn a_piece_shows_its_own_face_and_no_other() {
        let piece = Piece::tie(4, [(0, Forward), (2, Backward), (1, Forward)]).unwrap();
        let colors = |strand: u8| u16::from(strand);
        let face = WishedFace::of_piece(&piece, colors).unwrap();
        assert_eq!(face.marks(), [vec![Some(Some(0)), Some(Some(3))], vec![Some(Some(0))]]);
        assert_eq!(face.differs(&piece, colors), Some(vec![]));
        let other = Piece::tie(4, [(2, Backward), (0, Backward), (1, Forward)]).unwrap();
        assert_eq!(face.differs(&other, colors), Some(vec![0]));
        assert_eq!(face.differs(&Piece::tie(4, [(0, Forward)]).unwrap(), colors), None);
    }
}
