//! A name that is not there, but another nearly like it is; a word that is nearly one of the notation.

use crate::resolve::nearest_word;
use crate::rules::unknown_color::with_hash;
use crate::wording::write_in_places;
use crate::{Edit, Fact, FactKind, Mend, Place, Uncalled, UnknownName};
use knotwright_grammar::tree::Due;
use knotwright_grammar::words::RESERVED;

/// In more places no name is written by one mend.
const MOST_PLACES: usize = 200;

/// The mends of a misspelled name, if `fact` is one: the nearest name, or the word of the notation that it was to be; and the
/// name itself, where another is declared that nothing uses.
pub(crate) fn respell_name(fact: &Fact) -> Vec<Mend> {
    let nearest = match &fact.kind {
        FactKind::UnknownName(unknown) => return respell(unknown, fact.place),
        FactKind::ImportLacks { nearest, .. } => nearest.as_deref(),
        FactKind::UnknownColor { written, nearest } => match with_hash(written, *nearest) {
            Some(color) => return vec![Mend::write(&color, fact.place)],
            None => *nearest,
        },
        _ => None,
    };
    nearest.map(|word| Mend::write(word, fact.place)).into_iter().collect()
}

fn respell(unknown: &UnknownName, first: Place) -> Vec<Mend> {
    let UnknownName { name, nearest, again, uncalled, .. } = unknown;
    let word = nearest.as_deref().or_else(|| taken_for_a_thread(unknown));
    let Some(Uncalled { name: other, place, is_alike }) = uncalled else {
        return word.and_then(|word| write_wherever(word, first, again)).into_iter().collect();
    };
    let mut declared = Mend::write(name, *place);
    declared.title = format!("write `{name}` instead of `{other}`");
    let Some(mut called) = write_wherever(other, first, again) else { return vec![declared] };
    if again.is_empty() {
        return vec![called, declared];
    }
    // Nobody misspells a name in the same way again and again.
    called.is_guess = *is_alike;
    vec![declared, called]
}

/// A name written in all these places, if they are not too many.
fn write_wherever(word: &str, first: Place, again: &[Place]) -> Option<Mend> {
    let mut mend = Mend::write(word, first);
    let places = again.len() + 1;
    mend.edits.extend(again.iter().map(|&place| Edit { place, text: word.to_owned() }));
    mend.title = write_in_places(word, places);
    (places <= MOST_PLACES).then_some(mend)
}

/// The name that alone is declared nowhere, for one that is declared twice: a line was copied, and its name stayed.
pub(crate) fn rename_copy(fact: &Fact, named: &[Fact]) -> Option<Mend> {
    let FactKind::NameTaken { .. } = fact.kind else { return None };
    let mut missing = named.iter().filter_map(|fact| match &fact.kind {
        FactKind::UnknownName(unknown) if unknown.due == Due::Thread => Some(&unknown.name),
        _ => None,
    });
    let name = missing.next().filter(|first| missing.all(|other| other == *first))?;
    Some(Mend::write(name, fact.place))
}

/// Whether it is about a name that may be a word of the notation: only an edit that is tried can tell.
pub(crate) fn may_be_a_word(fact: &Fact) -> bool {
    matches!(&fact.kind, FactKind::UnknownName(unknown) if taken_for_a_thread(unknown).is_some())
}

/// A misspelled word of the notation that was read as the name of a thread.
fn taken_for_a_thread(unknown: &UnknownName) -> Option<&'static str> {
    let UnknownName { due: Due::Thread, name, nearest: None, .. } = unknown else { return None };
    match name.as_str() {
        "begin" | "beginning" => Some("start"),
        _ => nearest_word(name, RESERVED.iter().copied()),
    }
}
