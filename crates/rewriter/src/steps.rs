//! Knots as `take` statements.
//!
//! The knots come in the order in which they are to be tied; neighbors with one working strand are one `take`, neighbors
//! of one kind within it one run, and statements that come again and again a `repeat`. Strands are named by their place
//! from the nearer edge, never by color: a place is right in every set, a color only where the colors come back. The
//! color is next to it as a promise.

use crate::Heading;
use crate::idle::{IdleLine, Moments, write_idle};
use knotwright_band::{Kind, Knot, Piece};
use knotwright_checker::{Pattern, Phrase};
use knotwright_numbers::ToNumber;
use std::collections::HashSet;
use std::fmt::Write;
use std::iter::Peekable;
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

    fn of(&self, thread: u16) -> Option<&str> {
        self.pattern
            .threads
            .get(usize::from(thread))
            .filter(|_| self.promise)
            .map(|thread| thread.name.as_str())
    }
}

/// The statements, one a line, without indentation, with the lines that tie nothing among them.
///
/// # Errors
/// The line, by number, that has no place.
pub(crate) fn write_steps(
    piece: &Piece,
    headings: &[Heading],
    names: &StrandNames,
    idle: &[IdleLine],
) -> Result<Vec<String>, usize> {
    let tied = Tied::new(piece, names);
    let end = piece.knots().len();
    let mut idle = place_idle(&tied, headings, idle)?.into_iter().peekable();
    let mut out = Vec::new();
    let mut done = 0;
    for (number, heading) in headings.iter().enumerate() {
        let (start, end) = (heading.knots.start.to_usize(), heading.knots.end.to_usize());
        out.extend(tied.takes(done..start, take_segment(&mut idle, 2 * number)));
        out.push(format!("section {} {{", written(&heading.title)));
        out.extend(tied.takes(start..end, take_segment(&mut idle, 2 * number + 1)));
        out.push("}".to_owned());
        done = end;
    }
    out.extend(tied.takes(done..end, idle.collect()));
    Ok(out)
}

/// A line that ties nothing, at its place.
struct PlacedLine {
    /// How many knots are tied before it.
    before: usize,
    /// Twice the number of headings above it, and one more if it is in a section.
    segment: usize,
    text: String,
}

fn take_segment(lines: &mut Peekable<impl Iterator<Item = PlacedLine>>, segment: usize) -> Vec<PlacedLine> {
    std::iter::from_fn(|| lines.next_if(|line| line.segment == segment)).collect()
}

/// The lines in the order in which they are written. A line stays in its section if that stays; it stands between two
/// takes if it can, as near to the next knot of its strands as it can.
fn place_idle(tied: &Tied, headings: &[Heading], lines: &[IdleLine]) -> Result<Vec<PlacedLine>, usize> {
    if lines.is_empty() {
        return Ok(Vec::new());
    }
    let end = tied.piece.knots().len().to_u32();
    let starts = take_starts(tied.piece, headings);
    let own = |line: &IdleLine| {
        let section = line.section.as_ref()?;
        let at = headings.partition_point(|heading| heading.knots.start < section.start);
        headings.get(at).filter(|heading| heading.knots == *section).map(|_| at)
    };
    let around = |before: u32| {
        let at = headings.partition_point(|heading| heading.knots.end <= before);
        headings.get(at).filter(|heading| heading.knots.start < before).map(|_| at)
    };
    let choose = |line: &IdleLine, first: u32, last: u32| {
        let (mut low, mut high) = (first, last);
        match (own(line), around(last)) {
            (Some(own), _) => {
                let knots = &headings[own].knots;
                if knots.start <= last && first <= knots.end {
                    (low, high) = (first.max(knots.start), last.min(knots.end));
                }
            }
            (None, Some(other)) if first <= headings[other].knots.start => high = headings[other].knots.start,
            (None, _) => {}
        }
        let up_to = starts.partition_point(|&start| start <= high);
        starts[..up_to].last().copied().filter(|&start| start >= low).unwrap_or(high)
    };
    let places = Moments::new(tied.piece, |knot| knot.to_u32(), end).places(lines, choose)?;
    let texts = write_idle(tied.names.pattern, tied.piece, lines, &places)?;
    let mut placed: Vec<PlacedLine> = Vec::with_capacity(lines.len());
    for ((line, &before), text) in lines.iter().zip(&places).zip(texts) {
        let is_in = |at: &usize| {
            let knots = &headings[*at].knots;
            knots.start <= before && before <= knots.end
        };
        let segment = match own(line).filter(is_in).or_else(|| around(before)) {
            Some(heading) => 2 * heading + 1,
            None => {
                2 * headings
                    .partition_point(|heading| heading.knots.end <= before && heading.knots.start < before)
            }
        };
        placed.push(PlacedLine { before: before.to_usize(), segment, text });
    }
    placed.sort_by_key(|line| (line.segment, line.before));
    Ok(placed)
}

