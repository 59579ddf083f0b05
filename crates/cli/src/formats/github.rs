//! Workflow commands of GitHub Actions: `::error file=...,line=...::message`.
//!
//! Source: GitHub's documentation, "Workflow commands for GitHub Actions"; what is escaped, and how, is that of
//! `@actions/core` (from memory).

use super::{ReportFormat, advice, said, word};
use crate::outcome::{Outcome, Spots};
use crate::visible::visible;
use knotwright_checker::Finding;
use std::fmt::Write;

pub(super) struct GitHub;

impl ReportFormat for GitHub {
    fn file(&self, outcome: &Outcome) -> String {
        let mut out = String::new();
        if let Err(error) = &outcome.checked {
            let line = error.place().map_or(1, |(line, _)| line);
            let _ = writeln!(
                out,
                "::error file={},line={line}::{}",
                property(&outcome.path),
                data(&error.to_string())
            );
        }
        for (spots, finding) in outcome.findings() {
            let spot = spots.of(finding.place);
            let _ =
                write!(out, "::{} file={},line={}", word(finding.severity), property(spot.path), spot.line);
            let _ = write!(out, ",endLine={}", spot.end_line);
            if spot.line == spot.end_line {
                // Columns are refused for a place of several lines.
                let _ = write!(out, ",col={},endColumn={}", spot.column, spot.end_column);
            }
            let _ =
                writeln!(out, ",title={}::{}", property(finding.rule.name), data(&whole(&spots, finding)));
        }
        out
    }
}

fn whole(spots: &Spots<'_>, finding: &Finding) -> String {
    let mut text = said(spots, finding);
    for more in advice(spots, finding) {
        text.push('\n');
        text.push_str(&more);
    }
    text
}

fn data(text: &str) -> String {
    // Line feeds are text here; all else that misleads is shown.
    visible(text).replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}
