//! A name that is not there, but another nearly like it is; a word that is nearly one of the notation.

use crate::resolve::nearest_word;
use crate::rules::unknown_color::with_hash;
use crate::rules::unknown_name::spaced;
use crate::{Fact, FactKind, Mend};
use knotwright_grammar::words::RESERVED;

/// The mend of a misspelled name, if `fact` is one: the nearest name, or the word of the notation that it was to be.
pub(crate) fn respell_name(fact: &Fact) -> Option<Mend> {
    if let FactKind::UnknownNumber { name, .. } = &fact.kind
        && let Some(spaced) = spaced(name)
    {
        return Some(Mend::write(&spaced, fact.place));
    }
    if let FactKind::UnknownColor { written, nearest } = &fact.kind
        && let Some(color) = with_hash(written, *nearest)
    {
        return Some(Mend::write(&color, fact.place));
    }
    let word = nearest(&fact.kind).or_else(|| taken_for_a_thread(&fact.kind))?;
    Some(Mend::write(word, fact.place))
}

/// Whether it is about a name that may be a word of the notation: only an edit that is tried can tell.
pub(crate) fn may_be_a_word(fact: &Fact) -> bool {
    taken_for_a_thread(&fact.kind).is_some()
}

/// A misspelled word of the notation that was read as the name of a thread.
fn taken_for_a_thread(kind: &FactKind) -> Option<&'static str> {
    match kind {
        FactKind::UnknownThread { name, nearest: None } => nearest_word(name, RESERVED.iter().copied()),
        _ => None,
    }
}

fn nearest(kind: &FactKind) -> Option<&str> {
    match kind {
        FactKind::UnknownThread { nearest, .. }
        | FactKind::UnknownBead { nearest, .. }
        | FactKind::UnknownNumber { nearest, .. }
        | FactKind::UnknownLabel { nearest, .. }
        | FactKind::UnknownMotif { nearest, .. }
        | FactKind::ImportLacks { nearest, .. } => nearest.as_deref(),
        FactKind::UnknownColor { nearest, .. } => *nearest,
        _ => None,
    }
}
