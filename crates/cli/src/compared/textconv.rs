//! A band as text that a line-by-line comparison is good at: the same band gives the same lines, however it is
//! written, and a knot changed is a line changed.

use crate::bands::Band;
use crate::visible::on_one_line;
use knotwright_band::{Chart, Kind};
use knotwright_checker::PatternThread;
use knotwright_rewriter::{Part, list};

/// Threads that hang in the band, strands, and each part as rows.
pub(crate) fn textconv(band: &Band) -> String {
    let pattern = &band.pattern;
    let mut out = format!("pattern {}\n", on_one_line(&pattern.title));
    let hangs = |(number, _): &(usize, &PatternThread)| pattern.strands.contains(&(*number as u16));
    for (_, thread) in pattern.threads.iter().enumerate().filter(hangs) {
        let knotwright_color::Rgb { red, green, blue } = thread.color;
        out += &format!("thread {} #{red:02x}{green:02x}{blue:02x}\n", thread.name);
    }
    out += &format!("strands {}\n", list(pattern, &pattern.strands));
    for part in Part::ALL {
        let Some(piece) = part.piece(pattern) else { continue };
        let chart = Chart::of(&piece);
        out += &format!("{}{}\n", part.word(), if chart.offset() { " offset" } else { "" });
        for (row, marks) in chart.rows().enumerate() {
            let indented = (row % 2 == 1) != chart.offset();
            let marks: Vec<&str> = marks.into_iter().map(mark).collect();
            out += format!("  {}{}", if indented { " " } else { "" }, marks.join(" ")).trim_end();
            out.push('\n');
        }
    }
    out
}

fn mark(kind: Option<Kind>) -> &'static str {
    knotwright_rewriter::mark(kind)
}
