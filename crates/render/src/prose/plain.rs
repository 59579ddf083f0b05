//! Instructions as plain text.

use super::document::ProseBlock;
use knotwright_wording::without_hidden;
use unicode_width::UnicodeWidthStr;

/// Lines are never set narrower than this.
const LEAST: usize = 24;

/// What is before the first line of a text, and before each of its other lines.
#[derive(Default)]
struct HangingIndent<'a> {
    first: &'a str,
    others: &'a str,
}

pub(super) fn write_plain(blocks: &[ProseBlock], columns: usize) -> String {
    let mut out = String::new();
    let mut before: Option<&ProseBlock> = None;
    let seen = blocks.iter().filter(|block| !matches!(block, ProseBlock::Drawing { .. }));
    for block in seen {
        let joined = matches!((before, block), (Some(ProseBlock::Step { .. }), ProseBlock::Step { .. }));
        if before.is_some() && !joined {
            out.push('\n');
        }
        out.push_str(&set(block, columns.max(LEAST)));
        before = Some(block);
    }
    out
}

fn set(block: &ProseBlock, columns: usize) -> String {
    match block {
        ProseBlock::Heading(level, text) => heading(*level, text, columns),
        ProseBlock::Text(text) => wrapped(text, &HangingIndent::default(), columns),
        ProseBlock::List(items) => {
            let indent = HangingIndent { first: "- ", others: "  " };
            items.iter().map(|item| wrapped(item, &indent, columns)).collect()
        }
        ProseBlock::Table(rows) => table(rows),
        ProseBlock::Drawing { .. } => String::new(),
        ProseBlock::Step { depth, number, text } => {
            let (indent, marker) = ("    ".repeat(*depth), format!("{number:>2}. "));
            let first = format!("{indent}{marker}");
            let others = format!("{indent}{}", " ".repeat(marker.len()));
            wrapped(text, &HangingIndent { first: &first, others: &others }, columns)
        }
        ProseBlock::Aside { depth, text, .. } => {
            let indent = "    ".repeat(depth + 1);
            wrapped(text, &HangingIndent { first: &indent, others: &indent }, columns)
        }
    }
}

fn heading(level: u8, text: &str, columns: usize) -> String {
    let lines = wrapped(text, &HangingIndent::default(), columns);
    let longest = lines.lines().map(UnicodeWidthStr::width).max().unwrap_or(0);
    match level {
        1 => format!("{lines}{}\n", "=".repeat(longest)),
        2 => format!("{lines}{}\n", "-".repeat(longest)),
        _ => lines,
    }
}

/// Whether a line may end here: a hard space keeps a number and its unit together.
fn is_break(letter: char) -> bool {
    letter.is_whitespace() && letter != '\u{a0}'
}

/// Text in lines of at most that many columns.
fn wrapped(text: &str, indent: &HangingIndent<'_>, columns: usize) -> String {
    let mut out = String::from(indent.first);
    let mut column = indent.first.width();
    let mut fresh = true;
    for word in without_hidden(text).split(is_break).filter(|word| !word.is_empty()) {
        let width = word.width();
        if !fresh && column + 1 + width > columns {
            out.push('\n');
            out.push_str(indent.others);
            (column, fresh) = (indent.others.width(), true);
        }
        if !fresh {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
        fresh = false;
    }
    out.push('\n');
    out
}

/// Columns as wide as their widest cell.
fn table(rows: &[Vec<String>]) -> String {
    let rows: Vec<Vec<String>> =
        rows.iter().map(|row| row.iter().map(|cell| without_hidden(cell)).collect()).collect();
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.width()).max();
    let widths: Vec<usize> = (0..columns).map(|column| width(column).unwrap_or(0)).collect();
    let mut out = String::new();
    for row in &rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(&widths) {
            line.push_str(cell);
            line.push_str(&" ".repeat(width + 2 - cell.width()));
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_longer_than_asked_for() {
        let text =
            "Take the third strand from the right (sand): tie a backward knot on each of the next eight.";
        let step = ProseBlock::Step { depth: 1, number: 7, text: text.into() };
        let set = write_plain(&[step], 40);
        assert!(set.lines().all(|line| line.width() <= 40), "{set}");
        assert!(set.starts_with("     7. Take the third"), "{set}");
        assert!(set.lines().skip(1).all(|line| line.starts_with("        ")), "{set}");
    }

    #[test]
    fn wide_letters_keep_the_columns() {
        let row = |cells: [&str; 2]| cells.map(str::to_owned).to_vec();
        let set = write_plain(&[ProseBlock::Table(vec![row(["1", "\u{6d77}"]), row(["10", "a"])])], 40);
        assert_eq!(set, "1   \u{6d77}\n10  a\n");
    }
}
