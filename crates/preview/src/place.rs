//! From places in the text to steps of the band, and back.

use crate::message::{PartLetter, StepName};
use crate::owner::Destination;
use knotwright_checker::{FileId, Part, Pattern, Place, Report, Severity, Step};
use knotwright_grammar::LineIndex;
use knotwright_numbers::ToNumber;

/// Opening, set and closing, as far as they are there.
fn parts(pattern: &Pattern) -> impl Iterator<Item = (PartLetter, &Part)> {
    let all = [('o', &pattern.opening), ('s', &pattern.set), ('c', &pattern.closing)];
    all.into_iter().filter_map(|(kind, part)| Some((kind, part.as_ref()?)))
}

/// All steps with their names, in the order of tying.
fn steps(pattern: &Pattern) -> impl Iterator<Item = (StepName, &Step)> {
    parts(pattern).flat_map(|(kind, part)| {
        (0..=u32::MAX).zip(&part.steps).map(move |(number, step)| ((kind, number), step))
    })
}

/// Where strands are joined, with the names of that.
fn joins(pattern: &Pattern) -> impl Iterator<Item = (StepName, Place)> {
    parts(pattern).flat_map(|(kind, part)| {
        (0..=u32::MAX)
            .zip(&part.joins)
            .map(move |(number, join)| ((kind.to_ascii_uppercase(), number), join.place))
    })
}

/// The steps that were tied from where the cursor is: the statement it is in, or else those of its line.
pub(crate) fn under(report: &Report, cursor: u32) -> Vec<StepName> {
    let (Some(pattern), Some(source)) = (&report.pattern, report.files.first()) else { return Vec::new() };
    let here = |place: Place| {
        place.file == FileId::CHECKED && place.span.start <= cursor && cursor <= place.span.end
    };
    let all = || steps(pattern).map(|(name, step)| (name, step.place)).chain(joins(pattern));
    let within: Vec<StepName> = all().filter(|(_, place)| here(*place)).map(|(name, _)| name).collect();
    if !within.is_empty() {
        return within;
    }
    let lines = LineIndex::new(&source.text);
    let line = lines.line(cursor.min(u32::try_from(source.text.len()).unwrap_or(u32::MAX)));
    let on_line = |place: Place| {
        place.file == FileId::CHECKED
            && (lines.line(place.span.start)..=lines.line(place.span.end)).contains(&line)
    };
    all().filter(|(_, place)| on_line(*place)).map(|(name, _)| name).collect()
}

/// The first step that does not tie as it is written; the very first one if that cannot be said.
pub(crate) fn broken(report: &Report) -> Option<StepName> {
    let errors = report.findings.iter().filter(|finding| finding.severity == Severity::Error);
    let places: Vec<Place> = errors.map(|finding| finding.place).collect();
    if places.is_empty() {
        return None;
    }
    let (Some(pattern), Some(source)) = (&report.pattern, report.files.first()) else {
        return Some(('o', 0));
    };
    let lines = LineIndex::new(&source.text);
    let touches = |of: Place| places.iter().any(|place| place.file == of.file && place.span.meets(of.span));
    let first =
        places.iter().filter(|place| place.file == FileId::CHECKED).min_by_key(|place| place.span.start);
    let follows = |of: Place| {
        first.is_some_and(|first| {
            of.file == FileId::CHECKED && lines.line(of.span.start) >= lines.line(first.span.start)
        })
    };
    let named = |found: (StepName, &Step)| found.0;
    steps(pattern)
        .find(|(_, step)| touches(step.place))
        .or_else(|| steps(pattern).find(|(_, step)| follows(step.place)))
        .map(named)
        // What is there ties nothing, and nothing stands below it: the step after the last one above it.
        .or_else(|| steps(pattern).last().map(|((kind, number), _)| (kind, number + 1)))
        .or(Some(('o', 0)))
}

/// Where a step is written.
pub(crate) fn spot_of(report: &Report, (kind, number): StepName) -> Option<Destination> {
    let pattern = report.pattern.as_ref()?;
    if kind.is_ascii_uppercase() {
        return spot(report, joins(pattern).find(|(name, _)| *name == (kind, number))?.1);
    }
    let (_, part) = parts(pattern).find(|(known, _)| *known == kind)?;
    spot(report, part.steps.get(number.to_usize())?.place)
}

/// A place with its file.
pub(crate) fn spot(report: &Report, place: Place) -> Option<Destination> {
    let file = report.files.get(place.file.0.to_usize())?;
    Some(Destination { path: file.path.clone(), text: file.text.clone(), span: place.span })
}
