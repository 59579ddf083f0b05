//! What became of one file.

use knotwright_checker::{Finding, Place, Report, Severity, Source};
use knotwright_grammar::{Columns, LineIndex};
use knotwright_workspace::ReadError;
use std::cell::OnceCell;
use std::ops::AddAssign;
use std::sync::Arc;

/// A file after it was checked, or why it was not.
#[derive(Debug)]
pub(crate) struct Outcome {
    /// Its name as shown to people.
    pub(crate) path: String,
    /// One report for a pattern file; one for each fenced pattern of a Markdown file.
    pub(crate) checked: Result<Vec<Report>, ReadError>,
}

impl Outcome {
    /// The reports; none if the file was not read.
    pub(crate) fn reports(&self) -> &[Report] {
        self.checked.as_deref().unwrap_or_default()
    }

    /// The findings, each with the files its places mean.
    pub(crate) fn findings(&self) -> impl Iterator<Item = (Spots<'_>, &Finding)> {
        self.reports().iter().flat_map(|report| {
            let spots = Spots::new(&report.files);
            report.findings.iter().map(move |finding| (spots.clone(), finding))
        })
    }

    /// Counts it.
    pub(crate) fn tally(&self) -> Tally {
        let mut tally = Tally { files: 1, ..Tally::default() };
        match &self.checked {
            Ok(reports) => reports.iter().for_each(|report| tally += Tally::of(&report.findings)),
            Err(error) => {
                tally.unread = 1;
                tally.unreadable = usize::from(!error.is_about_content());
            }
        }
        tally
    }
}

/// The mend that `--mend` applies for a finding: one that is certain, and stays in the file that is checked.
pub(crate) fn certain_mend(finding: &Finding) -> Option<&knotwright_checker::Mend> {
    let here = |mend: &&knotwright_checker::Mend| mend.edits.iter().all(|edit| edit.place.file.0 == 0);
    finding.mends.iter().find(|mend| mend.certain).filter(here)
}

/// How much of what was found.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Tally {
    /// Files looked at.
    pub(crate) files: usize,
    /// Files that are no text.
    pub(crate) unread: usize,
    /// Those of them that the system did not let us read.
    pub(crate) unreadable: usize,
    /// Errors.
    pub(crate) errors: usize,
    /// Warnings.
    pub(crate) warnings: usize,
    /// Findings that `--mend` would mend.
    pub(crate) mendable: usize,
}

impl Tally {
    /// Counts findings.
    pub(crate) fn of(findings: &[Finding]) -> Self {
        let errors = findings.iter().filter(|finding| finding.severity == Severity::Error).count();
        let mendable = findings.iter().filter(|finding| certain_mend(finding).is_some()).count();
        Self { errors, warnings: findings.len() - errors, mendable, ..Self::default() }
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, more: Self) {
        self.files += more.files;
        self.unread += more.unread;
        self.unreadable += more.unreadable;
        self.errors += more.errors;
        self.warnings += more.warnings;
        self.mendable += more.mendable;
    }
}

/// Places in the files of one pattern, its own first, in lines and columns. The lines of a file are counted when first
/// asked for.
#[derive(Clone)]
pub(crate) struct Spots<'a> {
    files: &'a [Arc<Source>],
    lines: std::rc::Rc<Vec<OnceCell<LineIndex>>>,
}

/// A place as people name it: everything from 1, columns in characters, a byte-order mark not counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Spot<'a> {
    /// The file.
    pub(crate) path: &'a str,
    /// The line it begins on.
    pub(crate) line: u32,
    /// The column it begins at.
    pub(crate) column: u32,
    /// The line it ends on.
    pub(crate) end_line: u32,
    /// The column after its last character.
    pub(crate) end_column: u32,
}

impl<'a> Spots<'a> {
    pub(crate) fn new(files: &'a [Arc<Source>]) -> Self {
        Self { files, lines: std::rc::Rc::new(vec![OnceCell::new(); files.len()]) }
    }

    /// Where `place` is.
    pub(crate) fn of(&self, place: Place) -> Spot<'a> {
        let index = place.file.0 as usize;
        let (Some(file), Some(lines)) = (self.files.get(index), self.lines.get(index)) else {
            return Spot { path: "", line: 1, column: 1, end_line: 1, end_column: 1 };
        };
        let lines = lines.get_or_init(|| LineIndex::new(&file.text));
        let position = |offset| {
            let position = lines.position(&file.text, offset, Columns::Chars);
            let mark = u32::from(position.line == 0 && file.text.starts_with('\u{feff}'));
            (position.line + 1, position.column.saturating_sub(mark) + 1)
        };
        let ((line, column), (end_line, end_column)) = (position(place.span.start), position(place.span.end));
        Spot { path: &file.path, line, column, end_line, end_column }
    }
}