/// Before which knots a take begins, and the number of all knots.
fn take_starts(piece: &Piece, headings: &[Heading]) -> Vec<u32> {
    let knots = piece.knots();
    let edges: HashSet<u32> =
        headings.iter().flat_map(|heading| [heading.knots.start, heading.knots.end]).collect();
    let is_first =
        |at: &usize| match at.checked_sub(1).and_then(|before| Some((knots.get(before)?, knots.get(*at)?))) {
            Some((before, knot)) => before.working != knot.working || edges.contains(&at.to_u32()),
            None => true,
        };
    (0..=knots.len()).filter(is_first).map(|at| at.to_u32()).collect()
}

/// A series of knots as a `take`, without its line end: `take left 1 (kelp): forward 3`. `threads`: by position as the
/// piece begins, the thread there; `series`: knots that one strand ties without being let go, one after another. A
/// range that is none is left out.
pub fn write_takes(pattern: &Pattern, threads: &[u16], piece: &Piece, series: &[Range<u32>]) -> Vec<String> {
    let names = StrandNames::new(pattern, threads.to_vec(), true);
    let tied = Tied::new(piece, &names);
    let knots = |range: &Range<u32>| tied.knots.get(range.start.to_usize()..range.end.to_usize());
    series.iter().filter_map(knots).filter(|knots| !knots.is_empty()).map(|knots| tied.take(knots)).collect()
}

struct Tied<'a> {
    piece: &'a Piece,
    names: &'a StrandNames<'a>,
    knots: Vec<ShownKnot>,
}

/// A knot, and the threads of its two strands.
#[derive(Clone, Copy)]
struct ShownKnot {
    knot: Knot,
    working: u16,
    base: u16,
}

impl<'a> Tied<'a> {
    fn new(piece: &'a Piece, names: &'a StrandNames<'a>) -> Self {
        let threads = piece.threads_of_knots(&names.threads).into_iter();
        let shown = |(&knot, (working, base)): (&Knot, (u16, u16))| ShownKnot { knot, working, base };
        Self { piece, names, knots: piece.knots().iter().zip(threads).map(shown).collect() }
    }

    /// The takes of some knots, with lines among them.
    fn takes(&self, knots: Range<usize>, lines: Vec<PlacedLine>) -> Vec<String> {
        let mut statements = Vec::new();
        let mut done = knots.start;
        for line in lines {
            statements.extend(self.series(done..line.before));
            statements.push(line.text);
            done = line.before;
        }
        statements.extend(self.series(done..knots.end));
        again_and_again(statements)
    }

    fn series(&self, knots: Range<usize>) -> impl Iterator<Item = String> + '_ {
        let knots = self.knots.get(knots).unwrap_or_default();
        knots.chunk_by(|one, next| one.knot.working == next.knot.working).map(|series| self.take(series))
    }

    fn take(&self, series: &[ShownKnot]) -> String {
        let first = series[0];
        let mut take = format!("take {}", write_place(place(first.knot), self.piece.strands()));
        if let Some(color) = self.names.of(first.working) {
            let _ = write!(take, " ({color})");
        }
        let runs: Vec<String> =
            series.chunk_by(|one, next| one.knot.kind == next.knot.kind).map(|run| self.run(run)).collect();
        let _ = write!(take, ": {}", runs.join(", "));
        take
    }

    fn run(&self, run: &[ShownKnot]) -> String {
        format!("{} {}", write_kind(run[0].knot.kind), self.extent(run))
    }

    fn extent(&self, run: &[ShownKnot]) -> String {
        let (count, last) = (run.len(), run[run.len() - 1].knot);
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
    fn one_color(&self, run: &[ShownKnot]) -> Option<&str> {
        let color = self.names.of(run[0].base)?;
        run.iter().all(|knot| self.names.of(knot.base) == Some(color)).then_some(color)
    }
}

/// A position as counted from the nearer edge.
pub(crate) fn write_place(position: usize, strands: usize) -> String {
    match position < strands.div_ceil(2) {
        true => format!("left {}", position + 1),
        false => format!("right {}", strands - position),
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
