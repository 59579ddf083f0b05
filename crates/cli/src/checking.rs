//! From a file to what is to be said of it.

use crate::outcome::{Outcome, Tally, certain_mend};
use knotwright_checker::{Edit, Finding, Mend, Report, Source, check};
use knotwright_workspace::{Found, patterns};
use std::sync::Arc;

/// Checks a file.
pub(crate) fn check_file(file: &Found) -> Outcome {
    let checked = knotwright_workspace::read(&file.path).map(|text| check_text(file, &text));
    Outcome { path: file.shown.clone(), checked }
}

/// Checks the text of a file: one report for a pattern, one for each fenced pattern of a Markdown file.
pub(crate) fn check_text(file: &Found, text: &Arc<str>) -> Vec<Report> {
    let check = |source: Source| check(Arc::new(source), &file.home.library, &file.home.settings);
    if !file.is_markdown() {
        return vec![check(Source::new(&*file.shown, Arc::clone(text)))];
    }
    let reports = patterns(text).into_iter().map(|pattern| {
        let mut report = check(Source::new(&*file.shown, pattern.in_place(text)));
        // Places are those of the Markdown file, so its text is what people want to see.
        if let Some(first) = report.files.first_mut() {
            let parsed = std::mem::take(&mut Arc::make_mut(first).parsed);
            *first = Arc::new(Source { path: file.shown.clone(), text: Arc::clone(text), parsed });
        }
        report
    });
    reports.collect()
}

/// A text after its certain mends were applied.
pub(crate) struct Mended {
    /// The text; the one that was given, if there was nothing to mend.
    pub(crate) text: Arc<str>,
    /// What is to be said of it now.
    pub(crate) reports: Vec<Report>,
    /// What was done, one sentence a mend.
    pub(crate) done: Vec<String>,
}

/// More mends than this in one file are not made in one go.
const MOST_MENDS: usize = 100;

/// Applies one certain mend after another, and checks again after each: a mend that leaves as much to say as before
/// is taken back.
pub(crate) fn mend(file: &Found, text: &Arc<str>) -> Mended {
    let mut now = Mended { text: Arc::clone(text), reports: check_text(file, text), done: Vec::new() };
    while now.done.len() < MOST_MENDS {
        let Some(next) = better(file, &now) else { break };
        now = Mended { done: [now.done, next.done].concat(), ..next };
    }
    now
}

/// The first certain mend after which there is less to say.
fn better(file: &Found, now: &Mended) -> Option<Mended> {
    let before = gravity(&now.reports);
    let findings =
        || now.reports.iter().flat_map(|report| report.findings.iter().map(move |finding| (report, finding)));
    findings().find_map(|(report, finding)| {
        let mend = certain_mend(finding)?;
        let text: Arc<str> = applied(&now.text, &mend.edits)?.into();
        let reports = check_text(file, &text);
        let done = vec![told(report, finding, mend)];
        (gravity(&reports) < before).then_some(Mended { text, reports, done })
    })
}

fn gravity(reports: &[Report]) -> (usize, usize) {
    let mut all = Tally::default();
    reports.iter().for_each(|report| all += Tally::of(&report.findings));
    (all.errors, all.warnings)
}

fn told(report: &Report, finding: &Finding, mend: &Mend) -> String {
    let spot = crate::outcome::Spots::new(&report.files).of(finding.place);
    format!("{}:{}:{}: mended: {}", spot.path, spot.line, spot.column, mend.title)
}

/// `text` with all of `edits`; none, if they overlap or do not fit.
fn applied(text: &str, edits: &[Edit]) -> Option<String> {
    let mut edits: Vec<&Edit> = edits.iter().collect();
    edits.sort_by_key(|edit| edit.place.span);
    let (mut out, mut at) = (String::with_capacity(text.len() + 16), 0);
    for edit in edits {
        out.push_str(text.get(at..edit.place.span.start as usize)?);
        out.push_str(&edit.text);
        at = edit.place.span.end as usize;
    }
    out.push_str(text.get(at..)?);
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_checker::{FileId, Place};
    use knotwright_grammar::Span;

    fn edit(start: usize, end: usize, text: &str) -> Edit {
        Edit { place: Place { file: FileId(0), span: Span::new(start, end) }, text: text.to_owned() }
    }

    #[test]
    fn edits_are_applied_together_or_not_at_all() {
        let text = "take left 1: forward 4";
        assert_eq!(
            applied(text, &[edit(21, 22, "5"), edit(5, 9, "right")]).as_deref(),
            Some("take right 1: forward 5")
        );
        assert_eq!(applied(text, &[edit(5, 9, "a"), edit(8, 10, "b")]), None, "they overlap");
        assert_eq!(applied(text, &[edit(21, 99, "5")]), None, "it does not fit");
        assert_eq!(applied("\u{e9}", &[edit(1, 2, "e")]), None, "half a letter");
    }
}
