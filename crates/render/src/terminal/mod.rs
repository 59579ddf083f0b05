//! The picture in a terminal: half blocks in 24-bit color, or letters.

mod blocks;
mod field;
mod plain;

use unicode_width::UnicodeWidthChar;

use crate::Band;
use crate::placed::place;

/// How a terminal is written to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TerminalOptions {
    /// How many columns there are; no line is longer.
    pub columns: usize,
    /// Whether it shows 24-bit color; otherwise threads are letters.
    pub color: bool,
    /// Whether the threads are named below.
    pub legend: bool,
}

impl Default for TerminalOptions {
    fn default() -> Self {
        Self { columns: 80, color: false, legend: true }
    }
}

/// Writes a band as lines of text. With color the lines hold SGR sequences and each ends with a reset; nothing that
/// comes from a pattern can add a sequence of its own.
pub fn terminal(band: &Band<'_>, options: &TerminalOptions) -> String {
    let knots = place(band);
    let columns = options.columns.max(1);
    let mut out = String::new();
    if options.color {
        blocks::write(&mut out, band, &knots, columns);
    } else {
        plain::write(&mut out, band, &knots, columns);
    }
    if options.legend {
        let letters = crate::letters::letters(&band.threads);
        out.push('\n');
        for (thread, letter) in band.threads.iter().zip(letters) {
            let mark = if options.color { blocks::swatch(thread.color) } else { letter.to_string() };
            let width = if options.color { 2 } else { letter.width().unwrap_or(1) };
            out.push_str(&mark);
            out.push_str(&cut(&format!(" {}", thread.name), columns.saturating_sub(width)));
            out.push('\n');
        }
    }
    out
}

/// As much of a text as fits. What could steer the terminal or turn its writing round is left out.
fn cut(text: &str, columns: usize) -> String {
    let mut left = columns;
    let tame = text.chars().filter(|letter| !steers(*letter));
    tame.take_while(|letter| {
        let width = letter.width().unwrap_or(0);
        let fits = width <= left;
        left = left.saturating_sub(width);
        fits
    })
    .collect()
}

fn steers(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}
