//! Parameters that a motif lacks: it is worked with more than it lists, and its steps call names that nothing gives.

use super::openings::MOST_PARAMETERS;
use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Due, Motif};
use smol_str::SmolStr;

/// The names put in, in each order: with which of them all holds, is found out by trying. `named`: all that is wrong with names.
pub(crate) fn name_parameters(fact: &Fact, named: &[Fact], source: &Source) -> Vec<Mend> {
    let FactKind::ArgumentCount { wanted, given, defined, .. } = &fact.kind else { return Vec::new() };
    let mut motifs = source.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Motif>());
    let is_own = |motif: &&Motif| {
        motif.name.span.start <= defined.span.start && defined.span.end <= motif.block.open.start
    };
    let own = motifs.find(is_own).filter(|_| defined.file == FileId::CHECKED && given > wanted);
    let Some(motif) = own else { return Vec::new() };
    let end = motif.block.close.map_or(u32::MAX, |close| close.end);
    let mut strange: Vec<&SmolStr> = Vec::new();
    for fact in named.iter().filter(|fact| fact.place.file == FileId::CHECKED) {
        let is_within = motif.block.open.end <= fact.place.span.start && fact.place.span.end <= end;
        if let FactKind::UnknownName(unknown) = &fact.kind
            && matches!(unknown.due, Due::Thread | Due::Number | Due::Argument)
            && is_within
            && !strange.contains(&&unknown.name)
        {
            strange.push(&unknown.name);
        }
    }
    if strange.is_empty() || strange.len() > MOST_PARAMETERS || strange.len() + wanted != *given {
        return Vec::new();
    }
    let Some(span) = parameter_list(motif, source) else { return Vec::new() };
    let listed: Vec<&SmolStr> = motif.params.iter().map(|name| &name.text).collect();
    let mend = |names: Vec<&SmolStr>| {
        let all: Vec<&str> = listed.iter().copied().chain(names).map(SmolStr::as_str).collect();
        let text = format!("({})", all.join(", "));
        let edits = vec![Edit { place: Place { file: FileId::CHECKED, span }, text: text.clone() }];
        Mend::new(format!("write `motif {}{text}`", motif.name.text), edits, false)
    };
    super::openings::orders(&strange).into_iter().map(mend).collect()
}

/// The parentheses behind the name of a motif.
fn parameter_list(motif: &Motif, source: &Source) -> Option<Span> {
    let tokens = &source.parsed.tokens;
    let first = tokens.partition_point(|token| token.span.start < motif.name.span.end);
    let open = tokens.get(first).filter(|open| open.span.of(&source.text) == "(")?;
    let mut behind = tokens[first..].iter().take_while(|token| token.span.end <= motif.block.open.start);
    let close = behind.find(|token| token.span.of(&source.text) == ")")?;
    Some(open.span.to(close.span))
}
