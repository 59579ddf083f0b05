//! A text as a face.

use super::explain_no_face;
use crate::commands::new::no_letters;
use crate::terminal::Failure;
use knotwright_color::Rgb;
use knotwright_designer::WishedFace;
use knotwright_lettering::Lettering;
use knotwright_maker::{DrawnFace, FaceThread};

/// The threads of letters: the ground, and the ink.
const GROUND: (&str, Rgb) = ("night", Rgb::new(0x1b, 0x2a, 0x49));
const INK: (&str, Rgb) = ("foam", Rgb::new(0xee, 0xf3, 0xea));

/// A text along the band, each point of its letters two knots: one in a row, and one half a step on in the next. Without a
/// number of strands, as many as the least letters need, with an empty column at each edge.
///
/// # Errors
/// The text has no letters, or they need more strands.
pub(crate) fn draw_letters(text: &str, strands: Option<u8>) -> Result<DrawnFace, Failure> {
    let lettering = Lettering { text, across: false, height: None };
    let needs = lettering.needs().map_err(no_letters)?;
    let strands = strands.map_or(2 * (needs + 2) + 1, usize::from);
    let columns = strands.saturating_sub(1) / 2;
    if columns < needs {
        return Err(Failure::said(format_args!(
            "these letters need at least {} strands, not {strands}",
            2 * needs + 1
        )));
    }
    let laid = lettering.lay(columns).map_err(no_letters)?;
    let points = laid.letters.iter().flat_map(|letter| &letter.rows);
    let rows: Vec<_> = points
        .flat_map(|points| [points, points])
        .enumerate()
        .map(|(row, points)| knots(row, points, strands))
        .collect();
    let face = WishedFace::from_rows(strands, false, &rows).map_err(explain_no_face)?;
    let threads = [GROUND, INK].map(|(name, color)| FaceThread { name: name.to_owned(), color });
    Ok(DrawnFace { face, threads: threads.to_vec() })
}

/// The knots of a row. An even number of strands has a pair more in every other row, at the right edge: ground.
fn knots(row: usize, points: &[bool], strands: usize) -> Vec<Option<Option<u16>>> {
    let mut knots: Vec<_> = points.iter().map(|is_ink| Some(Some(u16::from(*is_ink)))).collect();
    knots.resize((strands - 1 - row % 2).div_ceil(2), Some(Some(0)));
    knots
}
