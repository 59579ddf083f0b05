//! A `use` as people write it from memory: `use "b.knot" wave`, `from "b.knot" import wave`, `use wave in "b.knot"`.

use super::{Phrase, Rewording, UnreadLine, is_among_first};
use crate::Source;
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::{Import, Motif, Work};
use rustc_hash::FxHashSet as HashSet;

/// Words that begin such a line, and that stand between its names and its file.
const BEGINNING: [&str; 6] = ["use", "from", "import", "include", "load", "require"];
const BETWEEN: [&str; 7] = ["use", "from", "import", "in", "of", "and", "with"];

/// The names first, and then the file. Without names, those of motifs that are worked and declared nowhere.
pub(super) fn import(line: &UnreadLine) -> Option<Phrase> {
    let mut paths = (1..line.tokens.len()).filter(|&at| line.kind(at) == Some(TokenKind::String));
    let path = paths.next().filter(|_| paths.next().is_none() && BEGINNING.contains(&line.text(0)))?;
    let others = (1..line.tokens.len()).filter(|&at| at != path);
    let is_known =
        |at: usize| matches!(line.kind(at), Some(TokenKind::Word | TokenKind::Comma | TokenKind::Colon));
    if !others.clone().all(is_known) {
        return None;
    }
    let named = others.filter(|&at| line.kind(at) == Some(TokenKind::Word)).map(|at| line.text(at));
    let mut names: Vec<&str> = named.filter(|word| !BETWEEN.contains(word)).collect();
    if names.is_empty() && is_among_first(line.problem, line.source) {
        names = undeclared_motifs(line.source);
    }
    let way = Rewording::instead(line.whole(), format!("use {} from {}", names.join(", "), line.text(path)));
    let says = "The names of motifs come first behind `use`, and then `from` and the file.";
    (!names.is_empty()).then(|| Phrase::new(says, vec![way]))
}

/// Motifs that are worked, and neither declared nor used from elsewhere.
pub(super) fn undeclared_motifs(source: &Source) -> Vec<&str> {
    let top = || source.parsed.tree.statements.iter();
    let declared = top().filter_map(|statement| Some(&statement.get::<Motif>()?.name));
    let used = top().filter_map(|statement| statement.get::<Import>()).flat_map(|import| &import.names);
    let mut known: HashSet<&str> = declared.chain(used).map(|name| name.text.as_str()).collect();
    let works = source.parsed.tree.walk().filter_map(|statement| statement.get::<Work>());
    works.map(|work| work.motif.text.as_str()).filter(|name| known.insert(name)).collect()
}
