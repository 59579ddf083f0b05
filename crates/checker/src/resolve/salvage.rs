//! What can still be read from a statement that does not parse: the names it was to give. They are not
//! reported as unknown where they are used, so that one slip stays one error.

use crate::Source;
use knotwright_grammar::tree::{Block, Broken, Statement, Work};
use knotwright_grammar::{Span, TokenKind};
use rustc_hash::FxHashSet as HashSet;
use smol_str::SmolStr;

/// The names that broken statements of `source` seem to give.
pub(crate) fn salvage_names(source: &Source) -> HashSet<SmolStr> {
    let mut found = HashSet::default();
    if source.parsed.problems.is_empty() {
        return found;
    }
    let mut is_import_lost = false;
    let mut walk = source.parsed.tree.walk();
    while let Some(statement) = walk.next() {
        if statement.is::<Broken>() {
            given(&words(source, statement.head), walk.depth() == 0, &mut found);
            is_import_lost |= walk.depth() == 0 && begins_import(&words(source, statement.head));
        }
    }
    if is_import_lost {
        let works = source.parsed.tree.walk().filter_map(|statement| statement.get::<Work>());
        found.extend(works.map(|work| work.motif.text.clone()));
    }
    found
}

/// Whether words begin a line as people write a `use`: nobody knows which motifs it was to fetch.
fn begins_import(words: &[&str]) -> bool {
    matches!(words.first(), Some(&("use" | "from" | "import" | "include" | "load" | "require")))
}

/// The names that broken statements seem to give, if none is broken but of these, which stand in a block.
pub(crate) fn salvage_names_in(source: &Source, statements: &[Statement]) -> HashSet<SmolStr> {
    let mut found = HashSet::default();
    if source.parsed.problems.is_empty() {
        return found;
    }
    let within = statements.iter().filter_map(|statement| statement.node.block()).flat_map(Block::walk);
    for statement in statements.iter().chain(within).filter(|statement| statement.is::<Broken>()) {
        given(&words(source, statement.head), false, &mut found);
    }
    found
}

/// The second word is a name in most statements, and the first where the statement's own word was lost; `use` and `motif` give
/// several, `as` one more.
fn given(words: &[&str], top: bool, found: &mut HashSet<SmolStr>) {
    let gives_many = top && matches!(words.first(), Some(&("use" | "motif")));
    let after_as = words.iter().position(|&word| word == "as").map(|at| at + 1);
    for (at, word) in words.iter().enumerate() {
        // At the top, the word before a name may be what is missing.
        if at == 1 || (top && at == 0) || gives_many || Some(at) == after_as {
            found.insert(SmolStr::new(word));
        }
    }
}

/// The words within `span`, in order.
fn words(source: &Source, span: Span) -> Vec<&str> {
    let tokens = &source.parsed.tokens;
    let first = tokens.partition_point(|token| token.span.start < span.start);
    tokens[first..]
        .iter()
        .take_while(|token| token.span.start < span.end)
        .filter(|token| token.kind == TokenKind::Word)
        .map(|token| token.span.of(&source.text))
        .collect()
}
