//! What became of one file.

use knotwright_checker::{FileId, Finding, Place, Report, Severity, Source};
use knotwright_grammar::{Columns, LineIndex};
use knotwright_numbers::ToNumber;
use knotwright_workspace::ReadError;
use std::cell::OnceCell;
use std::collections::HashMap;
use std::ops::AddAssign;
use std::rc::Rc;
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
        // The patterns of a page all stand in one text, and may use the same files.
        let mut counted = CountedLines::default();
        let with_findings = self.reports().iter().filter(|report| !report.findings.is_empty());
        with_findings.flat_map(move |report| {
            let spots = counted.spots(&report.files);
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
                tally.refused = usize::from(!error.is_about_content());
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
    /// Files that were not read: they are no text or too long, or the system did not let us.
    pub(crate) unread: usize,
    /// Those of them that the system did not let us read.
    pub(crate) refused: usize,
    /// Errors.
    pub(crate) errors: usize,
    /// Warnings.
    pub(crate) warnings: usize,
    /// Findings that `--mend` would mend.
    pub(crate) mendable: usize,
    /// Warnings that a baseline has, and that do not count.
    pub(crate) known: usize,
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
        self.refused += more.refused;
        self.errors += more.errors;
        self.warnings += more.warnings;
        self.mendable += more.mendable;
        self.known += more.known;
    }
}

/// Places in the files of one pattern, its own first, in lines and columns. The lines of a file are counted when first
/// asked for.
#[derive(Clone)]
pub(crate) struct Spots<'a> {
    files: &'a [Arc<Source>],
    lines: Rc<Vec<SharedLines>>,
}

type SharedLines = Rc<OnceCell<LineIndex>>;

/// The lines of texts that several reports are about, by where each text is in memory: counted once each.
#[derive(Default)]
pub(crate) struct CountedLines(HashMap<*const u8, SharedLines>);

impl CountedLines {
    /// Places in the files of one report. The texts must outlive this.
    pub(crate) fn spots<'a>(&mut self, files: &'a [Arc<Source>]) -> Spots<'a> {
        let lines = files.iter().map(|file| Rc::clone(self.0.entry(file.text.as_ptr()).or_default()));
        Spots { files, lines: Rc::new(lines.collect()) }
    }
}

/// A place as people name it: everything from 1, columns in characters, a byte-order mark not counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct LineSpot<'a> {
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
        CountedLines::default().spots(files)
    }

    /// A file, and where its lines begin.
    pub(crate) fn file(&self, file: FileId) -> Option<(&'a Source, &LineIndex)> {
        let index = file.0.to_usize();
        let (file, lines) = (self.files.get(index)?, self.lines.get(index)?);
        Some((file, lines.get_or_init(|| LineIndex::new(&file.text))))
    }

    /// Where `place` is.
    pub(crate) fn of(&self, place: Place) -> LineSpot<'a> {
        let Some((file, lines)) = self.file(place.file) else {
            return LineSpot { path: "", line: 1, column: 1, end_line: 1, end_column: 1 };
        };
        let position = |offset| {
            let position = lines.position(&file.text, offset, Columns::Chars);
            let mark = u32::from(position.line == 0 && file.text.starts_with('\u{feff}'));
            (position.line + 1, position.column.saturating_sub(mark) + 1)
        };
        let ((line, column), (end_line, end_column)) = (position(place.span.start), position(place.span.end));
        LineSpot { path: &file.path, line, column, end_line, end_column }
    }
}
