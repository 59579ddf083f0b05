//! The colors that are written in a file, and how else they could be written.

use knotwright_checker::Source;
use knotwright_color::Rgb;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Bead, Statement, Thread};

/// A color as written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WrittenColor {
    /// Where.
    pub span: Span,
    /// Which.
    pub color: Rgb,
}

/// All colors of threads, beads and colorways, in order of place.
pub fn document_colors(source: &Source) -> Vec<WrittenColor> {
    let color_of = |statement: &'_ Statement| -> Option<WrittenColor> {
        let thread = statement.get::<Thread>().map(|thread| &thread.color);
        let written = thread.or_else(|| statement.get::<Bead>().map(|bead| &bead.color))?;
        Some(WrittenColor { span: written.span, color: written.value.parse().ok()? })
    };
    source.parsed.tree.walk().filter_map(color_of).collect()
}

/// How `color` can be written: `#rrggbb` first, then the names that CSS has for it.
pub fn color_presentations(color: Rgb) -> Vec<String> {
    let named = knotwright_color::color_names().into_iter().filter(|name| name.parse() == Ok(color));
    std::iter::once(color.to_string()).chain(named.map(str::to_owned)).collect()
}
