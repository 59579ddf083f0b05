//! The canonical form, as the least edits.

use crate::documents::Snapshot;
use knotwright_formatter::format;
use tower_lsp::ls_types::{Position, Range, TextEdit};

/// All of them. Markdown is left alone, as `knotwright format` leaves it.
pub(crate) fn format_all(snapshot: &Snapshot) -> Vec<TextEdit> {
    if snapshot.text.is_markdown() {
        return Vec::new();
    }
    let source = snapshot.source();
    let edits = format(&source.text, &source.parsed).into_iter();
    edits.map(|edit| TextEdit { range: snapshot.range(edit.span), new_text: edit.text }).collect()
}

/// Those on the lines of a range. A range that ends before the first sign of a line does not mean that line.
pub(crate) fn format_range(snapshot: &Snapshot, range: Range) -> Vec<TextEdit> {
    let Range { start, end } = range;
    let last = if end.character == 0 && end.line > start.line { end.line - 1 } else { end.line };
    on_lines(snapshot, start.line, last)
}

/// Those on the line that was just finished: the one before a line break, or the one with a brace.
pub(crate) fn format_typed(snapshot: &Snapshot, at: Position, typed: &str) -> Vec<TextEdit> {
    match typed {
        "\n" if at.line == 0 => Vec::new(),
        "\n" => on_lines(snapshot, at.line - 1, at.line - 1),
        _ => on_lines(snapshot, at.line, at.line),
    }
}

fn on_lines(snapshot: &Snapshot, first: u32, last: u32) -> Vec<TextEdit> {
    let mut edits = format_all(snapshot);
    edits.retain(|edit| first <= edit.range.start.line && edit.range.end.line <= last);
    edits
}
