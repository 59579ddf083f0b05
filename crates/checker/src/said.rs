//! A fact in words, and whether it may only say what is not there yet.

use crate::resolve::Script;
use crate::unread::is_at_end;
use crate::{EndsTrouble, Fact, FactKind, Finding, Place, rules};

/// The words for a fact that was found in a script.
pub(crate) fn said(script: &Script, fact: &Fact) -> Finding {
    let finding = rules::word_fact(fact);
    Finding { unfinished: finding.unfinished || is_unfinished(script, fact), ..finding }
}

/// Whether it may only say what is not there yet.
pub(crate) fn is_unfinished(script: &Script, fact: &Fact) -> bool {
    let is_typed = |place: &Place| is_at_end(*place, script.source());
    is_typed(&fact.place) || fact.through.iter().any(is_typed) || waits(script, fact)
}

/// Whether it only says what may still come: the title of an empty file, what ties below the strands, a set below the
/// opening.
fn waits(script: &Script, fact: &Fact) -> bool {
    match &fact.kind {
        FactKind::NoPattern => fact.place.span.is_empty(),
        FactKind::NothingTied | FactKind::Ends(EndsTrouble::BeadSlipsOff) => true,
        FactKind::ZeroMeasure { what: "length without a set" } => script.head.closing.is_none(),
        _ => false,
    }
}
