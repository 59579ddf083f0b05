//! Columns of words and numbers for people.

/// A row of cells. Each column is as wide as its widest cell; those named in `left` begin at their left edge, the
/// others end at their right.
pub(crate) fn table(rows: &[Vec<String>], left: &[usize]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let wide = |cell: &String| cell.chars().count();
    let width = |column: usize| rows.iter().filter_map(|row| row.get(column)).map(wide).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut out = String::new();
    for row in rows {
        let mut line = String::new();
        for (column, cell) in row.iter().enumerate() {
            let pad = " ".repeat(widths[column] - wide(cell));
            let between = if column > 0 { "  " } else { "" };
            line += &if left.contains(&column) {
                format!("{between}{cell}{pad}")
            } else {
                format!("{between}{pad}{cell}")
            };
        }
        out += line.trim_end();
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::table;

    #[test]
    fn names_begin_and_numbers_end_in_line() {
        let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
        let rows = [row(["strand", "color", "cut"]), row(["1", "\u{e9}t\u{e9}", "95 cm"])];
        assert_eq!(table(&rows, &[1]), "strand  color    cut\n     1  \u{e9}t\u{e9}    95 cm\n");
    }
}
