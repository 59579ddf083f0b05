//! What the checker found, as diagnostics.

use super::places::Places;
use crate::documents::Snapshot;
use knotwright_checker::{Finding, Place, Report, Severity};
use knotwright_grammar::Span;
use knotwright_grammar::tree::Node;
use std::hash::{DefaultHasher, Hash, Hasher};
use tower_lsp::ls_types::{
    Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag, NumberOrString, Position,
    Range,
};

/// Who says it.
pub(crate) const SOURCE: &str = "knotwright";

/// All that was found in a document. A finding within a file that the document uses stands at the `use` that brings it.
pub(crate) fn diagnostics(snapshot: &Snapshot) -> Vec<Diagnostic> {
    let patterns = snapshot.patterns();
    let trouble =
        patterns.first().and_then(|first| first.looked().trouble.as_ref()).map(|trouble| Diagnostic {
            range: Range::default(),
            severity: Some(DiagnosticSeverity::WARNING),
            source: Some(SOURCE.to_owned()),
            message: format!("The settings do not hold. {trouble}"),
            ..Diagnostic::default()
        });
    let found = |pattern: &Snapshot| {
        pattern.report().findings.iter().map(|finding| diagnostic(pattern, finding)).collect::<Vec<_>>()
    };
    trouble.into_iter().chain(patterns.iter().flat_map(found)).collect()
}

/// A name for a list of diagnostics: the same for the same list.
pub(crate) fn fingerprint(diagnostics: &[Diagnostic]) -> String {
    let mut hasher = DefaultHasher::new();
    serde_json::to_string(diagnostics).unwrap_or_default().hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}

/// One finding.
pub(super) fn diagnostic(snapshot: &Snapshot, finding: &Finding) -> Diagnostic {
    let report = snapshot.report();
    let span = if finding.place.file.0 == 0 { finding.place.span } else { bringing(report, finding.place) };
    let (related, message) = (related(snapshot, finding), message(finding));
    let said = snapshot.setting.facts.related && !related.is_empty();
    Diagnostic {
        range: range(snapshot, span),
        severity: Some(severity(finding.severity)),
        code: Some(NumberOrString::String(finding.rule.name.to_owned())),
        source: Some(SOURCE.to_owned()),
        message: if said || related.is_empty() { message } else { with_notes(message, &related) },
        related_information: said.then_some(related),
        tags: (snapshot.setting.facts.unnecessary && is_superfluous(finding))
            .then(|| vec![DiagnosticTag::UNNECESSARY]),
        ..Diagnostic::default()
    }
}

/// An empty place is widened to the sign before it, or behind it, so that there is something to underline.
fn range(snapshot: &Snapshot, span: Span) -> Range {
    let range = snapshot.range(span);
    if range.start != range.end {
        return range;
    }
    match range.start.character {
        0 => Range { end: Position { character: 1, ..range.end }, ..range },
        column => Range { start: Position { character: column - 1, ..range.start }, ..range },
    }
}

/// The `use` that brings the file in which something was found.
fn bringing(report: &Report, place: Place) -> Span {
    let (Some(document), Some(file)) = (report.files.first(), report.files.get(place.file.0 as usize)) else {
        return Span::default();
    };
    let name = file.path.rsplit('/').next().unwrap_or_default();
    let mut uses = document.parsed.tree.statements.iter().filter_map(|statement| match &statement.node {
        Node::Use { path, .. } => Some(path),
        _ => None,
    });
    let fits = uses.clone().find(|path| path.value.rsplit('/').next() == Some(name));
    fits.or_else(|| uses.next()).map_or(Span::default(), |path| path.span)
}

fn message(finding: &Finding) -> String {
    match &finding.help {
        Some(help) => format!("{}\n{help}", finding.message),
        None => finding.message.clone(),
    }
}

fn severity(severity: Severity) -> DiagnosticSeverity {
    match severity {
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
    }
}

/// Whether it is about something that could as well not be there.
fn is_superfluous(finding: &Finding) -> bool {
    finding.rule.name.starts_with("unused-")
}

fn related(snapshot: &Snapshot, finding: &Finding) -> Vec<DiagnosticRelatedInformation> {
    let itself = (finding.place.file.0 != 0).then_some((finding.place, "it stands here"));
    let notes = finding.notes.iter().map(|note| (note.place, note.text.as_str()));
    let mut places = Places::new(&snapshot.setting);
    itself
        .into_iter()
        .chain(notes)
        .filter_map(|(place, text)| {
            let file = snapshot.report().files.get(place.file.0 as usize)?;
            let location = places.location(&file.path, place.span)?;
            Some(DiagnosticRelatedInformation { location, message: text.to_owned() })
        })
        .collect()
}

/// For clients that show no other places: in words.
fn with_notes(mut message: String, related: &[DiagnosticRelatedInformation]) -> String {
    for note in related {
        message.push_str(&format!("\nLine {}: {}", note.location.range.start.line + 1, note.message));
    }
    message
}
