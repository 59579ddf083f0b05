//! The forms a report of findings takes: one file each.
//!
//! A report is written file by file, so that ten thousand of them need no more memory than one.

mod fingerprint;
mod github;
mod gitlab;
mod human;
mod json;
mod junit;
mod sarif;
mod short;
#[cfg(test)]
mod tests;

use crate::outcome::{Outcome, Spots, Tally};
use knotwright_checker::{Finding, Severity};

/// A form of report.
pub(crate) trait ReportFormat: Sync {
    /// What stands before the first file.
    fn head(&self) -> String {
        String::new()
    }

    /// What is said of one file. Nothing, if it is empty; then no separator is written for it either.
    fn file(&self, outcome: &Outcome) -> String;

    /// What stands between two files.
    fn separator(&self) -> &'static str {
        ""
    }

    /// What stands after the last file.
    fn foot(&self, _tally: &Tally) -> String {
        String::new()
    }
}

/// The name of a form, as it is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub(crate) enum FormatName {
    /// For reading: each finding with the lines it is about, and what to do
    Human,
    /// One line a finding: path:line:column: error[rule]: message
    Short,
    /// One JSON document, with all places, notes and mends
    Json,
    /// SARIF 2.1.0, for code scanning
    Sarif,
    /// Workflow commands, which GitHub shows beside the lines of a change
    Github,
    /// A GitLab code quality report
    Gitlab,
    /// JUnit XML, for anything that shows test results
    Junit,
}

impl FormatName {
    /// Whether people read it.
    pub(crate) fn is_for_people(self) -> bool {
        matches!(self, Self::Human | Self::Short)
    }

    /// The form of that name. `deny`: warnings count as failures.
    pub(crate) fn format(self, color: bool, deny: bool) -> Box<dyn ReportFormat> {
        match self {
            Self::Human => Box::new(human::Human { color }),
            Self::Short => Box::new(short::Short),
            Self::Json => Box::new(json::Json),
            Self::Sarif => Box::new(sarif::Sarif),
            Self::Github => Box::new(github::GitHub),
            Self::Gitlab => Box::new(gitlab::GitLab),
            Self::Junit => Box::new(junit::JUnit { deny }),
        }
    }
}

/// The word for a severity.
fn word(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    }
}

/// So many mends are told; more would hide the best ones.
const MOST_MENDS: usize = 3;

/// What to do about a finding: its help, then its mends and where they are made.
fn advice(spots: &Spots<'_>, finding: &Finding) -> impl Iterator<Item = String> {
    let mends = finding.mends.iter().take(MOST_MENDS).enumerate().map(|(at, mend)| {
        let lead = if at == 0 { "To mend it" } else { "Or" };
        let place = mend.edits.first().map(|edit| spots.of(edit.place));
        let place = place.map(|spot| format!(" on line {}, column {}", spot.line, spot.column));
        let hand = if mend.certain { " (`--mend` does it)" } else { "" };
        format!("{lead}{}: {}{hand}", place.unwrap_or_default(), mend.title)
    });
    finding.help.iter().cloned().chain(mends)
}
