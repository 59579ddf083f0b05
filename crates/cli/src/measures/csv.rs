//! The cut list as comma-separated values (RFC 4180): a line a strand or, of strands that are joined, a line a piece, and one
//! a thread that goes around an end, lengths in millimeters.

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
    "pattern,strand,color,working,base,idle_rows,low_mm,likely_mm,high_mm,cut_mm,piece\r\n";

/// A line for each strand, or for each of its pieces if it is joined, then one for each thread that goes around an end, which
/// is no strand and ties nothing; `path` is the pattern's file.
pub(crate) fn csv(path: &str, measured: &Measured) -> String {
    let mut out = String::new();
    let path = field(path);
    for (strand, (pieces, stretches)) in measured.strand_pieces.iter().zip(&measured.stretches).enumerate() {
        for (piece, (_, stretch)) in pieces.iter().zip(stretches) {
            let (used, need) = (stretch.used, piece.need);
            let (working, base, idle) = (used.working, used.base, used.idle_rows(stretch.rows));
            let name = field(measured.name(piece.thread));
            out += &format!("{path},{},{name},{working},{base},{idle},", strand + 1);
            out += &format!("{:.1},{:.1},{:.1},", need.low, need.likely, need.high);
            out += &format!("{:.1},{}\r\n", piece.cut, piece.number + 1);
        }
    }
    for own in &measured.own {
        let name = field(measured.name(own.thread));
        let line = format!("{path},,{name},,,,,,,{:.1},\r\n", own.length);
        out.extend((0..own.count).map(|_| line.as_str()));
    }
    out
}
