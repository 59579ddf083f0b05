//! A name that is not there, but another nearly like it is.

use crate::facts::Facts;
use crate::resolve::resolve;
use crate::tie::{Limits, tie};
use crate::{Edit, Fact, FactKind, FileId, Library, Mend, Source};
use std::sync::Arc;

/// Longer files are not checked a second time for a name.
const LONGEST: usize = 100_000;

/// The mend of a misspelled name, if `fact` is one: the nearest name. It is certain if `alone`, nothing else being
/// wrong, and nothing is wrong at all with the name put right.
pub(crate) fn respell(fact: &Fact, source: &Source, (library, alone): (&dyn Library, bool)) -> Option<Mend> {
    let nearest = nearest(&fact.kind)?;
    let edit = Edit { place: fact.place, text: nearest.to_owned() };
    let certain = alone && fact.place.file == FileId(0) && holds(&edit, source, library);
    let then = if certain { ": all the rest holds then" } else { "" };
    Some(Mend { title: format!("write `{nearest}`{then}"), edits: vec![edit], certain })
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
