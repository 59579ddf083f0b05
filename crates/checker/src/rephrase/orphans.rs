//! The lines of a block that no line opens, as that line was lost: they are indented, and the `}` behind them closes nothing.

use super::openings::{LostLine, proposals};
use crate::{Edit, FileId, Mend, Place, Source};
use knotwright_grammar::{Problem, ProblemKind, Span};
use knotwright_numbers::ToNumber;

/// The lines of a block that no line opens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Orphans {
    /// The first of them that is no remark, from its first word to its last.
    pub(crate) first: Span,
    /// Where the lost line stood, before remarks.
    start: u32,
    /// The `}` behind them.
    pub(crate) close: Span,
}

impl Orphans {
    /// Those because of which a `}` closes nothing, as their indentation shows.
    pub(crate) fn of(problem: &Problem, source: &Source) -> Option<Self> {
        let close = (problem.kind == ProblemKind::StrayClose).then_some(problem.span)?;
        let text = &source.text;
        let before = &text[close.whole_lines(text).start.to_usize()..close.start.to_usize()];
        let own = before.trim().is_empty().then_some(before.len())?;
        let is_deeper = |line: &Span| white(line.of(text)) > own;
        let above = lines_above(text, close).take_while(|line| is_blank(line.of(text)) || is_deeper(line));
        let (mut start, mut first) = (close.start, None);
        for line in above.filter(|line| !is_blank(line.of(text))) {
            start = line.start;
            let words = Span { start: start + white(line.of(text)).to_u32(), ..line };
            first = Some(words).filter(|words| !words.of(text).starts_with("--")).or(first);
        }
        let first = first?;
        let end = first.start + first.of(text).trim_end().len().to_u32();
        Some(Self { first: Span { end, ..first }, start, close })
    }

    /// Whether such lines begin with the one at `first`.
    pub(crate) fn begin_at(first: Span, source: &Source) -> bool {
        let problems = &source.parsed.problems;
        problems.iter().any(|problem| Self::of(problem, source).is_some_and(|orphans| orphans.first == first))
    }

    /// The lost line put in, the likeliest first.
    pub(super) fn put_in_opening(self, source: &Source, file: FileId) -> Vec<Mend> {
        let white = &source.text[self.close.whole_lines(&source.text).start.to_usize()..];
        let white = &white[..self::white(white)];
        let start = self.start;
        let mend = |LostLine { line, is_guess }: LostLine| {
            let place = Place { file, span: Span { start, end: start } };
            let edits = vec![Edit { place, text: format!("{white}{line} {{\n") }];
            Mend { is_guess, ..Mend::new(format!("write `{line} {{` above this line"), edits, false) }
        };
        proposals(self, source).into_iter().map(mend).collect()
    }
}

/// The lines above the one of `at`, the nearest first.
fn lines_above(text: &str, at: Span) -> impl Iterator<Item = Span> {
    let mut start = at.whole_lines(text).start;
    std::iter::from_fn(move || {
        let before = text[..start.to_usize()].strip_suffix('\n')?;
        let before = before.strip_suffix('\r').unwrap_or(before);
        let end = before.len().to_u32();
        let line = Span { start: end, end }.whole_lines(before);
        start = line.start;
        Some(line)
    })
}

pub(super) fn white(line: &str) -> usize {
    line.len() - line.trim_start_matches([' ', '\t']).len()
}

pub(super) fn is_blank(line: &str) -> bool {
    line.trim().is_empty()
}
