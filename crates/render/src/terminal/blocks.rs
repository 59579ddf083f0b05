//! Half blocks: every character is two points, one above the other, each with a color of its own.

use std::fmt::Write;

use knotwright_color::Rgb;

use super::field::Field;
use crate::Band;
use crate::placed::Placed;

/// The most points to a position; more only make the band longer.
const MOST_POINTS: f64 = 4.0;

/// Strands that are seen above the first and below the last row, in rows.
const FREE: f64 = 2.0;

pub(super) fn write(out: &mut String, band: &Band<'_>, placed: &[Placed], columns: usize) {
    let field = Field::new(band, placed);
    let strands = band.strands.len().max(1) as f64;
    let room = columns as f64 / strands;
    // Whole points to a position, so that all knots look alike; less than one only if there is no room.
    let points = if room >= 1.0 { room.floor().min(MOST_POINTS) } else { room };
    let across = (strands * points).floor() as usize;
    // A point is as high as it is wide; a row is so many of them.
    let row = points * pitch(band);
    let down = ((f64::from(field.rows()) + FREE * 2.0) * row).ceil() as usize;
    let at = |x: usize, y: usize| field.at((x as f64 + 0.5) / points, (y as f64 + 0.5) / row - FREE);
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

fn characters(out: &mut String, pairs: Vec<(Option<Rgb>, Option<Rgb>)>) {
    let mut now = (None, None);
    for (upper, lower) in pairs {
        let (ink, ground, character) = match (upper, lower) {
            (None, None) => (None, None, ' '),
            (None, Some(lower)) => (Some(lower), None, '▄'),
            (Some(upper), ground) => (Some(upper), ground, '▀'),
        };
        dip(out, &mut now, (ink, ground));
        out.push(character);
    }
    dip(out, &mut now, (None, None));
    out.push('\n');
}

/// Changes the colors of ink and ground, if they change.
fn dip(out: &mut String, now: &mut (Option<Rgb>, Option<Rgb>), next: (Option<Rgb>, Option<Rgb>)) {
    if now.0.is_some() && next.0.is_none() || now.1.is_some() && next.1.is_none() {
        out.push_str("\x1b[0m");
        *now = (None, None);
    }
    for (layer, before, color) in [(38, now.0, next.0), (48, now.1, next.1)] {
        if let Some(Rgb { red, green, blue }) = color.filter(|_| color != before) {
            // A String takes whatever is written: the result says nothing.
            let _ = write!(out, "\x1b[{layer};2;{red};{green};{blue}m");
        }
    }
    *now = next;
}

/// Two characters of a color.
pub(super) fn swatch(Rgb { red, green, blue }: Rgb) -> String {
    format!("\x1b[38;2;{red};{green};{blue}m██\x1b[0m")
}
