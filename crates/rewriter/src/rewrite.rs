//! A pattern with some of its parts rewritten.
//!
//! The statements of a part are made from the knots that are wanted ([`steps`], [`chart`]) and put between its braces. The
//! formatter sets what is new and nothing else. Then the whole text is read and tied, and its brick layouts are compared
//! with those that were wanted. So nothing rests on this code being right: what it cannot prove it does not give out.
//! The proof is most of the work. It first read each text twice, as a draft and as set by the formatter, and looked for
//! warnings too; now statements are written as the formatter sets them, so that the draft is the text, and it is only tied.

use crate::chart::NotCharted;
use crate::idle::{IdleLine, IdleSays, NoPlace, find_idle_lines, idle_marks};
use crate::steps::StrandNames;
use crate::unworked::find_unworked;
use crate::{NewBody, chart, steps};
use knotwright_band::{Cell, Piece, normal_form};
use knotwright_checker::{FileId, Finding, Library, PartKind, Pattern, Source, analyze};
use knotwright_formatter::{Edit, apply_text_edits, format};
use knotwright_grammar::tree::{Block, Expect, FaceChart, Remark, Statement};
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;
use std::collections::HashSet;
use std::sync::Arc;

/// A pattern to rewrite: its text, what was tied from it, and where the files it uses come from.
#[derive(Clone, Copy)]
pub struct Original<'a> {
    /// The checked file.
    pub source: &'a Source,
    /// What it ties; it must have no errors.
    pub pattern: &'a Pattern,
    /// Its library.
    pub library: &'a dyn Library,
}

/// A rewritten pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Rewritten {
    /// The whole text.
    pub text: String,
    /// What makes that text of the original: edits in order and apart from one another.
    pub edits: Vec<Edit>,
    /// What stood in the old bodies and is gone.
    pub left_out: LeftOut,
}

/// What a rewritten body no longer holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// Comments.
    pub comments: usize,
    /// `note`s.
    pub notes: usize,
    /// `expect`s, except for one at the end of the part.
    pub expects: usize,
    /// Motifs and `use`s that nothing works any longer.
    pub motifs: usize,
}

/// Why there is no such text.
#[derive(Debug, Clone, PartialEq)]
pub enum RewriteError {
    /// The pattern has errors, so what it ties is not known.
    Unsound,
    /// There is no such part.
    NoPart(PartKind),
    /// The set picks strands by color, and the next set takes other places than the first: by place it cannot be said.
    SetsDiffer,
    /// The closing picks strands by color, and takes other places after some other number of sets.
    ClosingsDiffer,
    /// A bead or a join has no place among the new statements.
    NoPlace(NoPlace),
    /// The wanted piece has another number of strands.
    OtherWidth,
    /// The text would be larger than a file may be.
    TooLarge,
    /// The text does not tie what was wanted, or has errors; the first is given. This is a bug.
    NotProved(Option<Box<Finding>>),
}

/// Rewrites parts of a pattern. Each part may be named once. Line ends are those of the file.
///
/// The answer was read and tied again: every part named ties the knots of its [`NewBody`] (the same brick layout), every
/// other part what it tied before, and there is no error in it.
///
/// # Errors
/// [`RewriteError`].
pub fn rewrite(original: Original<'_>, bodies: &[(PartKind, NewBody)]) -> Result<Rewritten, RewriteError> {
    let (text, parsed) = (&*original.source.text, &original.source.parsed);
    if !parsed.problems.is_empty() {
        return Err(RewriteError::Unsound);
    }
    let (mut edits, mut places, mut left_out) = (Vec::new(), Vec::new(), LeftOut::default());
    for (part, body) in bodies {
        let block = block(original, *part).ok_or(RewriteError::NoPart(*part))?;
        let close = block.close.ok_or(RewriteError::Unsound)?;
        let inner = Span { start: block.open.end, end: close.start };
        count(original.source, inner, block, &mut left_out);
        edits.push(Edit { span: inner, text: lines(text, &statements(original, *part, body)?) });
        places.push(block.open.start);
    }
    let gone = find_unworked(text, parsed, &places);
    left_out.motifs = gone.len();
    edits.extend(gone.into_iter().map(|span| Edit { span, text: String::new() }));
    edits.sort_by_key(|edit| edit.span);
    let (edits, source) = set_well(original, edits);
    let text = source.text.to_string();
    prove(original, bodies, source)?;
    Ok(Rewritten { text, edits, left_out })
}

