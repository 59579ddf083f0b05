//! What the findings themselves propose.

use super::{Action, ActionKind, allow};
use crate::edits::apply;
use crate::{Checked, FileEdit, World};
use knotwright_checker::{FileId, Finding, Mend, Report, Settings, Severity, Source, check};
use knotwright_grammar::Span;
use std::sync::Arc;

/// No text needs more mends than this.
const MOST: usize = 100;

/// The mends of the findings at `range`, and for warnings a comment that allows them.
pub(super) fn fixes(checked: &Checked, range: Span) -> Vec<Action> {
    let touches = |finding: &Finding| {
        let span = finding.place.span;
        finding.place.file == FileId(0) && span.start <= range.end && range.start <= span.end
    };
    let mut actions = Vec::new();
    let findings = checked.report().findings.iter().enumerate().filter(|(_, finding)| touches(finding));
    for (number, finding) in findings {
        actions.extend(finding.mends.iter().map(|mend| fix(checked, mend, number)));
        actions.extend(allow::comment(checked, finding, number));
    }
    actions
}

fn fix(checked: &Checked, mend: &Mend, finding: usize) -> Action {
    let edits = file_edits(checked.report(), mend);
    Action {
        title: mend.title.clone(),
        kind: ActionKind::Fix,
        edits,
        finding: Some(finding),
        preferred: mend.certain,
    }
}

fn file_edits(report: &Report, mend: &Mend) -> Vec<FileEdit> {
    let file = |edit: &knotwright_checker::Edit| {
        let path = report.files.get(edit.place.file.0 as usize)?.path.clone();
        Some(FileEdit { path, span: edit.place.span, text: edit.text.clone() })
    };
    let mut edits: Vec<FileEdit> = mend.edits.iter().filter_map(file).collect();
    edits.sort();
    edits
}

/// Applies one certain mend after another, and checks again after each, as `check --mend` does; one that leaves as much
/// to say as before is taken back. `None` if nothing can be mended so.
pub fn fix_all(checked: &Checked, world: &World, settings: &Settings) -> Option<Action> {
    let mut text: Arc<str> = Arc::clone(&checked.source().text);
    let mut report = checked.report().clone();
    for _ in 0..MOST {
        let Some((better, after)) = better(checked, world, settings, (&text, &report)) else { break };
        (text, report) = (better, after);
    }
    if text == checked.source().text {
        return None;
    }
    let (span, new) = difference(checked.text(), &text);
    let edits = vec![FileEdit { path: checked.source().path.clone(), span, text: new.to_owned() }];
    let title = "Mend all that is certain".to_owned();
    Some(Action { title, kind: ActionKind::FixAll, edits, finding: None, preferred: true })
}

/// The text after the first certain mend that leaves less to say.
fn better(
    checked: &Checked,
    world: &World,
    settings: &Settings,
    (text, report): (&str, &Report),
) -> Option<(Arc<str>, Report)> {
    let here = |mend: &&Mend| mend.certain && mend.edits.iter().all(|edit| edit.place.file == FileId(0));
    report.findings.iter().find_map(|finding| {
        let mend =
            finding.mends.iter().find(|mend| mend.certain).filter(here).filter(|_| (world.is_wanted)())?;
        let mended = apply(text, mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str())));
        let source = Arc::new(Source::new(checked.source().path.clone(), mended));
        let after = check(Arc::clone(&source), world.library, settings);
        (gravity(&after) < gravity(report)).then(|| (Arc::clone(&source.text), after))
    })
}

/// Errors and warnings.
fn gravity(report: &Report) -> (usize, usize) {
    let errors = report.findings.iter().filter(|finding| finding.severity == Severity::Error).count();
    (errors, report.findings.len() - errors)
}

/// The least stretch that differs, and what stands there in the new text.
pub(super) fn difference<'n>(old: &str, new: &'n str) -> (Span, &'n str) {
    let same = old.bytes().zip(new.bytes()).take_while(|(one, other)| one == other).count();
    let start =
        (0..=same).rev().find(|&at| old.is_char_boundary(at) && new.is_char_boundary(at)).unwrap_or(0);
    let (rest_old, rest_new) = (&old[start..], &new[start..]);
    let tail =
        rest_old.bytes().rev().zip(rest_new.bytes().rev()).take_while(|(one, other)| one == other).count();
    let fits =
        |&tail: &usize| old.is_char_boundary(old.len() - tail) && new.is_char_boundary(new.len() - tail);
    let tail = (0..=tail).rev().find(fits).unwrap_or(0);
    (Span::new(start, old.len() - tail), &new[start..new.len() - tail])
}

#[cfg(test)]
mod tests {
    use super::difference;
    use knotwright_grammar::Span;

    #[test]
    fn only_what_differs_is_replaced() {
        assert_eq!(difference("forward 3", "forward 14"), (Span::new(8, 9), "14"));
        assert_eq!(difference("aaa", "aa"), (Span::new(2, 3), ""));
        assert_eq!(difference("a\u{e9}b", "a\u{e8}b"), (Span::new(1, 3), "\u{e8}"));
    }
}
