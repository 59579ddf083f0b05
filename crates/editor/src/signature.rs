//! The form of the statement being written, and which part of it is due.

use crate::line::CursorLine;
use crate::{Checked, docs, motifs};
use knotwright_grammar::words::{self, WORDS};
use knotwright_grammar::{self as grammar, TokenKind};

/// The form of a statement or a motif.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signature {
    /// The whole form.
    pub label: String,
    /// What it is for.
    pub documentation: String,
    /// Its parts: from which to which byte of the label.
    pub parts: Vec<(u32, u32)>,
    /// Which part is being written.
    pub active: Option<usize>,
}

/// The form around `offset`: of the motif whose arguments are being written, else of the statement.
pub fn signature_help(checked: &Checked, offset: u32) -> Option<Signature> {
    let line = CursorLine::at(checked.source(), offset)?;
    if line.first() == "work" {
        return worked(checked, &line);
    }
    let word = line.first();
    let is_halves = word == "strands" && line.has("from");
    let parts = if is_halves { HALVES } else { FORMS.iter().find(|(form, _)| *form == word)?.1 };
    let entry = match is_halves {
        true => words::find_within("from", word)?,
        false => WORDS.iter().find(|entry| entry.text == word)?,
    };
    let find = |part: &&str| {
        entry.form.find(part).map(|at| (grammar::to_offset(at), grammar::to_offset(at + part.len())))
    };
    Some(Signature {
        label: entry.form.to_owned(),
        documentation: entry.help.to_owned(),
        parts: parts.iter().filter_map(find).collect(),
        active: Some(active(&line, word)).filter(|active| *active < parts.len()),
    })
}

/// The statements that have more than one part, and the parts as the words table writes them.
const FORMS: &[(&str, &[&str])] = &[
    ("take", &["STRAND", "(COLOR)", "as LABEL", "RUNS"]),
    ("leader", &["STRAND", "(COLOR)"]),
    ("letters", &["\"TEXT\"", "across", "height N"]),
    ("rows", &["offset"]),
    ("on", &["RANGE"]),
    ("repeat", &["N"]),
    ("for", &["NAME", "A down to B", "by S"]),
    ("thread", &["NAME", "COLOR", "\"LABEL\""]),
    ("start", &["loose", "folded PAIRS", "loop LENGTH PAIRS"]),
    ("strands", &["LIST"]),
    ("use", &["NAME, NAME", "from \"PATH\""]),
    ("meet", &["center"]),
];

/// The parts of `strands` where it has a list for each half.
const HALVES: &[&str] = &["from left LIST", "from right LIST"];

/// Which part the cursor is in, by what stands before it.
fn active(line: &CursorLine, word: &str) -> usize {
    let kinds = || line.tokens.iter().map(|token| token.kind);
    let has = |wanted| line.has(wanted);
    let opened = kinds().any(|kind| kind == TokenKind::OpenParen)
        && !kinds().any(|kind| kind == TokenKind::CloseParen);
    match word {
        "take" if kinds().any(|kind| kind == TokenKind::Colon) => 3,
        "take" if has("as") => 2,
        "take" | "leader" if opened => 1,
        "for" if has("by") => 2,
        "for" if line.tokens.len() > 1 => 1,
        "thread" => line.tokens.len() - 1,
        "letters" if has("height") => 2,
        "letters" if line.tokens.len() > 1 => 1,
        "start" if has("folded") => 1,
        "start" if has("loop") => 2,
        "strands" if has("from") && has("right") => 1,
        "use" if has("from") => 1,
        _ => 0,
    }
}

/// The motif in whose parentheses the cursor is.
fn worked(checked: &Checked, line: &CursorLine) -> Option<Signature> {
    let text = checked.text();
    let open = line.tokens.iter().position(|token| token.kind == TokenKind::OpenParen)?;
    let inside = &line.tokens[open + 1..];
    let mut depth = 0_i32;
    let mut active = 0;
    for token in inside {
        match token.kind {
            TokenKind::OpenParen => depth += 1,
            TokenKind::CloseParen => depth -= 1,
            TokenKind::Comma if depth == 0 => active += 1,
            _ => {}
        }
    }
    let name = line.tokens.get(open.checked_sub(1)?)?.span.of(text);
    let found = (depth >= 0).then(|| motifs::find(checked, name)).flatten()?;
    let label = motifs::signature(found.motif);
    let mut at = found.motif.name.text.len() + 1;
    let mut parts = Vec::new();
    for param in &found.motif.params {
        parts.push((grammar::to_offset(at), grammar::to_offset(at + param.text.len())));
        at += param.text.len() + 2;
    }
    let documentation = docs::above(found.source, found.statement.span.start).unwrap_or_default();
    let active = Some(active).filter(|active| *active < parts.len());
    Some(Signature { label, documentation, parts, active })
}
