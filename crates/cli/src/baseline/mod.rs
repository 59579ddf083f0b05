//! What was there already when somebody began to check: warnings that are written down and do not count.
//!
//! A warning is known by its file, its rule and the statement it is in, and by how many alike there are: lines that
//! move change nothing, and one more is not hidden by those before it. Errors are never written down.

mod entry;

pub(crate) use entry::BaselineEntry;

use crate::lined::lined;
use crate::output::put;
use crate::terminal::{Failure, Terminal};
use entry::{WrittenBaseline, relative, statement};
use knotwright_checker::{Report, Severity};
use knotwright_workspace::{FoundFile, folder_of, shown_path};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// The only form there is so far.
const SCHEMA: &str = "knotwright/baseline/1";

/// What warnings of a file have in common if they count as alike.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct WarningKey {
    rule: String,
    /// As in [`BaselineEntry`].
    statement: String,
}

/// How many warnings are alike.
type KnownCounts = BTreeMap<WarningKey, usize>;

/// A baseline, read or to be written.
pub(crate) struct Baseline {
    path: PathBuf,
    /// The folder that its files are named from, canonical.
    folder: PathBuf,
    /// By file; `None` if it is to be written, so that all warnings are known.
    known: Option<BTreeMap<String, KnownCounts>>,
}

/// What a baseline says of one file.
#[derive(Debug, Default)]
pub(crate) struct SettledFile {
    /// How many of its warnings do not count.
    pub(crate) known: usize,
    /// What it has of the file that is not there any more.
    pub(crate) gone: Vec<BaselineEntry>,
    /// What is to be written of the file.
    pub(crate) found: Vec<BaselineEntry>,
}

impl Baseline {
    /// Reads a baseline.
    ///
    /// # Errors
    /// It cannot be read or understood.
    pub(crate) fn read(path: &Path) -> Result<Self, Failure> {
        let said =
            |reason: &dyn std::fmt::Display| Failure::said(format_args!("{}: {reason}", shown_path(path)));
        let text = knotwright_workspace::read_text(path).map_err(|error| said(&error))?;
        let written: WrittenBaseline = serde_json::from_str(&text).map_err(|error| {
            said(&format_args!("this is no baseline ({error}); `--write-baseline` writes one"))
        })?;
        if written.schema != SCHEMA {
            return Err(said(&format_args!("this says `{}`, and `{SCHEMA}` is needed here", written.schema)));
        }
        let mut known: BTreeMap<String, KnownCounts> = BTreeMap::new();
        for entry in written.known {
            let key = WarningKey { rule: entry.rule, statement: entry.statement };
            *known.entry(entry.file).or_default().entry(key).or_default() += entry.times;
        }
        Ok(Self { folder: folder(path)?, path: path.to_path_buf(), known: Some(known) })
    }

    /// One that is to be written.
    ///
    /// # Errors
    /// There is no folder to write it into.
    pub(crate) fn to_write(path: &Path) -> Result<Self, Failure> {
        Ok(Self { folder: folder(path)?, path: path.to_path_buf(), known: None })
    }

    /// Takes the warnings that are known out of the reports on a file.
    pub(crate) fn settle(&self, file: &FoundFile, reports: &mut [Report]) -> SettledFile {
        let name = relative(&file.path, &self.folder);
        let mut left = self.known.as_ref().map(|known| known.get(&name).cloned().unwrap_or_default());
        let (mut known, mut found) = (0, KnownCounts::new());
        let mut is_sound = true;
        for report in reports {
            let mut findings = std::mem::take(&mut report.findings);
            findings.retain(|finding| {
                if finding.rule.severity == Severity::Error {
                    is_sound = false;
                    return true;
                }
                let rule = finding.rule.name.to_owned();
                let key = WarningKey { rule, statement: statement(report, finding) };
                let is_known = left.as_mut().is_none_or(|left| take_one(left, &key));
                known += usize::from(is_known);
                *found.entry(key).or_default() += 1;
                !is_known
            });
            report.findings = findings;
        }
        // With an error in it, most warnings of a file are not looked for: that they do not occur says nothing.
        let gone = left.filter(|_| is_sound).map_or_else(Vec::new, |left| entry::entries(&name, left));
        let found = if self.known.is_none() { entry::entries(&name, found) } else { Vec::new() };
        SettledFile { known, gone, found }
    }

    /// What it has of files that are gone altogether.
    pub(crate) fn of_lost_files(&self) -> Vec<BaselineEntry> {
        let lost = self.known.iter().flatten().filter(|(name, _)| !self.folder.join(name).exists());
        lost.flat_map(|(name, counts)| entry::entries(name, counts.clone())).collect()
    }

    /// Writes it, if it is to be written, in the order of files, rules and statements, one a line; or reports what no longer
    /// occurs.
    ///
    /// # Errors
    /// It cannot be written.
    pub(crate) fn finish(
        &self,
        mut entries: Vec<BaselineEntry>,
        has_errors: bool,
        terminal: &Terminal,
    ) -> Result<(), Failure> {
        entries.sort();
        if self.known.is_some() {
            self.tell_gone(&entries, terminal);
            return Ok(());
        }
        put(Some(&self.path), lined(SCHEMA, "known", &entries).as_bytes(), terminal)?;
        let all: usize = entries.iter().map(|entry| entry.times).sum();
        let warnings = if all == 1 { "1 warning" } else { &format!("{all} warnings") };
        terminal.say(format_args!(
            "{warnings} recorded in {0}; `check --baseline {0}` counts only new ones",
            shown_path(&self.path)
        ));
        if has_errors {
            terminal.say(
                "files with errors are not searched for most warnings; fix the errors, and write it again",
            );
        }
        Ok(())
    }

    fn tell_gone(&self, gone: &[BaselineEntry], terminal: &Terminal) {
        const MOST: usize = 20;
        let shown = shown_path(&self.path);
        gone.iter()
            .take(MOST)
            .for_each(|entry| terminal.say(format_args!("{shown}: no longer there: {entry}")));
        if gone.len() > MOST {
            terminal.say(format_args!("{shown}: no longer there: {} more", gone.len() - MOST));
        }
        if !gone.is_empty() {
            terminal.say(format_args!(
                "to drop such entries, write it again for all files: `check --write-baseline {shown} ...`"
            ));
        }
    }
}

/// Whether one more of that kind is left, which is taken.
fn take_one(left: &mut KnownCounts, key: &WarningKey) -> bool {
    let Some(times) = left.get_mut(key).filter(|times| **times > 0) else { return false };
    *times -= 1;
    true
}

fn folder(path: &Path) -> Result<PathBuf, Failure> {
    folder_of(path)
        .canonicalize()
        .map_err(|_| Failure::said(format_args!("{}: there is no such folder", shown_path(folder_of(path)))))
}
