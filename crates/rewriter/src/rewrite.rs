//! A pattern with some of its parts written anew.

use crate::steps::Names;
use crate::unworked::unworked;
use crate::{Body, Part, chart, steps};
use knotwright_band::orders::one_then;
use knotwright_band::{Cell, Piece, normal_form};
use knotwright_checker::{Finding, Library, Pattern, Source, tie};
use knotwright_formatter::{Edit, apply, format};
use knotwright_grammar::tree::{Block, Node, Statement};
use knotwright_grammar::{Span, TokenKind};
use std::collections::HashSet;
use std::sync::Arc;

/// A pattern to write anew: its text, what was tied from it, and where the files it uses come from.
#[derive(Clone, Copy)]
pub struct Original<'a> {
    /// The checked file.
    pub source: &'a Source,
    /// What it ties; it must have no errors.
    pub pattern: &'a Pattern,
    /// Its library.
    pub library: &'a dyn Library,
}

/// A pattern written anew.
#[derive(Debug, Clone, PartialEq)]
pub struct Rewritten {
    /// The whole text.
    pub text: String,
    /// The same as edits of the original, in order and apart from one another.
    pub edits: Vec<Edit>,
    /// What stood in the old bodies and is gone.
    pub left_out: LeftOut,
}

/// What a body written anew does not hold any longer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// Comments.
    pub comments: usize,
    /// `note`s.
    pub notes: usize,
    /// `expect`s, but for one at the end of the part.
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
    NoPart(Part),
    /// The set picks strands by color, and the next set takes other places than the first: by place it cannot be said.
    SetsDiffer,
    /// The closing picks strands by color, and takes other places after some other number of sets.
    ClosingsDiffer,
    /// The wanted piece has another number of strands.
    OtherWidth,
    /// The text does not tie what was wanted, or has errors; the first is told. This is a mistake of ours.
    NotProved(Option<Box<Finding>>),
}

/// Writes parts of a pattern anew. Each part may be named once. Line ends are those of the file.
///
/// The answer was read and tied again: every part named ties the knots of its [`Body`] (the same brick layout), every
/// other part what it tied before, and there is no error in it.
///
/// # Errors
/// [`RewriteError`].
pub fn rewrite(original: Original<'_>, bodies: &[(Part, Body)]) -> Result<Rewritten, RewriteError> {
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
    let gone = unworked(text, parsed, &places);
    left_out.motifs = gone.len();
    edits.extend(gone.into_iter().map(|span| Edit { span, text: String::new() }));
    edits.sort_by_key(|edit| edit.span);
    let (edits, source) = set_well(original, edits);
    let text = source.text.to_string();
    prove(original, bodies, source)?;
    Ok(Rewritten { text, edits, left_out })
}

fn block<'a>(original: Original<'a>, part: Part) -> Option<&'a Block> {
    let of = |statement: &'a Statement| match (&statement.node, part) {
        (Node::Opening(block), Part::Opening)
        | (Node::Set(block), Part::Set)
        | (Node::Closing(block), Part::Closing) => Some(block),
        _ => None,
    };
    original.source.parsed.tree.statements.iter().find_map(of)
}

fn count(source: &Source, inner: Span, block: &Block, left_out: &mut LeftOut) {
    let within = |span: Span| inner.start <= span.start && span.end <= inner.end;
    let tokens = source.parsed.tokens.iter();
    left_out.comments +=
        tokens.filter(|token| token.kind == TokenKind::Comment && within(token.span)).count();
    left_out.notes += block.walk().filter(|statement| matches!(statement.node, Node::Note(_))).count();
    let is_expect = |statement: &&Statement| matches!(statement.node, Node::Expect(_));
    let at_end = block.statements.last().filter(is_expect).is_some();
    left_out.expects += block.walk().filter(is_expect).count() - usize::from(at_end);
}

/// The statements of a part, one a line.
fn statements(original: Original<'_>, part: Part, body: &Body) -> Result<Vec<String>, RewriteError> {
    let pattern = original.pattern;
    if body.piece().strands() != pattern.strands.len() {
        return Err(RewriteError::OtherWidth);
    }
    let begins = begins(pattern, part).ok_or(RewriteError::Unsound)?;
    let ends: Vec<u16> = body.piece().order().iter().map(|&strand| begins[usize::from(strand)]).collect();
    let comes_again = begins == ends;
    if part == Part::Set && pattern.picks_by_color && !comes_again {
        return Err(RewriteError::SetsDiffer);
    }
    if part == Part::Closing && !closings_alike(pattern) {
        return Err(RewriteError::ClosingsDiffer);
    }
    // The closing is tied after some number of sets: only if they bring the colors back is it known what hangs where.
    let closing_known = || Part::Set.of(pattern).is_none() || begins_again(pattern);
    let promise = match part {
        Part::Opening => true,
        Part::Set => comes_again,
        Part::Closing => closing_known(),
    };
    let names = Names::new(pattern, begins, promise);
    let mut statements = match body {
        Body::Steps { piece, headings } => steps::statements(piece, headings, &names),
        Body::Rows { piece } if piece.knots().is_empty() => Vec::new(),
        Body::Rows { piece } => chart::statements(piece, part == Part::Set),
    };
    if part == Part::Set && comes_again {
        statements.push("expect start".to_owned());
    }
    Ok(statements)
}

