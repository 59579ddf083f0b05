//! Knots as a chart.
//!
//! The brick layout of a piece is the chart: a row of the layout is a row of marks, and gaps without a knot in it are dots.
//! So a piece has one chart, whichever way it was tied, and what is read back is the same band. The size is worked out
//! before anything is written, as a long thin band (two strands in a corner of two hundred) is mostly dots.

use crate::RewriteError;
use knotwright_band::{Kind, KnotChart, Piece, Rows};
use knotwright_grammar::LARGEST_TEXT;
use knotwright_numbers::ToNumber;

/// The statements, one a line, without indentation except for the rows, which are in bricks. A chart that `repeats`
/// has an even number of rows, the last one empty if need be, so that it begins again with the pairs that are due.
///
/// # Errors
/// [`RewriteError::TooLarge`]: nobody could read it again, and in memory its rows are many times as large.
pub(crate) fn write_chart(piece: &Piece, repeats: bool) -> Result<Vec<String>, RewriteError> {
    if least_bytes(piece) > LARGEST_TEXT {
        return Err(RewriteError::TooLarge);
    }
    let chart = KnotChart::of(piece);
    let rows = chart.rows().map(|marks| marks.into_iter().map(write_mark).collect::<Vec<_>>().join(" "));
    if piece.strands() == 2 {
        // One gap: every second row has no pair, and cannot be written. So each knot is a chart of its own.
        let knots = rows.filter(|row| !row.is_empty());
        return Ok(knots.flat_map(|row| ["rows {".to_owned(), row, "}".to_owned()]).collect());
    }
    let first = if chart.offset() { "rows offset {" } else { "rows {" };
    let odd = chart.height() % 2 == 1;
    let empty = (repeats && odd).then(|| vec![write_mark(None); chart.pairs(chart.height())].join(" "));
    let in_bricks = |(number, row): (usize, String)| match chart.offset() == (number % 2 == 0) {
        true => format!(" {row}"),
        false => row,
    };
    let rows = rows.chain(empty).enumerate().map(in_bricks);
    Ok(std::iter::once(first.to_owned()).chain(rows).chain(["}".to_owned()]).collect())
}

/// A chart has no fewer bytes: each mark has something after it, a space or the end of its row.
fn least_bytes(piece: &Piece) -> usize {
    let mut rows = Rows::new(piece.strands());
    rows.lay(&piece.in_bricks());
    // Two rows have a mark for each gap.
    rows.height().to_usize() / 2 * 2 * piece.gaps()
}

/// How a knot of a kind, or none, is written in `rows`.
pub fn write_mark(kind: Option<Kind>) -> &'static str {
    match kind {
        Some(Kind::Forward) => "\\",
        Some(Kind::Backward) => "/",
        Some(Kind::ForwardBackward) => ">",
        Some(Kind::BackwardForward) => "<",
        None => ".",
    }
}
