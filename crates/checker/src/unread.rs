//! What does not parse, in words, and what to write instead.

use crate::rephrase::{GivenNames, Orphans, Twins, mend_braces, rephrase_problem};
use crate::{FileId, Finding, Mend, Place, Source, rules};
use knotwright_grammar::{Problem, ProblemKind};
use knotwright_numbers::ToNumber;

/// What is said of something that does not parse. `given`: the names of its file.
pub(crate) fn said_unread(problem: &Problem, file: FileId, given: &GivenNames) -> Finding {
    let source = given.source();
    let mut finding = match (Twins::of(problem, source), Orphans::of(problem, source)) {
        (Some(twins), _) => rules::word_twins(twins, file, source),
        (_, Some(orphans)) => rules::word_orphans(orphans, file),
        (None, None) => rules::word_problem(problem, file, source).at(Place { file, span: problem.span }),
    };
    let place = finding.place;
    finding.mends.extend(meant(&problem.kind).map(|word| Mend::write(word, place)));
    finding.mends.extend(mend_braces(problem, source, file));
    finding.unfinished |= is_at_end(place, source);
    match rephrase_problem(problem, given, file) {
        Some(rephrased) => rules::word_rephrased(problem, finding, rephrased),
        None => finding,
    }
}

/// Whether a place is on the last line of a text, with no line break behind it, or where that goes on behind a comma or a
/// bar: somebody may be typing there.
pub(crate) fn is_at_end(place: Place, source: &Source) -> bool {
    let text = &source.text;
    let goes_on = text.trim_end().ends_with([',', '|']);
    let start = match goes_on {
        true => text.trim_end().len(),
        false => text.rfind(['\n', '\r']).map_or(0, |end| end + 1),
    };
    place.file == FileId::CHECKED
        && place.span.end.to_usize() >= start
        && (goes_on || !text[start..].trim().is_empty())
}

/// The word that was surely meant.
fn meant(kind: &ProblemKind) -> Option<&'static str> {
    match kind {
        ProblemKind::Misspelled { meant } => Some(meant),
        ProblemKind::UnknownStatement { nearest } => *nearest,
        _ => None,
    }
}
