//! Text that is the same everywhere and safe in XML.

use knotwright_numbers::ToNumber;
use knotwright_wording::printable;
use std::fmt::Write;

/// Writes a number with at most two decimals, always the same way.
pub(crate) fn write_number(out: &mut String, value: f64) {
    let hundredths = if value.is_finite() { (value * 100.0).round().to_i64() } else { 0 };
    if hundredths < 0 {
        out.push('-');
    }
    let (whole, rest) = (hundredths.unsigned_abs() / 100, hundredths.unsigned_abs() % 100);
    // A String takes whatever is written: the result says nothing.
    let _ = match (rest / 10, rest % 10) {
        (0, 0) => write!(out, "{whole}"),
        (tenth, 0) => write!(out, "{whole}.{tenth}"),
        (tenth, hundredth) => write!(out, "{whole}.{tenth}{hundredth}"),
    };
}

/// Writes text so that it is text in XML and HTML, in an element or in a quoted attribute. Hidden signs are left out, and
/// what no XML can hold.
pub(crate) fn write_escaped(out: &mut String, text: &str) {
    for letter in text.chars().filter_map(printable) {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\u{fffe}' | '\u{ffff}' => {}
            other => out.push(other),
        }
    }
}
