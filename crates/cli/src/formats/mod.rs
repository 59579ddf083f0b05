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
use crate::visible::name;
use knotwright_checker::{FileId, Finding, Note, Place, Severity};

/// A form of report.
pub(crate) trait ReportFormat: Sync {
    /// What is before the first file.
    fn head(&self) -> String {
        String::new()
    }

    /// What is said of one file. Nothing, if it is empty; then no separator is written for it either.
    fn file(&self, outcome: &Outcome) -> String;

    /// What is between two files.
    fn separator(&self) -> &'static str {
        ""
    }

    /// What is after the last file.
    fn foot(&self, _tally: &Tally) -> String {
        String::new()
    }
}

/// The name of a form, as it is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub(crate) enum FormatName {
    /// For people: each finding with its lines, and what to do
    Human,
    /// One line for each finding: path:line:column: error[rule]: message
    Short,
    /// One JSON document, with all places, notes and mends
    Json,
    /// SARIF 2.1.0, for code scanning
    Sarif,
    /// Workflow commands, which GitHub shows next to the lines of a change
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

    /// How many mends of a finding it shows, if not all.
    pub(crate) fn shown_mends(self) -> Option<usize> {
        match self {
            Self::Json | Self::Sarif => None,
            Self::Human | Self::Short | Self::Github | Self::Gitlab | Self::Junit => Some(MOST_MENDS),
        }
    }

    /// The form of that name. `deny`: warnings count as failures.
    pub(crate) fn format(self, color: bool, deny: bool) -> Box<dyn ReportFormat> {
        match self {
            Self::Human => Box::new(human::Human { color }),
            Self::Short => Box::new(short::Short),
            Self::Json => Box::new(json::FindingsJson),
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

/// What the checker says of the place where a motif is worked.
const WORKED: &str = "the motif is worked here";

/// A message; if it is about a place in a library, with the band that it is about: each band that uses the library has it.
fn said(spots: &Spots<'_>, finding: &Finding) -> String {
    if finding.place.file == FileId::CHECKED {
        return finding.message.clone();
    }
    let worked = |note: &&Note| note.place.file == FileId::CHECKED && note.text == WORKED;
    let spot = finding.notes.iter().find(worked).map(|note| spots.of(note.place));
    let band = match spot {
        Some(spot) => format!("worked in {}:{}", name(spot.path), spot.line),
        None => format!("used by {}", name(spots.of(Place::default()).path)),
    };
    format!("{} ({band})", finding.message)
}

/// The most mends that are shown; more would hide the best ones.
const MOST_MENDS: usize = 3;

/// What to do about a finding: its help, then its mends and where they are made.
fn advice(spots: &Spots<'_>, finding: &Finding) -> impl Iterator<Item = String> {
    let here = spots.of(finding.place).path;
    let mends = finding.mends.iter().take(MOST_MENDS).enumerate().map(move |(at, mend)| {
        let lead = if at == 0 { "To mend it" } else { "Or" };
        let place = mend.edits.first().map(|edit| spots.of(edit.place));
        let place = place.map(|spot| {
            // What is wrong with a motif may have its mend in the file that works it.
            let file = if spot.path == here { String::new() } else { format!(" in {}", name(spot.path)) };
            format!("{file} on line {}, column {}", spot.line, spot.column)
        });
        let hand = if mend.certain { " (`--mend` does it)" } else { "" };
        format!("{lead}{}: {}{hand}", place.unwrap_or_default(), mend.title)
    });
    let help = finding.help.iter().filter(|help| !is_a_mend(help, finding));
    help.cloned().chain(mends)
}

/// Whether a help says no more than one of the mends behind it.
fn is_a_mend(help: &str, finding: &Finding) -> bool {
    let write = help.strip_prefix("Write ").and_then(|rest| rest.strip_suffix('.'));
    let titles = finding.mends.iter().take(MOST_MENDS).filter_map(|mend| mend.title.strip_prefix("write "));
    write.is_some_and(|write| titles.into_iter().any(|title| title.starts_with(write)))
}
