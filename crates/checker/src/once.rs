//! One mistake is said once. What is not found any more after the first mend of a mistake followed from it.

use crate::mend::{WrongAt, note_what_follows, places_of};
use crate::report::mended_warning;
use crate::{Edit, Finding, Note, Severity, Tag};

/// The numbers of the findings from which all others may follow, the likeliest first: the only error; without one, a step
/// that ties nothing, and the warning of the band that gets mends.
pub(crate) fn likely_causes(findings: &[Finding]) -> Vec<usize> {
    let errors = findings.iter().filter(|finding| finding.severity == Severity::Error).count();
    match errors {
        0 => {
            let idle = findings.iter().position(|finding| finding.rule.has(Tag::IdleStep));
            let torn = mended_warning(findings).filter(|torn| idle != Some(*torn));
            idle.into_iter().chain(torn).collect()
        }
        1 => findings.iter().position(|finding| finding.severity == Severity::Error).into_iter().collect(),
        _ => Vec::new(),
    }
}

/// What is wrong where a band does not hang together.
const TORN: [Tag; 4] = [Tag::Hole, Tag::Open, Tag::OddChart, Tag::IdleStep];

/// Whether a finding may follow from a mistake that stands elsewhere.
pub(crate) fn waits_for(finding: &Finding, cause: &Finding) -> bool {
    let tags = [Tag::Symptom, Tag::Hole, Tag::Open, Tag::OddChart, Tag::Uneven, Tag::IdleStep];
    let is_alike = finding.place == cause.place && std::ptr::eq(finding.rule, cause.rule);
    // Of a chart's marks and the picture, the picture is said.
    let is_its_chart = finding.rule.has(Tag::UnevenChart) && cause.rule.has(Tag::Uneven);
    !is_alike && (is_its_chart || tags.into_iter().any(|tag| finding.rule.has(tag)))
}

/// Where the strands hang otherwise than they should, a chart with an odd number of rows may be why.
pub(crate) fn with_odd_chart(mut findings: Vec<Finding>) -> Vec<Finding> {
    let causes = likely_causes(&findings);
    let cause = causes.into_iter().find(|&cause| findings[cause].severity == Severity::Error);
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

/// Where the band is not as it should be, a step may be missing that used a name: then it is one mistake.
pub(crate) fn with_unused(mut findings: Vec<Finding>) -> Vec<Finding> {
    let is_wrong = |&cause: &usize| {
        let Finding { severity, rule, .. } = &findings[cause];
        *severity == Severity::Error || rule.has(Tag::Hole) || rule.has(Tag::Open)
    };
    let Some(cause) = likely_causes(&findings).into_iter().find(is_wrong) else { return findings };
    let notes: Vec<Note> = findings
        .iter()
        .filter(|finding| finding.rule.has(Tag::Unused))
        .map(|unused| Note {
            place: unused.place,
            text: format!("{}: is a step missing?", as_note(&unused.message)),
        })
        .collect();
    findings[cause].notes.extend(notes);
    findings.retain(|finding| !finding.rule.has(Tag::Unused));
    findings
}

/// Which findings are said beside these: beside an error, no warning of what a slip elsewhere may have brought about, as that
/// slip may be the error.
pub(crate) fn said_beside(findings: &[Finding]) -> impl Fn(&Finding) -> bool + Copy + use<> {
    let is_wrong = findings.iter().any(|finding| finding.rule.severity == Severity::Error);
    move |finding| !is_wrong || finding.severity == Severity::Error || !finding.rule.has(Tag::Symptom)
}

/// Leaves out what follows from another finding. `again`: what is found after some edits, if that can be said.
pub(crate) fn said_once(
    findings: Vec<Finding>,
    again: impl Fn(&[Edit]) -> Option<Vec<Finding>>,
) -> Vec<Finding> {
    for cause in likely_causes(&findings) {
        let Some(follows) = following(&findings, cause, &again) else { continue };
        let place = (findings[cause].rule, findings[cause].place);
        let (gone, mut kept): (Vec<_>, Vec<_>) =
            findings.into_iter().enumerate().partition(|(number, _)| follows.contains(number));
        let gone: Vec<Finding> = gone.into_iter().map(|(_, finding)| finding).collect();
        if let Some((_, cause)) = kept.iter_mut().find(|(_, own)| (own.rule, own.place) == place) {
            note_what_follows(cause, places_of(&gone));
        }
        return kept.into_iter().map(|(_, finding)| finding).collect();
    }
    findings
}

/// The numbers of the findings that are gone after the first mend of one; `None` if that says nothing.
fn following(
    findings: &[Finding],
    cause: usize,
    again: impl Fn(&[Edit]) -> Option<Vec<Finding>>,
) -> Option<Vec<usize>> {
    let cause = &findings[cause];
    let mend = cause.mends.iter().find(|mend| !mend.is_guess)?;
    if !findings.iter().any(|finding| waits_for(finding, cause)) {
        return None;
    }
    let left = again(&mend.edits)?;
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
    if is_worse || is_left(cause) {
        return None;
    }
    let follows = |&number: &usize| waits_for(&findings[number], cause) && !is_left(&findings[number]);
    let found: Vec<usize> = (0..findings.len()).filter(follows).collect();
    (!found.is_empty()).then_some(found)
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
