//! What the findings themselves propose.

use super::{Action, ActionKind, allow, bring};
use crate::wording::sentence;
use crate::{Checked, FileEdit, World};
use knotwright_checker::{FileId, Finding, Mend, Report, Severity, Source, check};
use knotwright_grammar::{Span, Splice, apply_edits};
use knotwright_numbers::ToNumber;
use std::sync::Arc;

/// No text needs more mends than this.
const MOST: usize = 100;

/// The mends of the findings at `range`, and for warnings a comment that allows them.
pub(super) fn fixes(checked: &Checked, world: &World, range: Span) -> Vec<Action> {
    let touches = |finding: &Finding| {
        let span = finding.place.span;
        finding.place.file == FileId::CHECKED && span.meets(range)
    };
    let mut actions = Vec::new();
    let findings = checked.findings_with_mends(world.library).iter().enumerate();
    for (number, finding) in findings.filter(|(_, finding)| touches(finding)) {
        actions.extend(bring::motif(checked, world, finding, number));
        actions.extend(finding.mends.iter().map(|mend| fix(checked, mend, number)));
        actions.extend(allow::comment(checked, finding, number));
    }
    actions
}

fn fix(checked: &Checked, mend: &Mend, finding: usize) -> Action {
    let edits = file_edits(checked, mend);
    Action {
        title: sentence(&mend.title),
        kind: ActionKind::Fix,
        edits,
        finding: Some(finding),
        preferred: mend.certain,
        new_name: None,
    }
}

fn file_edits(checked: &Checked, mend: &Mend) -> Vec<FileEdit> {
    let file = |edit: &knotwright_checker::Edit| {
        let path = checked.files().get(edit.place.file.0.to_usize())?.path.clone();
        Some(FileEdit { path, span: edit.place.span, text: edit.text.clone() })
    };
    let mut edits: Vec<FileEdit> = mend.edits.iter().filter_map(file).collect();
    edits.sort();
    edits
}

/// Applies one certain mend after another, and checks again after each, as `check --mend` does; one that leaves as much
/// to say as before is taken back. `None` if nothing can be mended so.
pub fn fix_all(checked: &Checked, world: &World) -> Option<Action> {
    let mut text: Arc<str> = Arc::clone(&checked.source().text);
    let mut findings = checked.findings_with_mends(world.library).to_vec();
    let mut splice: Option<Splice> = None;
    for _ in 0..MOST {
        let Some(better) = better(checked, world, &text, &findings) else { break };
        splice = Some(splice.map_or(better.splice, |splice| splice.then(better.splice)));
        (text, findings) = (better.text, better.report.findings);
    }
    let Splice { start, old_end, new_end } = splice?.trimmed(checked.text(), &text)?;
    let span = Span::new(start, old_end);
    let text = text[start..new_end].to_owned();
    let edits = vec![FileEdit { path: checked.source().path.clone(), span, text }];
    let title = "Apply all certain mends".to_owned();
    Some(Action { title, kind: ActionKind::FixAll, edits, finding: None, preferred: true, new_name: None })
}

/// A text after a mend that left less to say.
struct Better {
    text: Arc<str>,
    /// What was edited.
    splice: Splice,
    report: Report,
}

/// The text after the first certain mend that leaves less to say.
fn better(checked: &Checked, world: &World, text: &str, findings: &[Finding]) -> Option<Better> {
    let here =
        |mend: &&Mend| mend.certain && mend.edits.iter().all(|edit| edit.place.file == FileId::CHECKED);
    findings.iter().find_map(|finding| {
        let mend =
            finding.mends.iter().find(|mend| mend.certain).filter(here).filter(|_| (world.is_wanted)())?;
        let mended = apply_edits(text, mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str())))?;
        let source = Arc::new(Source::new(checked.source().path.clone(), mended));
        let report = check(Arc::clone(&source), world.library, checked.settings());
        let splice = around(mend, text.len(), source.text.len())?;
        let is_better = gravity(&report.findings) < gravity(findings);
        is_better.then(|| Better { text: Arc::clone(&source.text), splice, report })
    })
}

/// What a mend replaces, from its first edit to its last, in a text that was and is now this long.
fn around(mend: &Mend, before: usize, now: usize) -> Option<Splice> {
    let spans = mend.edits.iter().map(|edit| edit.place.span);
    let span = spans.reduce(Span::to)?;
    let (start, old_end) = (span.start.to_usize(), span.end.to_usize());
    Some(Splice { start, old_end, new_end: now - (before - old_end) })
}

/// Errors and warnings.
fn gravity(findings: &[Finding]) -> (usize, usize) {
    let errors = findings.iter().filter(|finding| finding.severity == Severity::Error).count();
    (errors, findings.len() - errors)
}
