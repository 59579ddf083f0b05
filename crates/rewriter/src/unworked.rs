//! Motifs that nothing works any longer.

use knotwright_grammar::tree::{ClosingBlock, Import, Motif, OpeningBlock, SetBlock, Statement, Work};
use knotwright_grammar::{Parsed, Span, TokenKind};
use knotwright_numbers::ToNumber;
use std::collections::HashSet;

/// The statements at the top, motifs and `use`, that were of use to the blocks that are `replaced` (by the place of
/// their `{`) and are of none to all else; each with the comments right above it, and with its line ends.
pub(crate) fn find_unworked(text: &str, parsed: &Parsed, replaced: &[u32]) -> Vec<Span> {
    let statements = &parsed.tree.statements;
    let stays = |statement: &&Statement| {
        let block = statement.node.block().filter(|_| is_tied(statement));
        block.is_some_and(|block| !replaced.contains(&block.open.start))
    };
    let before = worked(statements, statements.iter().filter(is_tied));
    let after = worked(statements, statements.iter().filter(stays));
    let gone = |statement: &&Statement| {
        let names = lent(statement);
        let was = names.iter().any(|name| before.contains(name));
        was && !names.iter().any(|name| after.contains(name))
    };
    statements.iter().filter(gone).map(|statement| with_comments(text, parsed, statement.span)).collect()
}

fn is_tied(statement: &&Statement) -> bool {
    statement.is::<OpeningBlock>() || statement.is::<SetBlock>() || statement.is::<ClosingBlock>()
}

/// The motifs that a statement at the top brings.
fn lent(statement: &Statement) -> Vec<&str> {
    let made = statement.get::<Motif>().map(|motif| &motif.name);
    let used = statement.get::<Import>().into_iter().flat_map(|import| &import.names);
    made.into_iter().chain(used).map(|name| name.text.as_str()).collect()
}

/// The motifs worked in `from`, and in those, and so on.
fn worked<'t>(all: &'t [Statement], from: impl Iterator<Item = &'t Statement>) -> HashSet<&'t str> {
    let mut found = HashSet::new();
    let mut open: Vec<&Statement> = from.collect();
    while let Some(statement) = open.pop() {
        let Some(block) = statement.node.block() else { continue };
        for inner in block.walk() {
            let Some(work) = inner.get::<Work>() else { continue };
            let name = work.motif.text.as_str();
            if found.insert(name) {
                open.extend(all.iter().filter(|other| other.is::<Motif>() && lent(other) == [name]));
            }
        }
    }
    found
}

/// A statement's lines: from the first comment right above it to its line end, and the blank lines that follow.
fn with_comments(text: &str, parsed: &Parsed, span: Span) -> Span {
    let is_comment_line = |line: &str| line.trim_start().starts_with("--");
    let mut start = line_start(text, span.start.to_usize());
    while let Some(above) = text[..start].strip_suffix('\n').map(|rest| line_start(text, rest.len()))
        && is_comment_line(&text[above..start])
    {
        start = above;
    }
    // A comment at the end of its last line goes with it.
    let trailing = parsed.tokens.iter().find(|token| token.span.start >= span.end);
    let end =
        trailing.filter(|token| token.kind == TokenKind::Comment).map_or(span.end, |token| token.span.end);
    let mut end = end.to_usize();
    while let Some(length) = blank_line(&text[end..]) {
        end += length;
    }
    Span::new(start, end)
}

/// The length of the rest of a line, if nothing stands on it, with its end.
fn blank_line(text: &str) -> Option<usize> {
    let spaces = text.len() - text.trim_start_matches([' ', '\t', '\r']).len();
    text[spaces..].starts_with('\n').then_some(spaces + 1)
}

fn line_start(text: &str, at: usize) -> usize {
    text[..at].rfind('\n').map_or(0, |end| end + 1)
}