/// By position, the thread that hangs there as a part begins (the closing as after one set); `None` if the pattern has
/// errors.
pub fn begins(pattern: &Pattern, part: Part) -> Option<Vec<u16>> {
    let mut hang = pattern.strands.clone();
    for before in Part::ALL.into_iter().filter(|before| *before < part) {
        if let Some(before) = before.of(pattern) {
            hang = before
                .order
                .iter()
                .map(|&strand| hang.get(usize::from(strand)).copied())
                .collect::<Option<_>>()?;
        }
    }
    (hang.len() == pattern.strands.len()).then_some(hang)
}

/// Whether the colors hang after a set as before.
fn begins_again(pattern: &Pattern) -> bool {
    begins(pattern, Part::Set) == begins(pattern, Part::Closing)
}

/// So many sets are looked at for one after which the closing is another.
const MOST_SETS: usize = 100;

/// Whether the closing ties the same knots after whatever number of sets.
fn closings_alike(pattern: &Pattern) -> bool {
    let start = || (0..pattern.strands.len() as u8).collect();
    let mut order = pattern.opening.as_ref().map_or_else(start, |opening| opening.order.clone());
    let (mut first, mut seen) = (None, HashSet::new());
    for _ in 0..MOST_SETS {
        let Some(set) = pattern.set_from(&order) else { return true };
        order = one_then(&order, &set.order);
        let hang: Vec<u16> = order.iter().map(|&strand| pattern.strands[usize::from(strand)]).collect();
        if !seen.insert(hang) {
            return true;
        }
        let knots = pattern.closing_from(&order).map(|closing| closing.knots);
        if *first.get_or_insert_with(|| knots.clone()) != knots {
            return false;
        }
    }
    true
}

/// Indented as the formatter does: where it finds nothing to set otherwise, the text need not be read twice.
fn lines(text: &str, statements: &[String]) -> String {
    let end = if text.contains("\r\n") { "\r\n" } else { "\n" };
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

/// The same edits, what they bring set as the formatter would, and nothing else touched; with the text they make.
fn set_well(original: Original<'_>, edits: Vec<Edit>) -> (Vec<Edit>, Arc<Source>) {
    let text = &*original.source.text;
    let draft = in_place_of(original, &apply(text, &edits));
    let set = format(&draft.text, &draft.parsed);
    let better = set_within(&edits, &set);
    if better == edits {
        return (edits, draft);
    }
    let source = in_place_of(original, &apply(text, &better));
    (better, source)
}

/// Edits with those of the formatter that lie in what they bring; `set`: all of the formatter's, in the new text.
fn set_within(edits: &[Edit], set: &[Edit]) -> Vec<Edit> {
    let mut moved = 0_i64;
    let within = |edit: &Edit| {
        let start = (i64::from(edit.span.start) + moved) as usize;
        let end = start + edit.text.len();
        moved += edit.text.len() as i64 - edit.span.len() as i64;
        // Of the formatter's edits, those within what is new, in places of the new text.
        let own = set.iter().filter(|own| start <= own.span.start as usize && own.span.end as usize <= end);
        let own: Vec<Edit> =
            own.map(|own| Edit { span: shifted(own.span, start), text: own.text.clone() }).collect();
        Edit { text: apply(&edit.text, &own), span: edit.span }
    };
    edits.iter().map(within).collect()
}

fn shifted(span: Span, back: usize) -> Span {
    Span::new(span.start as usize - back, span.end as usize - back)
}

/// Ties the text as it was read, and compares.
fn prove(original: Original<'_>, bodies: &[(Part, Body)], source: Arc<Source>) -> Result<(), RewriteError> {
    let tied = tie(source, original.library);
    if let Some(error) = tied.errors.into_iter().next() {
        return Err(RewriteError::NotProved(Some(Box::new(error))));
    }
    let pattern = tied.pattern.ok_or(RewriteError::NotProved(None))?;
    let wanted = |part: Part| match bodies.iter().find(|(named, _)| *named == part) {
        Some((_, body)) => Some(form(body.piece())),
        None => part.piece(original.pattern).as_ref().map(form),
    };
    let same = Part::ALL.into_iter().all(|part| part.piece(&pattern).as_ref().map(form) == wanted(part));
    if same && pattern.strands == original.pattern.strands {
        Ok(())
    } else {
        Err(RewriteError::NotProved(None))
    }
}

/// A text in the place of the original.
pub(crate) fn in_place_of(original: Original<'_>, text: &str) -> Arc<Source> {
    Arc::new(Source::new(original.source.path.clone(), text))
}

fn form(piece: &Piece) -> (Vec<Cell>, Vec<u8>) {
    (normal_form(piece), piece.order().to_vec())
}