fn block<'a>(original: Original<'a>, part: PartKind) -> Option<&'a Block> {
    let mut statements = original.source.parsed.tree.statements.iter();
    statements.find(|statement| PartKind::of(statement) == Some(part))?.node.block()
}

fn count(source: &Source, inner: Span, block: &Block, left_out: &mut LeftOut) {
    let within = |span: Span| inner.start <= span.start && span.end <= inner.end;
    let tokens = source.parsed.tokens.iter();
    left_out.comments +=
        tokens.filter(|token| token.kind == TokenKind::Comment && within(token.span)).count();
    left_out.notes += block.walk().filter(|statement| statement.is::<Remark>()).count();
    let is_expect = |statement: &&Statement| statement.is::<Expect>() && !is_of_face(statement);
    let at_end = block.statements.last().filter(is_expect).is_some();
    left_out.expects += block.walk().filter(is_expect).count() - usize::from(at_end);
}

/// The statements of a part, one a line.
fn statements(original: Original<'_>, part: PartKind, body: &NewBody) -> Result<Vec<String>, RewriteError> {
    let pattern = original.pattern;
    if body.piece().strands() != pattern.strands.len() {
        return Err(RewriteError::OtherWidth);
    }
    let begins = pattern.threads_before(part);
    let idle = pattern.part(part).map(find_idle_lines).unwrap_or_default();
    let comes_again = begins == body.piece().threads_after(&begins);
    if part == PartKind::Set && pattern.picks_by_color && !comes_again {
        return Err(RewriteError::SetsDiffer);
    }
    if part == PartKind::Closing && !closings_alike(pattern) {
        return Err(RewriteError::ClosingsDiffer);
    }
    // The closing is tied after some number of sets: only if they bring the colors back is it known what hangs where.
    let closing_known = || pattern.set.is_none() || begins_again(pattern);
    let promise = match part {
        PartKind::Opening => true,
        PartKind::Set => comes_again,
        PartKind::Closing => closing_known(),
    };
    let names = StrandNames::new(pattern, begins, promise);
    let mut statements = faces(original, part);
    let no_place = |line: usize| RewriteError::NoPlace(no_place(original.source, &idle[line]));
    statements.extend(match body {
        NewBody::Steps { piece, headings } => {
            steps::write_steps(piece, headings, &names, &idle).map_err(no_place)?
        }
        NewBody::Rows { piece } => {
            chart::write_chart(piece, part == PartKind::Set, pattern, &idle).map_err(|why| match why {
                NotCharted::TooLarge => RewriteError::TooLarge,
                NotCharted::NoPlace(line) => no_place(line),
            })?
        }
    });
    if part == PartKind::Set && comes_again {
        statements.push("expect start".to_owned());
    }
    Ok(statements)
}

fn no_place(source: &Source, line: &IdleLine) -> NoPlace {
    let is_here = line.place.file == FileId::CHECKED;
    let number = is_here.then(|| source.text[..line.place.span.start.to_usize()].matches('\n').count() + 1);
    NoPlace { line: number, is_bead: matches!(line.says, IdleSays::Bead(_)) }
}

/// Whether a statement is about all that a part shows, whichever way it is tied.
fn is_of_face(statement: &Statement) -> bool {
    statement.is::<FaceChart>() || matches!(statement.get(), Some(Expect::Face(_)))
}

/// What a part says of its face, line by line: it stays.
fn faces(original: Original<'_>, part: PartKind) -> Vec<String> {
    let text = &original.source.text;
    let statements = block(original, part).into_iter().flat_map(|block| &block.statements);
    let lines = statements
        .filter(|statement| is_of_face(statement))
        .flat_map(|statement| statement.span.of(text).lines().map(|line| line.trim().to_owned()));
    lines.filter(|line| !line.is_empty()).collect()
}

/// Whether the colors hang after a set as before.
fn begins_again(pattern: &Pattern) -> bool {
    pattern.threads_before(PartKind::Set) == pattern.threads_before(PartKind::Closing)
}

/// The most sets that are searched for one after which the closing differs.
const MOST_SETS: usize = 100;

