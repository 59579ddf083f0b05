//! The cut list as comma-separated values (RFC 4180): a line a strand, and one a thread that goes around an end, lengths in
//! millimeters.

use knotwright_maker::Measured;

/// A field: in quotes if it needs them. Names of threads hold none of the signs that a spreadsheet takes for a formula.
pub(crate) fn field(text: &str) -> String {
    if text.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

/// The names of the columns.
pub(crate) const HEADER: &str =
    "pattern,strand,color,working,base,idle_rows,low_mm,likely_mm,high_mm,cut_mm\r\n";

/// A line for each strand, then one for each thread that goes around an end, which is no strand and ties nothing; `path` is
/// the pattern's file.
pub(crate) fn csv(path: &str, measured: &Measured) -> String {
    let mut out = String::new();
    let path = field(path);
    let strands = measured.whole.uses.iter().zip(&measured.lengths).zip(&measured.cuts).enumerate();
    for (strand, ((of, length), cut)) in strands {
        let (working, base, idle) = (of.working, of.base, of.idle_rows(measured.whole.rows));
        let name = field(measured.thread_of(strand));
        out += &format!("{path},{},{name},{working},{base},{idle},", strand + 1);
        out += &format!("{:.1},{:.1},{:.1},{cut:.1}\r\n", length.low, length.likely, length.high);
    }
    for own in &measured.own {
        let name = field(measured.name(own.thread));
        let line = format!("{path},,{name},,,,,,,{:.1}\r\n", own.length);
        out.extend((0..own.count).map(|_| line.as_str()));
    }
    out
}
