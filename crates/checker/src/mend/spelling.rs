//! A name that is not there, but another nearly like it is; a word that is nearly one of the notation.

use crate::facts::Facts;
use crate::resolve::{closest, resolve};
use crate::tie::{Limits, tie};
use crate::{Edit, Fact, FactKind, FileId, Finding, Library, Mend, Source};
use knotwright_grammar::TokenKind;
use knotwright_grammar::words::RESERVED;
use std::sync::Arc;

/// Longer files are not checked a second time for a name.
const LONGEST: usize = 100_000;

/// The mend of a misspelled name, if `fact` is one: the nearest name. It is certain if `alone`, nothing else being
/// wrong, and nothing is wrong at all with the name put right.
pub(crate) fn respell(fact: &Fact, source: &Source, (library, alone): (&dyn Library, bool)) -> Option<Mend> {
    let holds = |mend: &Mend| fact.place.file == FileId(0) && holds(&mend.edits[0], source, library);
    if let Some(name) = nearest(&fact.kind) {
        let mend = Mend::write(name, fact.place);
        return Some(if alone && holds(&mend) { mend.proved() } else { mend });
    }
    // A word is put in the place of a name only if all is well then: the thread may as well be forgotten in the head.
    let mend = Mend::write(taken_for_a_thread(&fact.kind)?, fact.place);
    holds(&mend).then(|| if alone { mend.proved() } else { mend })
}

/// A misspelled word of the notation that was read as the name of a thread.
fn taken_for_a_thread(kind: &FactKind) -> Option<&'static str> {
    match kind {
        FactKind::UnknownThread { name, nearest: None } => closest(name, RESERVED.iter().copied()),
        _ => None,
    }
}

/// If one misspelled word of the notation is all that does not parse, its mend is certain if nothing is wrong at all
/// with that word put right, and it is no name that stands elsewhere too.
pub(crate) fn prove_word(problems: &mut [Finding], source: &Source, library: &dyn Library) {
    let [Finding { mends, .. }] = problems else { return };
    let [mend] = &mut mends[..] else { return };
    let [edit] = &mend.edits[..] else { return };
    let is_certain =
        edit.place.file == FileId(0) && stands_once(edit, source) && holds(edit, source, library);
    if is_certain {
        *mend = mend.clone().proved();
    }
}

fn stands_once(edit: &Edit, source: &Source) -> bool {
    let of = |span: knotwright_grammar::Span| span.of(&source.text);
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word);
    words.filter(|token| of(token.span) == of(edit.place.span)).take(2).count() == 1
}

fn nearest(kind: &FactKind) -> Option<&str> {
    match kind {
        FactKind::UnknownThread { nearest, .. }
        | FactKind::UnknownNumber { nearest, .. }
        | FactKind::UnknownLabel { nearest, .. }
        | FactKind::UnknownMotif { nearest, .. }
        | FactKind::ImportLacks { nearest, .. } => nearest.as_deref(),
        FactKind::UnknownColor { nearest, .. } => *nearest,
        _ => None,
    }
}

/// Whether nothing is wrong with `source` after `edit`.
fn holds(edit: &Edit, source: &Source, library: &dyn Library) -> bool {
    let (start, end) = (edit.place.span.start as usize, edit.place.span.end as usize);
    let (Some(before), Some(after)) = (source.text.get(..start), source.text.get(end..)) else {
        return false;
    };
    if source.text.len() > LONGEST {
        return false;
    }
    let edited = Source::new(source.path.clone(), format!("{before}{}{after}", edit.text));
    let parses = edited.parsed.problems.is_empty();
    let mut facts = Facts::default();
    let script = resolve(Arc::new(edited), library, &mut facts);
    let tied = tie(&script, None, Limits { keep: false, ..Limits::WHOLE }, &mut facts);
    parses && facts.count() == 0 && tied.is_none_or(|tied| tied.closes != Some(false))
}