/// Whether the closing ties the same knots after whatever number of sets.
fn closings_alike(pattern: &Pattern) -> bool {
    let mut hang = pattern.threads_before(PartKind::Set);
    let (mut first, mut seen) = (None, HashSet::new());
    for _ in 0..MOST_SETS {
        let Some(set) = pattern.set_from(&hang) else { return true };
        hang = set.piece.threads_after(&hang);
        if !seen.insert(hang.clone()) {
            return true;
        }
        let knots = pattern.closing_from(&hang).map(|closing| closing.piece);
        if *first.get_or_insert_with(|| knots.clone()) != knots {
            return false;
        }
    }
    true
}

/// How the lines of a text end.
pub fn line_end(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}

/// Indented as the formatter does: where it finds nothing to set otherwise, the text need not be read twice.
fn lines(text: &str, statements: &[String]) -> String {
    let end = line_end(text);
    let (mut out, mut depth) = (String::new(), 1_usize);
    for statement in statements {
        depth = depth.saturating_sub(usize::from(statement == "}"));
        out += end;
        out.extend(std::iter::repeat_n("  ", depth));
        out += statement;
        depth += usize::from(statement.ends_with('{'));
    }
    out + end
}

/// Edits with what they bring set as the formatter would, and nothing else touched; with the text they make.
fn set_well(original: Original<'_>, edits: Vec<Edit>) -> (Vec<Edit>, Arc<Source>) {
    let text = &*original.source.text;
    let draft = in_place_of(original, &apply_text_edits(text, &edits));
    let set = format(&draft.text, &draft.parsed);
    let better = set_within(&edits, &set);
    if better == edits {
        return (edits, draft);
    }
    let source = in_place_of(original, &apply_text_edits(text, &better));
    (better, source)
}

/// Edits with those of the formatter that are in what they bring; `set`: all of the formatter's, in the new text.
fn set_within(edits: &[Edit], set: &[Edit]) -> Vec<Edit> {
    let mut moved = 0_i64;
    let within = |edit: &Edit| {
        let start = (i64::from(edit.span.start) + moved).to_usize();
        let end = start + edit.text.len();
        moved += edit.text.len().to_i64() - edit.span.len().to_i64();
        // Of the formatter's edits, those within what is new, in places of the new text.
        let own =
            set.iter().filter(|own| start <= own.span.start.to_usize() && own.span.end.to_usize() <= end);
        let own: Vec<Edit> =
            own.map(|own| Edit { span: shifted(own.span, start), text: own.text.clone() }).collect();
        Edit { text: apply_text_edits(&edit.text, &own), span: edit.span }
    };
    edits.iter().map(within).collect()
}

fn shifted(span: Span, back: usize) -> Span {
    Span::new(span.start.to_usize() - back, span.end.to_usize() - back)
}

/// Ties the text as it was read, and compares.
fn prove(
    original: Original<'_>,
    bodies: &[(PartKind, NewBody)],
    source: Arc<Source>,
) -> Result<(), RewriteError> {
    let tied = analyze(source, original.library);
    if let Some(error) = tied.errors().into_iter().next() {
        return Err(RewriteError::NotProved(Some(Box::new(error))));
    }
    let pattern = tied.into_pattern().ok_or(RewriteError::NotProved(None))?;
    let wanted = |part: PartKind| match bodies.iter().find(|(named, _)| *named == part) {
        Some((_, body)) => Some(form(body.piece())),
        None => tied_form(original.pattern, part),
    };
    let same = PartKind::ALL.into_iter().all(|part| tied_form(&pattern, part) == wanted(part));
    let marks = |pattern: &Pattern, part: PartKind| pattern.part(part).map(idle_marks);
    let kept = PartKind::ALL.into_iter().all(|part| marks(&pattern, part) == marks(original.pattern, part));
    if same && kept && pattern.strands == original.pattern.strands {
        Ok(())
    } else {
        Err(RewriteError::NotProved(None))
    }
}

/// A text in the place of the original.
pub(crate) fn in_place_of(original: Original<'_>, text: &str) -> Arc<Source> {
    Arc::new(Source::new(original.source.path.clone(), text))
}

fn tied_form(pattern: &Pattern, part: PartKind) -> Option<(Vec<Cell>, Vec<u8>)> {
    pattern.part(part).map(|part| form(&part.piece))
}

fn form(piece: &Piece) -> (Vec<Cell>, Vec<u8>) {
    (normal_form(piece), piece.order().to_vec())
}
