//! The colors that are written in a document.

use crate::documents::Snapshot;
use knotwright_color::Rgb;
use knotwright_editor as editor;
use knotwright_numbers::ToNumber;
use tower_lsp::ls_types::{Color, ColorInformation, ColorPresentation, Range, TextEdit};

/// The colors, each at its place.
pub(crate) fn document_colors(snapshot: &Snapshot) -> Vec<ColorInformation> {
    let part = |part: u8| f32::from(part) / 255.0;
    let written = |pattern: &Snapshot| {
        let found = editor::document_colors(pattern.source()).into_iter();
        let one = |written: editor::WrittenColor| {
            let Rgb { red, green, blue } = written.color;
            let color = Color { red: part(red), green: part(green), blue: part(blue), alpha: 1.0 };
            ColorInformation { range: pattern.range(written.span), color }
        };
        found.map(one).collect::<Vec<_>>()
    };
    snapshot.patterns().iter().flat_map(written).collect()
}

/// How a color can be written at a place. Threads are opaque.
pub(crate) fn color_presentations(color: Color, range: Range) -> Vec<ColorPresentation> {
    let part = |part: f32| (part.clamp(0.0, 1.0) * 255.0).round().to_u8();
    let color = Rgb::new(part(color.red), part(color.green), part(color.blue));
    let ways = editor::color_presentations(color).into_iter();
    ways.map(|label| ColorPresentation {
        text_edit: Some(TextEdit { range, new_text: label.clone() }),
        label,
        additional_text_edits: None,
    })
    .collect()
}
