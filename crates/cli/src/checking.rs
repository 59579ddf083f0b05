//! From a file to what is to be said of it.

use crate::many::LargeTurn;
use crate::outcome::{Outcome, Tally, certain_mend};
use knotwright_checker::{FileId, Finding, Mend, Place, Report, Settings, Source, check, check_small};
use knotwright_grammar::{Span, apply_edits};
use knotwright_workspace::{Fenced, FoundFile, fenced_patterns};
use std::sync::Arc;

/// Checks a file. What was tied is given up then: only what is to be said of it is left. `shown`: how many mends of a finding are
/// shown, if not all.
pub(crate) fn check_file(file: &FoundFile, shown: Option<usize>) -> Outcome {
    let settings = Settings { shown_mends: shown, ..(*file.settings()).clone() };
    let said = |source: Source| {
        let (source, turn) = (Arc::new(source), LargeTurn::default());
        let report = check_small(&source, &file.home.library, &settings).unwrap_or_else(|| {
            turn.take();
            check(source, &file.home.library, &settings)
        });
        without_band(report)
    };
    let checked = knotwright_workspace::read_text(&file.path).map(|text| reports(file, &text, said));
    Outcome { path: file.shown.clone(), checked }
}

fn without_band(report: Report) -> Report {
    Report { pattern: None, ..report }
}

/// Checks the text of a file: one report for a pattern, one for each fenced pattern of a Markdown file.
pub(crate) fn check_text(file: &FoundFile, text: &Arc<str>) -> Vec<Report> {
    let settings = file.settings();
    reports(file, text, |source| check(Arc::new(source), &file.home.library, &settings))
}

/// One pattern of a file, by its number, with its band: whose places are those of the page, too.
pub(crate) fn check_one(file: &FoundFile, text: &Arc<str>, which: usize) -> Option<Report> {
    if !file.is_markdown() {
        return check_text(file, text).into_iter().nth(which);
    }
    let source = Source::new(&*file.shown, fenced_patterns(text).get(which)?.in_place(text));
    let mut report = check(Arc::new(source), &file.home.library, &file.settings());
    // Places are those of the Markdown file, so its text is what people want to see.
    if let Some(first) = report.files.first_mut() {
        let parsed = std::mem::take(&mut Arc::make_mut(first).parsed);
        *first = Arc::new(Source::read(file.shown.clone(), Arc::clone(text), parsed));
    }
    Some(report)
}

fn reports(file: &FoundFile, text: &Arc<str>, check: impl Fn(Source) -> Report) -> Vec<Report> {
    if !file.is_markdown() {
        return vec![check(Source::new(&*file.shown, Arc::clone(text)))];
    }
    let blocks = fenced_patterns(text).into_iter();
    blocks.map(|block| in_page(check(Source::new(&*file.shown, &*block.text)), text, &block)).collect()
}

/// What is said of a pattern in a page, with the places of the page.
pub(crate) fn in_page(report: Report, page: &Arc<str>, block: &Fenced) -> Report {
    let mut report = report.in_page(page, block.place.start);
    if block.text.trim().is_empty() {
        let fence = Place { file: FileId::CHECKED, span: Span::new(block.fence.start, block.fence.end) };
        report.findings.iter_mut().for_each(|finding| finding.place = fence);
    }
    report
}

/// A text after its certain mends were applied.
pub(crate) struct MendedFile {
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
pub(crate) fn mend(file: &FoundFile, text: &Arc<str>) -> MendedFile {
    let mut now = MendedFile { text: Arc::clone(text), reports: check_text(file, text), done: Vec::new() };
    while now.done.len() < MOST_MENDS {
        let Some(next) = better(file, &now) else { break };
        now = MendedFile { done: [now.done, next.done].concat(), ..next };
    }
    now
}

/// The first certain mend after which there is less to say.
fn better(file: &FoundFile, now: &MendedFile) -> Option<MendedFile> {
    let before = gravity(&now.reports);
    let findings =
        || now.reports.iter().flat_map(|report| report.findings.iter().map(move |finding| (report, finding)));
    findings().find_map(|(report, finding)| {
        let mend = certain_mend(finding)?;
        let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        let text: Arc<str> = apply_edits(&now.text, edits)?.into();
        let reports = check_text(file, &text);
        let done = vec![describe_mend(report, finding, mend)];
        (gravity(&reports) < before).then_some(MendedFile { text, reports, done })
    })
}

fn gravity(reports: &[Report]) -> (usize, usize) {
    let mut all = Tally::default();
    reports.iter().for_each(|report| all += Tally::of(&report.findings));
    (all.errors, all.warnings)
}

fn describe_mend(report: &Report, finding: &Finding, mend: &Mend) -> String {
    let spot = crate::outcome::Spots::new(&report.files).of(finding.place);
    format!("{}:{}:{}: mended: {}", crate::visible::name(spot.path), spot.line, spot.column, mend.title)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// How many bytes are read of a page of this many patterns, and how many it has.
    fn bytes_read(patterns: usize) -> (usize, usize) {
        let text = "Prose.\n\n```knot\npattern \"Pier\"\nstrands 9 rope\n```\n".repeat(patterns);
        let folder = tempfile::tempdir().unwrap();
        let home = knotwright_workspace::Homes::default().of(folder.path(), folder.path()).unwrap();
        let file = FoundFile { path: "page.md".into(), shown: "page.md".to_owned(), home, named: true };
        let (page, bytes) = (Arc::from(&*text), std::cell::Cell::new(0));
        let found = reports(&file, &page, |source: Source| {
            bytes.set(bytes.get() + source.text.len());
            check(Arc::new(source), &file.home.library, &file.settings())
        });
        assert!(
            found.iter().all(|report| Arc::ptr_eq(&report.files[0].text, &page)),
            "no pattern has a page of its own"
        );
        let said =
            |report: &Report| report.findings.iter().any(|finding| finding.place.span.of(&text) == "rope");
        assert!(found.iter().all(said), "places are those of the page");
        (bytes.get(), text.len())
    }

    #[test]
    fn of_a_page_each_pattern_is_read_where_it_stands_and_once() {
        for patterns in [1, 100] {
            let (read, length) = bytes_read(patterns);
            assert!(0 < read && read < length, "{read} of {length}");
        }
    }
}
