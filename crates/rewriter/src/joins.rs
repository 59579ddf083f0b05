//! Lines that say where strands are joined, put into the text of a pattern.

mod spots;

pub use spots::{JoinSpot, SpotAt, list_join_spots};

use crate::rewrite::{Original, in_place_of, line_end};
use crate::steps::write_place;
use knotwright_band::normal_form;
use knotwright_checker::{Part, PartKind, Pattern, Source, analyze};
use knotwright_formatter::{Edit, apply_text_edits};
use knotwright_grammar::tree::{Block, Expr, LeaderChart, RepeatBlock, RowsChart, Statement};
use knotwright_grammar::{Span, Token, TokenKind};
use knotwright_numbers::ToNumber;
use spots::find_statement;

/// A line to be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NewJoin {
    /// Where.
    pub at: JoinSpot,
    /// Where the strand hangs there, from 0.
    pub position: u8,
    /// The set in which it is joined, from 0; `None` in an opening or a closing.
    pub set: Option<u64>,
}

/// A pattern with lines that join strands.
#[derive(Debug, Clone)]
pub struct Joined {
    /// The whole text.
    pub text: String,
    /// What makes that text of the original: edits in order and apart from one another.
    pub edits: Vec<Edit>,
    /// What it ties.
    pub pattern: Pattern,
}

/// Why the lines are not written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotJoined {
    /// The pattern has errors.
    Unsound,
    /// There is no such place in the text.
    NoSpot,
    /// The new text would not tie the same band. This is a bug.
    NotProved,
}

/// The line that joins a strand of a band with that many.
pub fn write_join(join: &NewJoin, strands: usize) -> String {
    let place = write_place(usize::from(join.position), strands);
    let set = join.set.map(|set| format!(" in set {}", set + 1)).unwrap_or_default();
    format!("join {place}{set}")
}

/// Writes lines into a pattern; everything else stays byte for byte. The answer was read and tied again: it has no error, and
/// ties the same knots.
///
/// # Errors
/// [`NotJoined`].
pub fn add_joins(original: Original<'_>, joins: &[NewJoin]) -> Result<Joined, NotJoined> {
    if !original.source.parsed.problems.is_empty() {
        return Err(NotJoined::Unsound);
    }
    let mut joins = joins.to_vec();
    joins.sort_by_key(|join| (join.at, join.set, join.position));
    let strands = original.pattern.strands.len();
    let mut lines: Vec<JoinLines> = Vec::new();
    for alike in joins.chunk_by(|one, other| one.at == other.at) {
        let new = alike.iter().map(|join| write_join(join, strands)).collect();
        lines.extend(alike.first().map(|join| JoinLines { spot: join.at, lines: new }));
    }
    let mut edits: Vec<Edit> = Vec::new();
    let is_of_one = |one: &JoinLines, other: &JoinLines| {
        (one.spot.block, one.spot.index) == (other.spot.block, other.spot.index)
    };
    for of_statement in lines.chunk_by(is_of_one) {
        edits.extend(edits_of(original, of_statement)?);
    }
    edits.sort_by_key(|edit| edit.span);
    let text = apply_text_edits(&original.source.text, &edits);
    let pattern = prove(original, &text)?;
    Ok(Joined { text, edits, pattern })
}

/// The lines that are written at one spot.
struct JoinLines {
    spot: JoinSpot,
    lines: Vec<String>,
}

/// What is to be written at one statement, from its top to its end.
fn edits_of(original: Original<'_>, all: &[JoinLines]) -> Result<Vec<Edit>, NotJoined> {
    let first = all.first().ok_or(NotJoined::NoSpot)?;
    let (block, statement) = find_statement(original.source, first.spot).ok_or(NotJoined::NoSpot)?;
    let mut edits = Vec::new();
    for JoinLines { spot, lines } in all {
        match spot.at {
            SpotAt::Above => edits.extend(above_statement(original, lines, block, statement)?),
            SpotAt::Row(row) => edits.push(between_rows(original, lines, statement, row)?),
            SpotAt::Pass(_) => {}
        }
    }
    edits.extend(between_passes(original, all, statement)?);
    Ok(edits)
}

/// The lines above a statement, and above the comments that stand right above it.
fn above_statement(
    original: Original<'_>,
    lines: &[String],
    block: &Block,
    statement: &Statement,
) -> Result<Vec<Edit>, NotJoined> {
    let text = &*original.source.text;
    let end = line_end(text);
    let start = statement.span.start.to_usize();
    if is_first_of_line(text, statement.span.start) {
        let indent = indent_of(text, start);
        let at = above_comments(original.source, start);
        let new: String = lines.iter().map(|line| format!("{indent}{line}{end}")).collect();
        return Ok(vec![Edit { span: Span::new(at, at), text: new }]);
    }
    // `set { work fan() }`: the block gets lines of its own.
    let close = block.close.ok_or(NotJoined::Unsound)?;
    let outer = indent_of(text, block.open.start.to_usize());
    let last = statement.span.end.to_usize();
    let new: String = lines.iter().map(|line| format!("{end}{outer}  {line}")).collect();
    Ok(vec![
        Edit { span: Span::new(block.open.end.to_usize(), start), text: format!("{new}{end}{outer}  ") },
        Edit { span: Span::new(last, close.start.to_usize()), text: format!("{end}{outer}") },
    ])
}

