//! What the checker found, as diagnostics.

use super::places::LocationFinder;
use crate::documents::Snapshot;
use knotwright_checker::{FileId, Finding, Place, Severity, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::Import;
use knotwright_numbers::ToNumber;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;
use tower_lsp::ls_types::{
    Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag, NumberOrString, Range,
};

/// Who says it.
pub(crate) const SOURCE: &str = "knotwright";

/// What was found in a document.
pub(crate) struct DocumentFindings {
    pub(crate) diagnostics: Vec<Diagnostic>,
    /// Whether these are all; each of them is among all.
    pub(crate) is_all: bool,
    /// What is wrong besides, unless it follows from those; only what the client may show already.
    pub(crate) doubtful: Vec<Diagnostic>,
}

impl DocumentFindings {
    /// Nothing more will be found.
    pub(crate) fn whole(diagnostics: Vec<Diagnostic>) -> Self {
        Self { diagnostics, is_all: true, doubtful: Vec::new() }
    }
}

/// What is found in a document at once. `said_rules`: those of what the client shows. Of what is doubtful nothing else will be
/// shown, and to say a hundred things in terms of the protocol takes as long as to find them.
pub(crate) fn first_diagnostics(snapshot: &Snapshot, said_rules: &[String]) -> DocumentFindings {
    let patterns = snapshot.patterns();
    let is_all = patterns.iter().all(|pattern| pattern.checked().findings_so_far().1);
    let diagnostics = of_patterns(&patterns, |pattern| pattern.checked().findings_so_far().0);
    let doubtful = |pattern: &Snapshot| {
        let doubtful = pattern.checked().doubtful();
        let may_be_shown = |finding: &&Finding| said_rules.iter().any(|rule| rule == finding.rule.name);
        doubtful.filter(may_be_shown).map(|finding| diagnostic(pattern, finding)).collect::<Vec<_>>()
    };
    let asked = patterns.iter().filter(|_| !said_rules.is_empty());
    DocumentFindings { diagnostics, is_all, doubtful: asked.flat_map(doubtful).collect() }
}

/// All that was found in a document. If much is wrong, mends are sought for it, which takes long.
pub(crate) fn diagnostics(snapshot: &Snapshot) -> Vec<Diagnostic> {
    of_patterns(&snapshot.patterns(), Snapshot::findings)
}

/// A finding within a file that the document uses is at the `use` that brings it.
fn of_patterns(patterns: &[Snapshot], findings: impl Fn(&Snapshot) -> &[Finding]) -> Vec<Diagnostic> {
    let trouble =
        patterns.first().and_then(|first| first.looked().trouble.as_ref()).map(|trouble| Diagnostic {
            range: Range::default(),
            severity: Some(DiagnosticSeverity::WARNING),
            source: Some(SOURCE.to_owned()),
            message: format!("The settings cannot be used. {trouble}"),
            ..Diagnostic::default()
        });
    let found = |pattern: &Snapshot| {
        findings(pattern).iter().map(|finding| diagnostic(pattern, finding)).collect::<Vec<_>>()
    };
    trouble.into_iter().chain(patterns.iter().flat_map(found)).collect()
}

/// A name for a list of diagnostics: the same for the same list.
pub(crate) fn fingerprint(diagnostics: &[Diagnostic]) -> String {
    let mut hasher = DefaultHasher::new();
    serde_json::to_string(diagnostics).unwrap_or_default().hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}

/// What was found first in a pattern that is still being tied. `None` if something of it is in another file.
pub(crate) fn diagnostics_while_tied(snapshot: &Snapshot, findings: &[Finding]) -> Option<Vec<Diagnostic>> {
    let is_here = |place: Place| place.file == FileId::CHECKED;
    let is_all_here =
        |finding: &Finding| is_here(finding.place) && finding.notes.iter().all(|note| is_here(note.place));
    let file = [Arc::clone(snapshot.source())];
    let said = |finding| diagnostic_in(snapshot, &file, finding);
    findings.iter().all(is_all_here).then(|| findings.iter().map(said).collect())
}

/// One finding.
pub(super) fn diagnostic(snapshot: &Snapshot, finding: &Finding) -> Diagnostic {
    diagnostic_in(snapshot, snapshot.checked().files(), finding)
}

/// `files`: those that its places count.
fn diagnostic_in(snapshot: &Snapshot, files: &[Arc<Source>], finding: &Finding) -> Diagnostic {
    let span = if finding.place.file.0 == 0 { finding.place.span } else { bringing(files, finding.place) };
    let (related, message) = (related(snapshot, files, finding), message(finding));
    let said = snapshot.setting.facts.related && !related.is_empty();
    Diagnostic {
        range: snapshot.wide_range(span),
        severity: Some(severity(finding)),
        code: Some(NumberOrString::String(finding.rule.name.to_owned())),
        source: Some(SOURCE.to_owned()),
        message: if said || related.is_empty() { message } else { with_notes(message, &related) },
        related_information: said.then_some(related),
        tags: (snapshot.setting.facts.unnecessary && is_superfluous(finding))
            .then(|| vec![DiagnosticTag::UNNECESSARY]),
        ..Diagnostic::default()
    }
}

/// The `use` that brings the file in which something was found.
fn bringing(files: &[Arc<Source>], place: Place) -> Span {
    let (Some(document), Some(file)) = (files.first(), files.get(place.file.0.to_usize())) else {
        return Span::default();
    };
    let name = file.path.rsplit('/').next().unwrap_or_default();
    let uses = document.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Import>());
    let mut uses = uses.map(|import| &import.path);
    let fits = uses.clone().find(|path| path.value.rsplit('/').next() == Some(name));
    fits.or_else(|| uses.next()).map_or(Span::default(), |path| path.span)
}

fn message(finding: &Finding) -> String {
    match &finding.help {
        Some(help) => format!("{}\n{help}", finding.message),
        None => finding.message.clone(),
    }
}

/// What is only not there yet is no error while somebody types.
fn severity(finding: &Finding) -> DiagnosticSeverity {
    match finding.severity {
        _ if finding.unfinished => DiagnosticSeverity::HINT,
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
    }
}

/// Whether it is about something that could as well not be there.
fn is_superfluous(finding: &Finding) -> bool {
    finding.rule.name.starts_with("unused-")
}

fn related(
    snapshot: &Snapshot,
    files: &[Arc<Source>],
    finding: &Finding,
) -> Vec<DiagnosticRelatedInformation> {
    let itself = (finding.place.file.0 != 0).then_some((finding.place, "it is here"));
    let notes = finding.notes.iter().map(|note| (note.place, note.text.as_str()));
    let mut places = LocationFinder::new(&snapshot.setting);
    itself
        .into_iter()
        .chain(notes)
        .filter_map(|(place, text)| {
            let file = files.get(place.file.0.to_usize())?;
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
