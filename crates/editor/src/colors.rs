//! The colors that are written in a file, and how else they could be written.

use knotwright_checker::Source;
use knotwright_color::Rgb;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Bead, Statement, Text, Thread};

/// A color as written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WrittenColor {
    /// Where.
    pub span: Span,
    /// Which.
    pub color: Rgb,
}

/// All colors of threads, beads and colorways, in order of place; of a thread that changes color, each of them.
pub fn document_colors(source: &Source) -> Vec<WrittenColor> {
    let written = |text: &Text| Some(WrittenColor { span: text.span, color: text.value.parse().ok()? });
    let colors_of = |statement: &Statement| -> Vec<WrittenColor> {
        let threads = statement.get::<Thread>().into_iter().flat_map(Thread::colors).map(|(color, _)| color);
        let beads = statement.get::<Bead>().map(|bead| &bead.color);
        threads.chain(beads).filter_map(written).collect()
    };
    source.parsed.tree.walk().flat_map(colors_of).collect()
}

/// How `color` can be written: `#rrggbb` first, then the names that CSS has for it.
pub fn color_presentations(color: Rgb) -> Vec<String> {
    let named = knotwright_color::color_names().into_iter().filter(|name| name.parse() == Ok(color));
    std::iter::once(color.to_string()).chain(named.map(str::to_owned)).collect()
}
