//! Knots as a chart.

use knotwright_band::{Kind, KnotChart, Piece};

/// The statements, one a line, without indentation except for the rows, which are in bricks. A chart that `repeats`
/// has an even number of rows, the last one empty if need be, so that it begins again with the pairs that are due.
pub(crate) fn write_chart(piece: &Piece, repeats: bool) -> Vec<String> {
    let chart = KnotChart::of(piece);
    let rows = chart.rows().map(|marks| marks.into_iter().map(write_mark).collect::<Vec<_>>().join(" "));
    if piece.strands() == 2 {
        // One gap: every second row has no pair, and cannot be written. So each knot is a chart of its own.
        let knots = rows.filter(|row| !row.is_empty());
        return knots.flat_map(|row| ["rows {".to_owned(), row, "}".to_owned()]).collect();
    }
    let first = if chart.offset() { "rows offset {" } else { "rows {" };
    let odd = chart.height() % 2 == 1;
    let empty = (repeats && odd).then(|| vec![write_mark(None); chart.pairs(chart.height())].join(" "));
    let in_bricks = |(number, row): (usize, String)| match chart.offset() == (number % 2 == 0) {
        true => format!(" {row}"),
        false => row,
    };
    let rows = rows.chain(empty).enumerate().map(in_bricks);
    std::iter::once(first.to_owned()).chain(rows).chain(["}".to_owned()]).collect()
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
