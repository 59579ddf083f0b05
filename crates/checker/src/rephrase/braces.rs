//! Braces that are missing, put in where the block ends; those that are too many, taken out.

use super::is_among_first;
use super::orphans::Orphans;
use super::twins::Twins;
use crate::{Edit, FileId, Mend, Place, Source};
use knotwright_grammar::{Problem, ProblemKind, Span, TokenKind};

/// How a brace without its partner is put right. Who wrote a line twice wants it once, and what is indented is a block.
pub(crate) fn mend_braces(problem: &Problem, source: &Source, file: FileId) -> Vec<Mend> {
    let twin = Twins::of(problem, source).map(|twins| twins.leave_out_second(source, file));
    let mut mends: Vec<Mend> = twin.into_iter().collect();
    let orphans = Orphans::of(problem, source);
    if let Some(orphans) = orphans.filter(|_| is_among_first(problem, source)) {
        mends.extend(orphans.put_in_opening(source, file));
    }
    // Where a block is lost, its line is missing: its brace is left out only by who wants so.
    let is_guess = orphans.is_some();
    mends.extend(mend_brace(problem, source, file).map(|mend| Mend { is_guess, ..mend }));
    mends
}

fn mend_brace(problem: &Problem, source: &Source, file: FileId) -> Option<Mend> {
    let edit = match &problem.kind {
        ProblemKind::MissingClose => {
            missing_close(source, problem.span).map(|edit| ("write `}` at the end of the block", edit))
        }
        ProblemKind::OpenAtEnd { opened } => {
            let title =
                if opened.len() == 1 { "write `}` at the end" } else { "write the missing `}` at the end" };
            Some((title, close_all(source, opened)))
        }
        // One more stands on its line than opens there.
        ProblemKind::Unexpected { .. } if problem.span.of(&source.text) == "}" => {
            Some(("leave out this `}`", (problem.span, String::new())))
        }
        ProblemKind::StrayClose => {
            let is_elsewhere = Orphans::of(problem, source).is_some();
            let title = if is_elsewhere { "leave out the `}` behind it" } else { "leave out this `}`" };
            Some((title, (line(source, problem.span), String::new())))
        }
        _ => None,
    };
    let mend = |(title, (span, text)): (&str, (Span, String))| {
        Mend::new(title, vec![Edit { place: Place { file, span }, text }], false)
    };
    edit.map(mend)
}

/// A `}` for the `{` at `open`, behind the last statement that belongs to its block.
fn missing_close(source: &Source, open: Span) -> Option<(Span, String)> {
    let is_holder = |holder: &&knotwright_grammar::tree::Statement| {
        let block = holder.node.block().map(|block| block.open);
        block.or_else(|| holder.node.chart().map(|chart| chart.open)) == Some(open)
    };
    let end = source.parsed.tree.walk().find(is_holder)?.span.end;
    // Nobody writes an empty block, and the same line again below it.
    if end == open.end && Twins::at(open, source).is_some() {
        return None;
    }
    Some(closing(source, open, end))
}
use knotwright_numbers::ToNumber;

fn closing(source: &Source, open: Span, end: u32) -> (Span, String) {
    let text = &source.text;
    let is_inline = !text[open.end.to_usize()..end.to_usize()].contains('\n') && end > open.end;
    let at = if is_inline { end } else { end + to_line_end(&text[end.to_usize()..]) };
    let close = if is_inline { " }".to_owned() } else { format!("\n{}}}", indent(text, open)) };
    (Span { start: at, end: at }, close)
}

/// A `}` for each of these, the innermost first, behind the last words of the text.
fn close_all(source: &Source, opened: &[Span]) -> (Span, String) {
    let text = &source.text;
    let tokens = source.parsed.tokens.iter().rev();
    let end =
        tokens.into_iter().find(|token| token.kind != TokenKind::Newline).map_or(0, |token| token.span.end);
    let is_comment = source.parsed.comments.last().is_some_and(|comment| comment.end == end);
    let mut closes = String::new();
    for open in opened.iter().rev() {
        let is_inline = !is_comment
            && open.end < end
            && !text[open.end.to_usize()..end.to_usize()].contains(['\n', '\r']);
        match is_inline {
            true => closes.push_str(" }"),
            false => closes.push_str(&format!("\n{}}}", indent(text, *open))),
        }
    }
    closes.push('\n');
    (Span { start: end, end: text.len().to_u32() }, closes)
}

fn to_line_end(text: &str) -> u32 {
    text.find(['\n', '\r']).unwrap_or(text.len()).to_u32()
}

/// The white space before the line of `open`.
fn indent(text: &str, open: Span) -> &str {
    let line = &text[open.whole_lines(text).start.to_usize()..];
    &line[..line.len() - line.trim_start_matches([' ', '\t']).len()]
}

/// `span`, with its line if nothing else stands on it.
pub(super) fn line(source: &Source, span: Span) -> Span {
    let text = &source.text;
    let start = text[..span.start.to_usize()].trim_end_matches([' ', '\t']).len();
    let rest = &text[span.end.to_usize()..];
    let end = span.end.to_usize() + (rest.len() - rest.trim_start_matches([' ', '\t']).len());
    let is_alone = text[..start].is_empty() || text[..start].ends_with(['\n', '\r']);
    let breaks =
        text[end..].strip_prefix("\r\n").map(|_| 2).or(text[end..].strip_prefix(['\n', '\r']).map(|_| 1));
    match breaks.filter(|_| is_alone) {
        Some(breaks) => Span::new(start, end + breaks),
        None => span,
    }
}
