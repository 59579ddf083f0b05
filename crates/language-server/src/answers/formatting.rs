//! The canonical form, as the least edits.

use crate::documents::{DocumentText, Snapshot};
use knotwright_formatter::{Edit, apply_text_edits, format, format_text};
use knotwright_grammar::{Span, parse};
use knotwright_numbers::ToNumber;
use knotwright_workspace::{Fenced, fenced_patterns};
use tower_lsp::ls_types::{Position, Range, TextEdit};

/// All of them. In Markdown they are those of each pattern.
pub(crate) fn format_document(snapshot: &Snapshot) -> Vec<TextEdit> {
    let edits = if snapshot.text.is_page() { in_page(&snapshot.text) } else { in_pattern(snapshot) };
    edits.into_iter().map(|edit| TextEdit { range: snapshot.range(edit.span), new_text: edit.text }).collect()
}

fn in_pattern(snapshot: &Snapshot) -> Vec<Edit> {
    let source = snapshot.source();
    format(&source.text, &source.parsed)
}

fn in_page(page: &DocumentText) -> Vec<Edit> {
    let markdown = String::from(&page.rope);
    let fenced = fenced_patterns(&markdown);
    let edits: Vec<Edit> = fenced.iter().flat_map(|fenced| in_block(&markdown, fenced)).collect();
    if leave_all_else(&markdown, &fenced, &edits) { edits } else { Vec::new() }
}

/// A pattern is formatted as it would be in a file, and each line then put after its marks.
fn in_block(markdown: &str, fenced: &Fenced) -> Vec<Edit> {
    let alone = fenced.alone(markdown);
    let edits = format(&alone.text, &parse(&alone.text)).into_iter();
    let placed = |Edit { span, text }| {
        let (place, text) = alone.placed(span.start.to_usize()..span.end.to_usize(), &text);
        Edit { span: Span::new(place.start, place.end), text }
    };
    edits.map(placed).collect()
}

/// Whether the page has the same patterns afterwards, each as it would be in a file. Markdown has many corners; where
/// one was overlooked, the page had better stay as it is.
fn leave_all_else(markdown: &str, before: &[Fenced], edits: &[Edit]) -> bool {
    let new = apply_text_edits(markdown, edits);
    let after = fenced_patterns(&new);
    let is_well_set = |(before, after): (&Fenced, &Fenced)| {
        format_text(&before.alone(markdown).text) == after.alone(&new).text
    };
    before.len() == after.len() && before.iter().zip(&after).all(is_well_set)
}

/// Those on the lines of a range. A range that ends before the first sign of a line does not mean that line.
pub(crate) fn format_range(snapshot: &Snapshot, range: Range) -> Vec<TextEdit> {
    let Range { start, end } = range;
    let last = if end.character == 0 && end.line > start.line { end.line - 1 } else { end.line };
    on_lines(snapshot, start.line, last)
}

/// Those on the line that was just finished: the one before a line break, or the one with a brace.
pub(crate) fn format_on_type(snapshot: &Snapshot, at: Position, typed: &str) -> Vec<TextEdit> {
    match typed {
        "\n" if at.line == 0 => Vec::new(),
        "\n" => on_lines(snapshot, at.line - 1, at.line - 1),
        _ => on_lines(snapshot, at.line, at.line),
    }
}

fn on_lines(snapshot: &Snapshot, first: u32, last: u32) -> Vec<TextEdit> {
    let mut edits = format_document(snapshot);
    edits.retain(|edit| first <= edit.range.start.line && edit.range.end.line <= last);
    edits
}

#[cfg(test)]
mod tests {
    #![allow(clippy::disallowed_methods, reason = "tests read files")]

    use super::*;
    use std::fs;
    use std::path::Path;

    /// Samples that are not well set, in quotes and in lists: each becomes what it would be in a file.
    #[test]
    fn every_sample_is_formatted_behind_every_mark() {
        let shared = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/corpus/accepted");
        let texts =
            fs::read_dir(shared).unwrap().map(|file| fs::read_to_string(file.unwrap().path()).unwrap());
        let texts = texts
            .filter(|text| !text.contains(['`', '\t', '\r', '\u{feff}']))
            .map(|text| text.replace(' ', "  "));
        let mut total = 0;
        for (number, text) in texts.enumerate() {
            let marks = ["", "> ", "   ", "> > "][number % 4];
            let block = format!("```knot\n{text}\n```\n");
            let block: String = block.split_inclusive('\n').map(|line| format!("{marks}{line}")).collect();
            let markdown = format!("{}\n{block}\nEnd   of it.\n", if marks == "   " { "1. a\n" } else { "" });
            let fenced = fenced_patterns(&markdown);
            assert_eq!(fenced.len(), 1, "{markdown}");
            let edits = in_block(&markdown, &fenced[0]);
            let new = apply_text_edits(&markdown, &edits);
            assert_eq!(
                fenced_patterns(&new)[0].alone(&new).text,
                format_text(&format!("{text}\n")),
                "{markdown}"
            );
            assert!(leave_all_else(&markdown, &fenced, &edits), "{markdown}");
            assert!(new.ends_with("```\n\nEnd   of it.\n"), "{new}");
            total += edits.len();
        }
        assert!(total > 100, "only {total} edits");
    }
}
