//! Knots as `take` statements.
//!
//! The knots come in the order in which they are to be tied; neighbors with one working strand are one `take`, neighbors
//! of one kind within it one run, and statements that come again and again a `repeat`. Strands are named by their place
//! from the nearer edge, never by color: a place is right in every set, a color only where the colors come back. The
//! color is next to it as a promise.

use crate::Heading;
use knotwright_band::{Kind, Knot, Piece};
use knotwright_checker::{Pattern, Phrase};
use knotwright_numbers::ToNumber;
use std::fmt::Write;
use std::ops::Range;

/// The strands as they hang, by name.
pub(crate) struct StrandNames<'a> {
    pattern: &'a Pattern,
    /// By position as the part begins, the thread there.
    threads: Vec<u16>,
    /// Whether colors are promised: only where they hang so every time the part is tied.
    promise: bool,
}

impl<'a> StrandNames<'a> {
    pub(crate) fn new(pattern: &'a Pattern, threads: Vec<u16>, promise: bool) -> Self {
        Self { pattern, threads, promise }
    }

    fn of(&self, strand: u8) -> Option<&str> {
        let thread = self.threads.get(usize::from(strand)).filter(|_| self.promise)?;
        self.pattern.threads.get(usize::from(*thread)).map(|thread| thread.name.as_str())
    }
}

/// The statements, one a line, without indentation.
pub(crate) fn write_steps(piece: &Piece, headings: &[Heading], names: &StrandNames) -> Vec<String> {
    let mut out = Vec::new();
    let tied = Tied { piece, names };
    let mut done = 0;
    for heading in headings {
        let (start, end) = (heading.knots.start.to_usize(), heading.knots.end.to_usize());
        out.extend(tied.takes(done..start));
        out.push(format!("section {} {{", written(&heading.title)));
        out.extend(tied.takes(start..end));
        out.push("}".to_owned());
        done = end;
    }
    out.extend(tied.takes(done..piece.knots().len()));
    out
}

/// A series of knots as a `take`, without its line end: `take left 1 (kelp): forward 3`. `threads`: by position as the
/// piece begins, the thread there; `series`: knots that one strand ties without being let go, one after another. A
/// range that is none is left out.
pub fn write_takes(pattern: &Pattern, threads: &[u16], piece: &Piece, series: &[Range<u32>]) -> Vec<String> {
    let names = StrandNames::new(pattern, threads.to_vec(), true);
    let tied = Tied { piece, names: &names };
    let knots = |range: &Range<u32>| piece.knots().get(range.start.to_usize()..range.end.to_usize());
    series.iter().filter_map(knots).filter(|knots| !knots.is_empty()).map(|knots| tied.take(knots)).collect()
}

struct Tied<'a> {
    piece: &'a Piece,
    names: &'a StrandNames<'a>,
}

impl Tied<'_> {
    fn takes(&self, knots: Range<usize>) -> Vec<String> {
        let knots = self.piece.knots().get(knots).unwrap_or_default();
        let takes = knots.chunk_by(|one, next| one.working == next.working).map(|series| self.take(series));
        again_and_again(takes.collect())
    }

    fn take(&self, series: &[Knot]) -> String {
        let first = series[0];
        let at = place(first);
        let mut take = format!("take {}", self.edge(at));
        if let Some(color) = self.names.of(first.working) {
            let _ = write!(take, " ({color})");
        }
        let runs: Vec<String> =
            series.chunk_by(|one, next| one.kind == next.kind).map(|run| self.run(run)).collect();
        let _ = write!(take, ": {}", runs.join(", "));
        take
    }

    /// A position as counted from the nearer edge.
    fn edge(&self, at: usize) -> String {
        let strands = self.piece.strands();
        if at < strands.div_ceil(2) { format!("left {}", at + 1) } else { format!("right {}", strands - at) }
    }

    fn run(&self, run: &[Knot]) -> String {
        format!("{} {}", write_kind(run[0].kind), self.extent(run))
    }

    fn extent(&self, run: &[Knot]) -> String {
        let (count, last) = (run.len(), run[run.len() - 1]);
        let edge = match last.kind {
            Kind::Forward => usize::from(last.gap) + 2 == self.piece.strands(),
            Kind::Backward => last.gap == 0,
            Kind::ForwardBackward | Kind::BackwardForward => false,
        };
        if edge && count > 1 {
            return "to edge".to_owned();
        }
        match self.one_color(run).filter(|_| count > 2 && last.kind.swaps()) {
            Some(color) => format!("{count} over {color}"),
            None => count.to_string(),
        }
    }

    /// The color of all base strands, if it is one.
    fn one_color(&self, run: &[Knot]) -> Option<&str> {
        let color = self.names.of(run[0].base)?;
        run.iter().all(|knot| self.names.of(knot.base) == Some(color)).then_some(color)
    }
}

/// Where the working strand hangs as a knot begins.
fn place(knot: Knot) -> usize {
    usize::from(knot.gap) + usize::from(!knot.kind.left_works())
}

/// How a kind is written.
pub fn write_kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Forward => "forward",
        Kind::Backward => "backward",
        Kind::ForwardBackward => "forward-backward",
        Kind::BackwardForward => "backward-forward",
    }
}

/// The most different statements that are tried as one pass of a repeat.
const LONGEST_PASS: usize = 12;

/// Statements that come again and again, as repeats.
fn again_and_again(takes: Vec<String>) -> Vec<String> {
    let mut out = Vec::new();
    let mut rest = &takes[..];
    while let Some((first, others)) = rest.split_first() {
        let passes = |length: usize| {
            let (pass, after) = rest.split_at(length);
            1 + after.chunks_exact(length).take_while(|again| *again == pass).count()
        };
        let lengths = 1..=LONGEST_PASS.min(rest.len() / 2);
        // Most statements saved; of two that save as many, the shorter pass.
        let best =
            lengths.map(|length| ((passes(length) - 1) * length, length)).rev().max_by_key(|best| best.0);
        match best {
            Some((saved, length)) if saved > 1 => {
                out.push(format!("repeat {} {{", saved / length + 1));
                out.extend_from_slice(&rest[..length]);
                out.push("}".to_owned());
                rest = &rest[saved + length..];
            }
            _ => {
                out.push(first.clone());
                rest = others;
            }
        }
    }
    out
}

/// A text as it is written in a pattern, with what it is in other languages.
fn written(phrase: &Phrase) -> String {
    let quoted = |text: &str| format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""));
    let others = phrase.others.iter().map(|(tag, text)| format!(", {tag} {}", quoted(text)));
    std::iter::once(quoted(&phrase.text)).chain(others).collect()
}

#[cfg(test)]
mod tests {
    use super::again_and_again;

    fn repeated(takes: &str) -> String {
        again_and_again(takes.chars().map(String::from).collect()).concat()
    }

    #[test]
    fn what_comes_again_is_a_repeat() {
        assert_eq!(repeated("abc"), "abc");
        assert_eq!(repeated("aab"), "aab", "two lines are no shorter as a repeat");
        assert_eq!(repeated("xaaaa"), "xrepeat 4 {a}");
        assert_eq!(repeated("abababc"), "repeat 3 {ab}c");
        assert_eq!(repeated("abcabc"), "repeat 2 {abc}");
        assert_eq!(repeated("ababa"), "repeat 2 {ab}a");
        assert_eq!(repeated(""), "");
    }
}