/// The chart ends above that row, and goes on below the lines.
fn between_rows(
    original: Original<'_>,
    lines: &[String],
    statement: &Statement,
    row: usize,
) -> Result<Edit, NotJoined> {
    let text = &*original.source.text;
    let rows = statement.get().map(|rows: &RowsChart| &rows.chart);
    let chart = rows.or_else(|| statement.get().map(|leader: &LeaderChart| &leader.chart));
    let chart = chart.ok_or(NotJoined::NoSpot)?;
    let row = chart.rows.get(row).ok_or(NotJoined::NoSpot)?;
    let (start, open) = (statement.span.start.to_usize(), chart.open.end.to_usize());
    let (end, indent) = (line_end(text), indent_of(text, start));
    let at = above_comments(original.source, row.span.start.to_usize());
    let lines = std::iter::once("}").chain(lines.iter().map(String::as_str)).chain([&text[start..open]]);
    Ok(Edit { span: Span::new(at, at), text: lines.map(|line| format!("{indent}{line}{end}")).collect() })
}

/// A `repeat` goes up to the first of these passes, and on in another one below the lines.
fn between_passes(
    original: Original<'_>,
    all: &[JoinLines],
    statement: &Statement,
) -> Result<Vec<Edit>, NotJoined> {
    let pass = |of: &JoinLines| if let SpotAt::Pass(pass) = of.spot.at { Some(pass) } else { None };
    let passes: Vec<(u32, &JoinLines)> = all.iter().filter_map(|of| Some((pass(of)?, of))).collect();
    let Some(&(first, _)) = passes.first() else { return Ok(Vec::new()) };
    let Some(RepeatBlock { times: Expr::Number(times), block }) = statement.get() else {
        return Err(NotJoined::NoSpot);
    };
    let text = &*original.source.text;
    let close = block.close.ok_or(NotJoined::Unsound)?.end.to_usize();
    let (end, indent) = (line_end(text), indent_of(text, statement.span.start.to_usize()));
    let body = &text[block.open.start.to_usize()..close];
    let ends = passes.iter().skip(1).map(|(pass, _)| i64::from(*pass)).chain([i64::from(times.value)]);
    let mut rest = String::new();
    for ((pass, JoinLines { lines, .. }), until) in passes.iter().zip(ends) {
        rest.extend(lines.iter().map(|line| format!("{end}{indent}{line}")));
        rest += &format!("{end}{indent}repeat {} {body}", until - i64::from(*pass));
    }
    Ok(vec![
        Edit { span: times.span, text: first.to_string() },
        Edit { span: Span::new(close, close), text: rest },
    ])
}

/// Whether nothing but space stands before a place in its line.
fn is_first_of_line(text: &str, at: u32) -> bool {
    let at = at.to_usize();
    text[line_start(text, at)..at].chars().all(|sign| sign == ' ' || sign == '\t')
}

fn line_start(text: &str, at: usize) -> usize {
    text[..at].rfind(['\n', '\r']).map_or(0, |end| end + 1)
}

/// The space at the beginning of the line of a place.
fn indent_of(text: &str, at: usize) -> &str {
    let line = &text[line_start(text, at)..];
    &line[..line.len() - line.trim_start_matches([' ', '\t']).len()]
}

/// Where the comments begin that stand line by line right above the line of a place.
fn above_comments(source: &Source, place: usize) -> usize {
    let text = &*source.text;
    let mut at = line_start(text, place);
    let line = at;
    let is_comment = |token: &&Token| token.kind == TokenKind::Comment && token.span.end.to_usize() <= line;
    for comment in source.parsed.tokens.iter().rev().filter(is_comment) {
        let (start, end) = (comment.span.start, comment.span.end.to_usize());
        let gap = &text[end..at];
        let is_next = gap.trim().is_empty() && gap.matches('\n').count().max(gap.matches('\r').count()) <= 1;
        if !is_next || !is_first_of_line(text, start) {
            break;
        }
        at = line_start(text, start.to_usize());
    }
    at
}

fn prove(original: Original<'_>, text: &str) -> Result<Pattern, NotJoined> {
    let tied = analyze(in_place_of(original, text), original.library);
    if !tied.errors().is_empty() {
        return Err(NotJoined::NotProved);
    }
    let pattern = tied.into_pattern().ok_or(NotJoined::NotProved)?;
    let form = |part: &Part| (normal_form(&part.piece), part.piece.order().to_vec());
    let same = |part: PartKind| pattern.part(part).map(form) == original.pattern.part(part).map(form);
    match PartKind::ALL.into_iter().all(same) {
        true => Ok(pattern),
        false => Err(NotJoined::NotProved),
    }
}
