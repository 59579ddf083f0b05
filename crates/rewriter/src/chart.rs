//! Knots as a chart.
//!
//! The brick layout of a piece is the chart: a row of the layout is a row of marks, and gaps without a knot in it are dots.
//! So a piece has one chart, whichever way it was tied, and what is read back is the same band. The size is worked out
//! before anything is written, as a long thin band (two strands in a corner of two hundred) is mostly dots.

use crate::idle::{IdleLine, Moments, write_idle};
use knotwright_band::{Kind, KnotChart, Layout, Piece, Rows};
use knotwright_checker::Pattern;
use knotwright_grammar::LARGEST_TEXT;
use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

/// The statements, one a line, without indentation except for the rows, which are in bricks, with the lines that tie nothing
/// between two charts. What `repeats` has an even number of rows, the last one empty if need be, so that it begins again
/// with the pairs that are due.
///
/// # Errors
/// [`NotCharted`].
pub(crate) fn write_chart(
    piece: &Piece,
    repeats: bool,
    pattern: &Pattern,
    idle: &[IdleLine],
) -> Result<Vec<String>, NotCharted> {
    if least_bytes(piece) > LARGEST_TEXT {
        return Err(NotCharted::TooLarge);
    }
    let chart = KnotChart::of(piece);
    let lines = place_idle(piece, chart.height(), pattern, idle).map_err(NotCharted::NoPlace)?;
    let odd = chart.height() % 2 == 1 && piece.strands() > 2;
    let empty = (repeats && odd).then(|| vec![None; chart.pairs(chart.height())]);
    let mut lines = lines.into_iter().peekable();
    let (mut out, mut is_open) = (Vec::new(), false);
    for (number, marks) in chart.rows().chain(empty).enumerate() {
        while let Some((_, line)) = lines.next_if(|(row, _)| row.to_usize() <= number) {
            if std::mem::take(&mut is_open) {
                out.push("}".to_owned());
            }
            out.push(line);
        }
        // Of two strands, every second row has no pair, and cannot be written. So each knot is a chart of its own.
        if marks.is_empty() {
            continue;
        }
        let is_offset = chart.offset() == (number % 2 == 0) && piece.strands() > 2;
        if !is_open {
            out.push(if is_offset { "rows offset {" } else { "rows {" }.to_owned());
        }
        let row = marks.into_iter().map(write_mark).collect::<Vec<_>>().join(" ");
        out.push(if is_offset { format!(" {row}") } else { row });
        is_open = piece.strands() > 2;
        if !is_open {
            out.push("}".to_owned());
        }
    }
    out.extend(is_open.then(|| "}".to_owned()));
    out.extend(lines.map(|(_, line)| line));
    Ok(out)
}

/// Why there is no chart.
pub(crate) enum NotCharted {
    /// Nobody could read it again, and in memory its rows are many times as large.
    TooLarge,
    /// The line, by number, has no place.
    NoPlace(usize),
}

/// The lines in the order in which they are written, each with the number of rows above it. They part the chart in as few
/// places as can be.
fn place_idle(
    piece: &Piece,
    height: u32,
    pattern: &Pattern,
    lines: &[IdleLine],
) -> Result<Vec<(u32, String)>, usize> {
    if lines.is_empty() {
        return Ok(Vec::new());
    }
    let rows = Layout::of(&piece.in_bricks()).rows;
    let above = rows.iter().min().copied().unwrap_or(0);
    let row = |knot: usize| rows[knot] - above;
    let mut parted = BTreeSet::from([0, height]);
    let choose = |_: &IdleLine, first: u32, last: u32| {
        // Those from below come first.
        parted.range(first..=last).next_back().copied().unwrap_or_else(|| {
            parted.insert(last);
            last
        })
    };
    let places = Moments::new(piece, row, height).places(lines, choose)?;
    let mut by_row: Vec<usize> = (0..rows.len()).collect();
    by_row.sort_by_key(|&knot| rows[knot]);
    let order: Vec<u32> = by_row.iter().map(|knot| knot.to_u32()).collect();
    let knots_before = |&place: &u32| by_row.partition_point(|&knot| row(knot) < place).to_u32();
    let knots_before: Vec<u32> = places.iter().map(knots_before).collect();
    let texts = write_idle(pattern, &piece.in_order(&order), lines, &knots_before)?;
    let mut placed: Vec<(u32, String)> = places.into_iter().zip(texts).collect();
    placed.sort_by_key(|(place, _)| *place);
    Ok(placed)
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
