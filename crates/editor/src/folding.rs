//! What can be folded away.

use knotwright_checker::Source;
use knotwright_grammar::tree::{Import, Statement, Thread};
use knotwright_grammar::{Span, TokenKind};

/// A part of the text that goes over several lines and can be folded into its first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fold {
    /// From where to where; the first line stays to be seen.
    pub span: Span,
    /// What it is.
    pub kind: FoldKind,
}

/// What is folded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FoldKind {
    /// A block, or a statement over several lines.
    Statement,
    /// Comments that follow one another.
    Comments,
    /// `use` statements that follow one another.
    Uses,
    /// Threads that follow one another.
    Threads,
}

/// All folds of a file, in order of place.
pub fn folding_ranges(source: &Source) -> Vec<Fold> {
    let mut folds = Vec::new();
    let several = |span: &Span| span.of(&source.text).contains(['\n', '\r']);
    let statements = source.parsed.tree.walk().map(inside);
    folds.extend(statements.filter(several).map(|span| Fold { span, kind: FoldKind::Statement }));
    folds.extend(
        comments(source).into_iter().filter(several).map(|span| Fold { span, kind: FoldKind::Comments }),
    );
    let top = &source.parsed.tree.statements;
    let uses = runs(top, Statement::is::<Import>);
    let threads = runs(top, Statement::is::<Thread>);
    folds.extend(uses.into_iter().filter(several).map(|span| Fold { span, kind: FoldKind::Uses }));
    folds.extend(threads.into_iter().filter(several).map(|span| Fold { span, kind: FoldKind::Threads }));
    folds.sort_by_key(|fold| (fold.span.start, std::cmp::Reverse(fold.span.end)));
    folds
}

/// From the end of the first line to the closing brace; a statement without a block as it is.
fn inside(statement: &Statement) -> Span {
    let chart = statement.node.chart().and_then(|chart| chart.close);
    let close = chart.or_else(|| statement.node.block().and_then(|block| block.close));
    Span { start: statement.span.start, end: close.map_or(statement.span.end, |close| close.start) }
}

/// Comments on lines of their own that follow one another without a blank line.
fn comments(source: &Source) -> Vec<Span> {
    let mut found: Vec<Span> = Vec::new();
    let mut last = None;
    for (at, token) in source.parsed.tokens.iter().enumerate() {
        let alone = at == 0 || source.parsed.tokens[at - 1].kind == TokenKind::Newline;
        if token.kind != TokenKind::Comment || !alone {
            continue;
        }
        match found.last_mut() {
            Some(run) if last == at.checked_sub(2) => run.end = token.span.end,
            _ => found.push(token.span),
        }
        last = Some(at);
    }
    found
}

/// Neighbors of one kind, from the first to the last.
fn runs(statements: &[Statement], fits: fn(&Statement) -> bool) -> Vec<Span> {
    let chunks = statements.chunk_by(|one, other| fits(one) == fits(other));
    let chunks = chunks.filter(|chunk| fits(&chunk[0]));
    chunks.filter_map(|chunk| Some(chunk.first()?.span.to(chunk.last()?.span))).collect()
}
