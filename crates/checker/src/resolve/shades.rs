//! Threads that change color along their length: how far each color goes.

use super::threads::color;
use crate::facts::Facts;
use crate::{ColorLengthTrouble, FactKind, FileId, Place, Shade};
use knotwright_color::Rgb;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Length, Text, Thread};
use std::ops::RangeInclusive;

/// How far a color can go, in millimeters. Common practice, no source: less is not seen as a color, and more is longer
/// than what is wound on one skein.
const POSSIBLE: RangeInclusive<f64> = 1.0..=10_000.0;

/// The colors of a thread that changes color, the `first` of which is known; none of one that does not, or of which it
/// is not known how far they go.
pub(super) fn read_shades(thread: &Thread, first: Rgb, file: FileId, facts: &mut Facts) -> Vec<Shade> {
    if thread.changes.is_none() {
        return Vec::new();
    }
    let written: Vec<(&Text, Option<&Length>)> = thread.colors().collect();
    if let [(color, Some(length))] = written.as_slice() {
        let after = Place { file, span: Span { start: color.span.end, end: length.span.end } };
        say(Place { file, span: length.span }, ColorLengthTrouble::Alone { after }, facts);
        return Vec::new();
    }
    let shades = written.iter().enumerate().map(|(number, (text, length))| {
        let rgb = if number == 0 { first } else { color(text, file, facts) };
        let instead = || usual(&written, *length);
        let trouble = match length.map(|length| length.millimeters) {
            None => ColorLengthTrouble::Missing { instead: instead() },
            Some(none) if none <= 0.0 => ColorLengthTrouble::Zero { instead: instead() },
            Some(far) if !POSSIBLE.contains(&far) => ColorLengthTrouble::Implausible { millimeters: far },
            Some(length) => return Some(Shade { color: rgb, length }),
        };
        say(Place { file, span: length.map_or(text.span, |length| length.span) }, trouble, facts);
        None
    });
    // Every color is looked at, and what is wrong with it is reported.
    let shades: Vec<Option<Shade>> = shades.collect();
    shades.into_iter().collect::<Option<_>>().unwrap_or_default()
}

fn say(place: Place, trouble: ColorLengthTrouble, facts: &mut Facts) {
    if place.file == FileId::CHECKED {
        facts.say(place, FactKind::ColorLength(trouble));
    }
}

/// The length of all other colors in millimeters, if it is one.
fn usual(written: &[(&Text, Option<&Length>)], but: Option<&Length>) -> Option<f64> {
    let lengths = written.iter().filter_map(|(_, length)| *length).filter(|length| Some(*length) != but);
    let mut others = lengths.map(|length| length.millimeters);
    let first = others.next().filter(|length| POSSIBLE.contains(length))?;
    others.all(|other| other == first).then_some(first)
}
