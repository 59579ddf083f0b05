//! Thread that a band needs more or less than another.

use super::palette::Palette;
use crate::bands::BandFile;
use knotwright_checker::Extent;
use knotwright_maker::{MeasureOptions, Measured};

/// A color of which another length is needed. Lengths to cut, in millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ThreadChange {
    pub(crate) color: u16,
    pub(crate) before: f64,
    pub(crate) after: f64,
}

/// Less than this is no change, in millimeters.
const LEAST: f64 = 10.0;

/// Whether two bands are measured with one set each, as one of them does not say how long it is.
pub(super) fn is_with_one_set(one: &BandFile, other: &BandFile) -> bool {
    let is_open = |band: &BandFile| band.pattern.extent == Extent::Open;
    is_open(one) || is_open(other)
}

/// The colors whose lengths differ by a centimeter or more.
pub(super) fn thread_changes(one: &BandFile, other: &BandFile, palette: &Palette) -> Vec<ThreadChange> {
    let one_set = is_with_one_set(one, other).then_some(Extent::Sets(1));
    let wish = MeasureOptions { extent: one_set, ..MeasureOptions::default() };
    let lengths = |band: usize, of: &BandFile| -> Option<Vec<f64>> {
        let measured = Measured::new(&of.pattern, wish).ok()?;
        let mut lengths = vec![0.0; usize::from(palette.count())];
        for (thread, .., length) in measured.by_color() {
            *lengths.get_mut(usize::from(palette.color(band, thread)))? += length;
        }
        Some(lengths)
    };
    let (Some(before), Some(after)) = (lengths(0, one), lengths(1, other)) else { return Vec::new() };
    let all = before.into_iter().zip(after).zip(0_u16..);
    all.map(|((before, after), color)| ThreadChange { color, before, after })
        .filter(|change| (change.before - change.after).abs() >= LEAST)
        .collect()
}
