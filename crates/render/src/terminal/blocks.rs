//! Half blocks: every character is two points, one above the other, each with a color of its own.

use knotwright_numbers::ToNumber;
use std::fmt::Write;

use knotwright_color::Rgb;

use super::field::Field;
use crate::Band;
use crate::placed::Placed;

/// The most points to a position; more only make the band longer.
const MOST_POINTS: f64 = 4.0;

/// Strands that are seen above the first and below the last row, in rows.
const FREE: f64 = 2.0;

pub(super) fn write_blocks(out: &mut String, band: &Band<'_>, placed: &[Placed], columns: usize) {
    let field = Field::new(band, placed);
    let strands = band.strands.len().max(1).to_f64();
    let room = columns.to_f64() / strands;
    // Whole points to a position, so that all knots look alike; less than one only if there is no room.
    let points = if room >= 1.0 { room.floor().min(MOST_POINTS) } else { room };
    let across = (strands * points).floor().to_usize();
    // A point is as high as it is wide; a row is this many points high.
    let row = points * pitch(band);
    let down = ((f64::from(field.rows()) + FREE * 2.0) * row).ceil().to_usize();
    let at = |x: usize, y: usize| field.at((x.to_f64() + 0.5) / points, (y.to_f64() + 0.5) / row - FREE);
    for line in 0..down.div_ceil(2) {
        let mut pairs: Vec<_> = (0..across).map(|x| (at(x, line * 2), at(x, line * 2 + 1))).collect();
        let seen = pairs.iter().rposition(|pair| *pair != (None, None)).map_or(0, |last| last + 1);
        pairs.truncate(seen);
        characters(out, pairs);
    }
}

/// How high a row is, in widths of a position.
fn pitch(band: &Band<'_>) -> f64 {
    let pitch = band.gauge.pitch / band.gauge.width;
    if pitch.is_finite() { pitch.clamp(0.5, 4.0) } else { 1.0 }
}

/// The colors of a character and of what is behind it; `None`: the terminal's own.
#[derive(Clone, Copy, Default, PartialEq, Eq)]
struct CellColors {
    ink: Option<Rgb>,
    ground: Option<Rgb>,
}

fn characters(out: &mut String, pairs: Vec<(Option<Rgb>, Option<Rgb>)>) {
    let mut now = CellColors::default();
    for (upper, lower) in pairs {
        let (ink, ground, character) = match (upper, lower) {
            (None, None) => (None, None, ' '),
            (None, Some(lower)) => (Some(lower), None, '▄'),
            (Some(upper), ground) => (Some(upper), ground, '▀'),
        };
        dip(out, &mut now, CellColors { ink, ground });
        out.push(character);
    }
    dip(out, &mut now, CellColors::default());
    out.push('\n');
}

/// Changes the colors of ink and ground, if they change.
fn dip(out: &mut String, now: &mut CellColors, next: CellColors) {
    if now.ink.is_some() && next.ink.is_none() || now.ground.is_some() && next.ground.is_none() {
        out.push_str("\x1b[0m");
        *now = CellColors::default();
    }
    for (layer, before, color) in [(38, now.ink, next.ink), (48, now.ground, next.ground)] {
        if let Some(Rgb { red, green, blue }) = color.filter(|_| color != before) {
            // A String takes whatever is written: the result says nothing.
            let _ = write!(out, "\x1b[{layer};2;{red};{green};{blue}m");
        }
    }
    *now = next;
}

/// Two characters of a color.
pub(super) fn write_swatch(Rgb { red, green, blue }: Rgb) -> String {
    format!("\x1b[38;2;{red};{green};{blue}m██\x1b[0m")
}
