//! A piece as rows of marks, and back.

use crate::{Cell, Kind, MOST_STRANDS, Piece, PieceError, normal_form};
use knotwright_numbers::ToNumber;

/// A band drawn in bricks: in each row every second gap, in turn from gap 0 (or 1) and from gap 1 (or 0).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnotChart {
    strands: u8,
    offset: bool,
    height: u32,
    /// Row 0 is the chart's first.
    cells: Vec<Cell>,
}

/// Why rows are no chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChartError {
    /// A row with more or fewer marks than there are pairs in it.
    RowLength {
        /// The row, from 0.
        row: usize,
        /// Its marks.
        marks: usize,
        /// How many are due.
        wanted: usize,
    },
    /// It cannot be tied.
    Piece(PieceError),
}

impl KnotChart {
    /// The chart of a piece: its normal form, drawn. Leaders' rows are drawn in bricks too.
    pub fn of(piece: &Piece) -> Self {
        let mut cells = normal_form(piece);
        let first = cells.first().map_or(0, |cell| cell.row);
        cells.iter_mut().for_each(|cell| cell.row -= first);
        let height = cells.last().map_or(0, |cell| cell.row + 1);
        Self { strands: piece.strands().to_u8(), offset: first == 1, height, cells }
    }

    /// A chart from rows of marks; `offset`: the first row begins with the gap between strands 1 and 2 (from 0).
    ///
    /// # Errors
    /// [`ChartError::RowLength`], and [`PieceError::TooManyStrands`] or [`PieceError::TooManyKnots`] within
    /// [`ChartError::Piece`].
    pub fn from_rows(strands: usize, offset: bool, rows: &[Vec<Option<Kind>>]) -> Result<Self, ChartError> {
        if strands > MOST_STRANDS {
            return Err(ChartError::Piece(PieceError::TooManyStrands { strands }));
        }
        let mut chart =
            Self { strands: strands.to_u8(), offset, height: rows.len().to_u32(), cells: Vec::new() };
        for (row, marks) in rows.iter().enumerate() {
            let wanted = chart.pairs(row.to_u32());
            if marks.len() != wanted {
                return Err(ChartError::RowLength { row, marks: marks.len(), wanted });
            }
            let first = chart.first_gap(row.to_u32());
            let cell = |(at, kind): (usize, &Option<Kind>)| {
                kind.map(|kind| Cell { row: row.to_u32(), gap: first + 2 * at.to_u8(), kind })
            };
            chart.cells.extend(marks.iter().enumerate().filter_map(cell));
            if chart.cells.len() > crate::MOST_KNOTS {
                return Err(ChartError::Piece(PieceError::TooManyKnots));
            }
        }
        Ok(chart)
    }

    /// Whether the first row begins with gap 1.
    pub fn offset(&self) -> bool {
        self.offset
    }

    /// How many rows it has.
    pub fn height(&self) -> u32 {
        self.height
    }

    /// How many pairs of strands there are in a row.
    pub fn pairs(&self, row: u32) -> usize {
        let gaps = usize::from(self.strands).saturating_sub(1);
        gaps.saturating_sub(usize::from(self.first_gap(row))).div_ceil(2)
    }

    fn first_gap(&self, row: u32) -> u8 {
        ((row + u32::from(self.offset)) % 2).to_u8()
    }

    /// Its rows, each with one mark for each pair of strands; `None` is no knot.
    pub fn rows(&self) -> impl Iterator<Item = Vec<Option<Kind>>> {
        let mut rest = &self.cells[..];
        (0..self.height).map(move |row| {
            let (here, after) = rest.split_at(rest.partition_point(|cell| cell.row == row));
            rest = after;
            let mut marks = vec![None; self.pairs(row)];
            here.iter().for_each(|cell| marks[usize::from(cell.gap / 2)] = Some(cell.kind));
            marks
        })
    }

    /// The piece that the chart says, tied row by row from the left.
    ///
    /// # Errors
    /// None, as its parts were looked at when the chart was made; the type is that of [`Piece::tie`].
    pub fn piece(&self) -> Result<Piece, PieceError> {
        Piece::tie(usize::from(self.strands), self.cells.iter().map(|cell| (cell.gap, cell.kind)))
    }
}
