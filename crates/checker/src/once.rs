//! One mistake is said once. What is not found any more after the first mend of a mistake followed from it.

use crate::mend::{WrongAt, what_follows};
use crate::report::mended_warning;
use crate::{Edit, Finding, Note, Severity, Tag};

/// The number of the finding from which all others may follow: the only error; without one, the warning that gets mends.
pub(crate) fn likely_cause(findings: &[Finding]) -> Option<usize> {
    let errors = findings.iter().filter(|finding| finding.severity == Severity::Error).count();
    match errors {
        0 => mended_warning(findings),
        1 => findings.iter().position(|finding| finding.severity == Severity::Error),
        _ => None,
    }
}

/// What is wrong where a band does not hang together.
const TORN: [Tag; 4] = [Tag::Hole, Tag::Open, Tag::OddChart, Tag::IdleStep];

/// Whether a finding may follow from a mistake that stands elsewhere.
pub(crate) fn waits_for(finding: &Finding, cause: &Finding) -> bool {
    let tags = [Tag::Symptom, Tag::Hole, Tag::Open, Tag::OddChart, Tag::Uneven];
    let is_alike = finding.place == cause.place && std::ptr::eq(finding.rule, cause.rule);
    !is_alike && tags.into_iter().any(|tag| finding.rule.has(tag))
}

/// Where the strands hang otherwise than they should, a chart with an odd number of rows may be why.
pub(crate) fn with_odd_chart(mut findings: Vec<Finding>) -> Vec<Finding> {
    let cause = likely_cause(&findings).filter(|&cause| findings[cause].severity == Severity::Error);
    let odd = findings.iter().position(|finding| finding.rule.has(Tag::OddChart));
    if let (Some(cause), Some(odd)) = (cause, odd)
        && findings[odd].place < findings[cause].place
    {
        let text = as_note(&findings[odd].message);
        let note =
            Note { place: findings[odd].place, text: format!("{text}: is a row missing, or one too many?") };
        findings[cause].notes.push(note);
        findings.remove(odd);
    }
    findings
}

/// Leaves out what follows from another finding. `again`: what is found after some edits, if that can be said.
pub(crate) fn said_once(
    findings: Vec<Finding>,
    again: impl Fn(&[Edit]) -> Option<Vec<Finding>>,
) -> Vec<Finding> {
    let Some(cause) = likely_cause(&findings).map(|cause| findings[cause].clone()) else { return findings };
    let mend = cause.mends.iter().find(|mend| !mend.is_guess);
    let Some(mend) = mend.filter(|_| findings.iter().any(|finding| waits_for(finding, &cause))) else {
        return findings;
    };
    let Some(left) = again(&mend.edits) else { return findings };
    let is_left = |finding: &Finding| {
        let there = WrongAt::of(finding).after(&mend.edits);
        left.iter().any(|left| WrongAt::of(left) == there)
    };
    // A mend after which something else is wrong says nothing of what follows from what.
    let is_known =
        |left: &&Finding| findings.iter().any(|own| WrongAt::of(own).after(&mend.edits) == WrongAt::of(left));
    let is_grave = |left: &&Finding| match cause.severity {
        // Without an error, warnings are found that it has hidden.
        Severity::Error => left.severity == Severity::Error,
        _ => left.severity == Severity::Error || TORN.iter().any(|&tag| left.rule.has(tag)),
    };
    let is_worse = left.iter().any(|left| is_grave(&left) && !is_known(&left));
    if is_worse || is_left(&cause) {
        return findings;
    }
    let follows = |finding: &Finding| waits_for(finding, &cause) && !is_left(finding);
    let (gone, mut kept): (Vec<_>, Vec<_>) = findings.into_iter().partition(follows);
    let own = |finding: &&mut Finding| WrongAt::of(finding) == WrongAt::of(&cause);
    if let Some(cause) = kept.iter_mut().find(own) {
        cause.notes.extend(what_follows(&gone));
    }
    kept
}

/// Findings of one rule at one place become one, with a note for each further one: holes side by side that one row closes.
pub(crate) fn said_together(findings: Vec<Finding>) -> Vec<Finding> {
    let mut together: Vec<Finding> = Vec::new();
    for finding in findings {
        let is_same =
            |other: &&mut Finding| finding.rule.has(Tag::Hole) && WrongAt::of(other) == WrongAt::of(&finding);
        match together.iter_mut().find(is_same) {
            Some(first) => first.notes.push(Note { place: finding.place, text: as_note(&finding.message) }),
            None => together.push(finding),
        }
    }
    together
}

/// A sentence as a note: with a small letter, and without a point.
fn as_note(sentence: &str) -> String {
    let mut letters = sentence.trim_end_matches('.').chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
