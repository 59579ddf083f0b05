//! Lines that say where strands are joined, put into the text of a pattern.

use crate::rewrite::{Original, in_place_of, line_end};
use knotwright_band::normal_form;
use knotwright_checker::{FileId, Part, PartKind, Pattern, Spot, analyze};
use knotwright_formatter::{Edit, apply_text_edits};
use knotwright_grammar::tree::{Block, SectionBlock, Statement};
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;

/// A place between two statements that is passed once each time that its part is tied, and where all strands can be named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JoinSpot {
    /// The part.
    pub part: PartKind,
    /// The place.
    pub spot: Spot,
}

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
    /// The same as edits of the original, in order and apart from one another.
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

/// Where strands could be joined, in the order of the text.
pub fn list_join_spots(pattern: &Pattern) -> Vec<JoinSpot> {
    let Some(source) = pattern.sources().next() else { return Vec::new() };
    let mut spots = Vec::new();
    for statement in &source.parsed.tree.statements {
        if let (Some(part), Some(block)) = (PartKind::of(statement), statement.node.block()) {
            list_within(part, block, &mut spots);
        }
    }
    spots
}

/// The places of a block, and of the sections in it: other blocks are tied more than once, in a mirror, or with fewer strands.
fn list_within(part: PartKind, block: &Block, spots: &mut Vec<JoinSpot>) {
    for (index, statement) in block.statements.iter().enumerate() {
        let spot = Spot { file: FileId::CHECKED, block: block.open.start, index };
        spots.push(JoinSpot { part, spot });
        if let Some(SectionBlock { block, .. }) = statement.get() {
            list_within(part, block, spots);
        }
    }
}

/// The line that joins a strand of a band with that many.
pub fn write_join(join: &NewJoin, strands: usize) -> String {
    let (left, right) = (usize::from(join.position) + 1, strands - usize::from(join.position));
    let place = if left <= right { format!("left {left}") } else { format!("right {right}") };
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
    let mut edits: Vec<Edit> = Vec::new();
    let mut joins = joins.to_vec();
    joins.sort_by_key(|join| (join.at.spot.block, join.at.spot.index, join.set, join.position));
    for alike in joins.chunk_by(|one, other| one.at == other.at) {
        let Some(first) = alike.first() else { continue };
        let strands = original.pattern.strands.len();
        let lines: Vec<String> = alike.iter().map(|join| write_join(join, strands)).collect();
        edits.extend(edits_of(original, &lines, first.at.spot)?);
    }
    edits.sort_by_key(|edit| edit.span);
    let text = apply_text_edits(&original.source.text, &edits);
    let pattern = prove(original, &text)?;
    Ok(Joined { text, edits, pattern })
}

/// The lines above the statement that stands at a spot, and above the comments that stand right above it.
fn edits_of(original: Original<'_>, lines: &[String], spot: Spot) -> Result<Vec<Edit>, NotJoined> {
    let (text, parsed) = (&*original.source.text, &original.source.parsed);
    let end = line_end(text);
    let mut all = parsed.tree.walk();
    let block = all
        .find_map(|statement: &Statement| {
            statement.node.block().filter(|block| block.open.start == spot.block)
        })
        .ok_or(NotJoined::NoSpot)?;
    let statement = block.statements.get(spot.index).ok_or(NotJoined::NoSpot)?;
    let start = statement.span.start.to_usize();
    let line = text[..start].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let indent = &text[line..start];
    if indent.chars().all(|sign| sign == ' ' || sign == '\t') {
        let is_comment = |token: &&knotwright_grammar::Token| {
            token.kind == TokenKind::Comment && token.span.end.to_usize() <= line
        };
        let above = parsed.tokens.iter().rev().filter(is_comment);
        let at = above_comments(text, line, above.map(|token| token.span));
        let new: String = lines.iter().map(|line| format!("{indent}{line}{end}")).collect();
        return Ok(vec![Edit { span: Span::new(at, at), text: new }]);
    }
    // `set { work fan() }`: the block gets lines of its own.
    let close = block.close.ok_or(NotJoined::Unsound)?;
    let begins = text[..block.open.start.to_usize()].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let outer: String = text[begins..].chars().take_while(|sign| *sign == ' ' || *sign == '\t').collect();
    let last = statement.span.end.to_usize();
    let new: String = lines.iter().map(|line| format!("{end}{outer}  {line}")).collect();
    Ok(vec![
        Edit { span: Span::new(block.open.end.to_usize(), start), text: format!("{new}{end}{outer}  ") },
        Edit { span: Span::new(last, close.start.to_usize()), text: format!("{end}{outer}") },
    ])
}

/// Where the comments begin that stand line by line right above a line; `comments`: those above, the nearest first.
fn above_comments(text: &str, line: usize, comments: impl Iterator<Item = Span>) -> usize {
    let mut at = line;
    for comment in comments {
        let (start, end) = (comment.start.to_usize(), comment.end.to_usize());
        let begins = text[..start].rfind(['\n', '\r']).map_or(0, |end| end + 1);
        let gap = &text[end..at];
        let is_next = gap.trim().is_empty() && gap.matches('\n').count().max(gap.matches('\r').count()) <= 1;
        if !is_next || !text[begins..start].trim().is_empty() {
            break;
        }
        at = begins;
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
