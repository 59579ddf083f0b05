//! Instructions as plain text.

use super::document::Block;
use unicode_width::UnicodeWidthStr;

/// Lines are never set narrower than this.
const LEAST: usize = 24;

pub(super) fn write(blocks: &[Block], columns: usize) -> String {
    let mut out = String::new();
    let mut before: Option<&Block> = None;
    for block in blocks {
        let joined = matches!((before, block), (Some(Block::Step { .. }), Block::Step { .. }));
        if before.is_some() && !joined {
            out.push('\n');
        }
        out.push_str(&set(block, columns.max(LEAST)));
        before = Some(block);
    }
    out
}

fn set(block: &Block, columns: usize) -> String {
    match block {
        Block::Heading(level, text) => heading(*level, text, columns),
        Block::Text(text) => wrapped(text, ("", ""), columns),
        Block::List(items) => items.iter().map(|item| wrapped(item, ("- ", "  "), columns)).collect(),
        Block::Table(rows) => table(rows),
        Block::Step { depth, number, text } => {
            let (indent, marker) = ("    ".repeat(*depth), format!("{number:>2}. "));
            let after = format!("{indent}{}", " ".repeat(marker.len()));
            wrapped(text, (&format!("{indent}{marker}"), &after), columns)
        }
        Block::Aside { depth, text, .. } => {
            let indent = "    ".repeat(depth + 1);
            wrapped(text, (&indent, &indent), columns)
        }
    }
}

fn heading(level: u8, text: &str, columns: usize) -> String {
    let lines = wrapped(text, ("", ""), columns);
    let longest = lines.lines().map(UnicodeWidthStr::width).max().unwrap_or(0);
    match level {
        1 => format!("{lines}{}\n", "=".repeat(longest)),
        2 => format!("{lines}{}\n", "-".repeat(longest)),
        _ => lines,
    }
}

/// Text in lines; `indent`: of the first line and of the others.
fn wrapped(text: &str, indent: (&str, &str), columns: usize) -> String {
    let mut out = String::from(indent.0);
    let mut column = indent.0.width();
    let mut fresh = true;
    for word in clean(text).split_whitespace() {
        let width = word.width();
        if !fresh && column + 1 + width > columns {
            out.push('\n');
            out.push_str(indent.1);
            (column, fresh) = (indent.1.width(), true);
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
        rows.iter().map(|row| row.iter().map(|cell| clean(cell)).collect()).collect();
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

fn clean(text: &str) -> String {
    text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_longer_than_asked_for() {
        let text =
            "Take the third strand from the right (sand): tie a backward knot on each of the next eight.";
        let step = Block::Step { depth: 1, number: 7, text: text.into() };
        let set = write(&[step], 40);
        assert!(set.lines().all(|line| line.width() <= 40), "{set}");
        assert!(set.starts_with("     7. Take the third"), "{set}");
        assert!(set.lines().skip(1).all(|line| line.starts_with("        ")), "{set}");
    }

    #[test]
    fn wide_letters_keep_the_columns() {
        let row = |cells: [&str; 2]| cells.map(str::to_owned).to_vec();
        let set = write(&[Block::Table(vec![row(["1", "\u{6d77}"]), row(["10", "a"])])], 40);
        assert_eq!(set, "1   \u{6d77}\n10  a\n");
    }
}
