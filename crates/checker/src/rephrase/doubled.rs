//! A line of the head that stands there twice, word for word: one of them is too many.

use super::braces::line;
use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::tree::Statement;

/// The second of two such lines left out.
pub(crate) fn leave_out_double(fact: &Fact, source: &Source) -> Option<Mend> {
    let (FactKind::Repeated { first, .. } | FactKind::NameTaken { first, .. }) = &fact.kind else {
        return None;
    };
    if fact.place.file != FileId::CHECKED || first.file != FileId::CHECKED {
        return None;
    }
    let statements = &source.parsed.tree.statements;
    let around = |place: Place| {
        let at = statements.partition_point(|statement| statement.span.end < place.span.end);
        statements.get(at).filter(|statement| statement.span.start <= place.span.start)
    };
    let words = |statement: &Statement| {
        statement.span.of(&source.text).split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let (own, other) = (around(fact.place)?, around(*first)?);
    if own.span == other.span || words(own) != words(other) {
        return None;
    }
    let place = Place { file: FileId::CHECKED, span: line(source, own.span) };
    Some(Mend::new("leave out the second of these lines", vec![Edit { place, text: String::new() }], false))
}
