//! The same face in another size.

use crate::wished::{first_gap, pairs};
use crate::{NoFace, WishedFace};
use knotwright_numbers::ToNumber;

/// How high a row is, in widths of a position: as knots usually lie.
const ROW: f64 = 4.0 / 3.0;

/// A mark of a row: `None` for no knot, `Some(None)` for whatever color.
type Mark = Option<Option<u16>>;

impl WishedFace {
    /// The same picture with another number of strands and rows: each place has what the nearest one has in this face.
    ///
    /// # Errors
    /// [`NoFace`], but not [`NoFace::RowLength`].
    pub fn resampled(&self, strands: usize, rows: usize) -> Result<Self, NoFace> {
        if self.rows() == 0 {
            return Err(NoFace::Empty);
        }
        if rows.saturating_mul(strands) / 2 > 4 * crate::MOST_FACE_KNOTS {
            return Err(NoFace::TooManyKnots { knots: rows.saturating_mul(strands) / 2 });
        }
        let sampled = SampledFace { face: self, marks: self.marks() };
        let (across, down) = (
            f64::from(self.strands()) / strands.max(1).to_f64(),
            f64::from(self.rows()) / rows.max(1).to_f64(),
        );
        let row = |row: usize| -> Vec<Mark> {
            let first = first_gap(row, self.is_offset());
            let y = (row.to_f64() + 0.5) * down - 0.5;
            let gaps = (0..pairs(strands, first)).map(|at| first + 2 * at);
            gaps.map(|gap| sampled.nearest((gap.to_f64() + 1.0) * across - 1.0, y)).collect()
        };
        Self::from_rows(strands, self.is_offset(), &(0..rows).map(row).collect::<Vec<_>>())
    }
}

struct SampledFace<'a> {
    face: &'a WishedFace,
    marks: Vec<Vec<Mark>>,
}

impl SampledFace<'_> {
    /// What the place has that is nearest to a point, in gaps and rows.
    fn nearest(&self, x: f64, y: f64) -> Mark {
        let last = self.marks.len() - 1;
        let rows = [y.floor(), y.ceil()].map(|row| row.max(0.0).to_usize().min(last));
        let places = rows.into_iter().filter_map(|row| {
            let first = first_gap(row, self.face.is_offset());
            let most = self.marks[row].len().checked_sub(1)?;
            let at = ((x - first.to_f64()) / 2.0).round().max(0.0).to_usize().min(most);
            let (across, down) = ((first + 2 * at).to_f64() - x, (row.to_f64() - y) * ROW);
            Some((across.mul_add(across, down * down), self.marks[row][at]))
        });
        places.min_by(|one, other| one.0.total_cmp(&other.0)).and_then(|(_, mark)| mark)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A disc, as seen with any number of strands and rows.
    fn disc(strands: usize, rows: usize) -> WishedFace {
        let is_in = |row: usize, gap: usize| {
            let x = (gap.to_f64() + 1.0) / strands.to_f64() - 0.5;
            let y = (row.to_f64() + 0.5) / rows.to_f64() - 0.5;
            x * x + y * y < 0.1
        };
        let row = |row: usize| {
            let gaps = (0..pairs(strands, row % 2)).map(|at| row % 2 + 2 * at);
            gaps.map(|gap| Some(Some(u16::from(is_in(row, gap))))).collect()
        };
        WishedFace::from_rows(strands, false, &(0..rows).map(row).collect::<Vec<_>>()).unwrap()
    }

    #[test]
    fn the_same_size_is_the_same_face() {
        let face = disc(13, 20);
        assert_eq!(face.resampled(13, 20), Ok(face));
    }

    #[test]
    fn a_disc_stays_a_disc() {
        for (strands, rows) in [(8, 12), (24, 40), (13, 60)] {
            let (found, wanted) = (disc(16, 26).resampled(strands, rows).unwrap(), disc(strands, rows));
            let off = found.knots().iter().zip(wanted.knots()).filter(|(one, other)| one != other).count();
            assert_eq!(found.knots().len(), wanted.knots().len());
            assert!(off * 10 <= wanted.knots().len(), "{off} of {}", wanted.knots().len());
        }
    }

    #[test]
    fn places_without_a_knot_and_of_any_color_are_kept() {
        let rows = vec![vec![Some(None), None]; 1];
        let face = WishedFace::from_rows(4, false, &rows).unwrap();
        assert_eq!(face.resampled(8, 1).unwrap().marks(), [vec![Some(None), Some(None), None, None]]);
        assert_eq!(face.resampled(1, 4), Err(NoFace::StrandCount { strands: 1 }));
        assert!(matches!(face.resampled(200, 10_000), Err(NoFace::TooManyKnots { .. })));
    }
}
