//! A fact in words, and whether it may only say what is not there yet.

use crate::mend::side_without_number;
use crate::rephrase::{Reach, leave_out_double, reach_of};
use crate::resolve::Script;
use crate::unread::is_at_end;
use crate::{EndsTrouble, Fact, FactKind, Finding, Place, rules};
use knotwright_grammar::Span;

/// The words for a fact that was found in a script.
pub(crate) fn said(script: &Script, fact: &Fact) -> Finding {
    let source = script.source();
    let mut finding = match side_without_number(fact, source) {
        Some(side) => {
            let text = |span: Span| span.of(&source.text);
            rules::word_numberless(text(side), text(fact.place.span)).at(fact.place)
        }
        None => rules::word_fact(fact),
    };
    if let Some(Reach { help, mends }) = reach_of(fact, source) {
        (finding.help, finding.mends) = (Some(help.to_owned()), mends);
    }
    finding.mends.extend(leave_out_double(fact, source));
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
