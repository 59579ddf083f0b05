//! Letters in a leader, as rows of marks.

use knotwright_grammar::tree::Letters;
use knotwright_lettering::{LaidLetters, Lettering};
use knotwright_numbers::ToNumber;

/// The rows of letters where a leader crosses `columns` strands.
pub(crate) fn laid(letters: &Letters, columns: usize) -> Option<LaidLetters> {
    let height = letters.height.map(|height| height.value.to_usize());
    Lettering { text: &letters.text.value, across: letters.across.is_some(), height }.lay(columns).ok()
}

/// Rows in the marks of the notation, with `between` them.
pub(crate) fn marks(rows: &[&Vec<bool>], between: &str) -> String {
    let row = |row: &&Vec<bool>| {
        let marks: Vec<&str> = row.iter().map(|ink| if *ink { "#" } else { "." }).collect();
        marks.join(" ")
    };
    rows.iter().map(row).collect::<Vec<_>>().join(between)
}
