//! JUnit XML: a test suite a file, a failed test case a finding.
//!
//! Held to `junit-10.xsd` of the Jenkins xUnit plugin, which is the usual reading of a form nobody has standardized.

use super::{ReportFormat, advice, said};
use crate::markup::escaped;
use crate::outcome::{Outcome, Spots, Tally};
use knotwright_checker::{Finding, Severity};
use std::fmt::Write;

pub(super) struct JUnit {
    /// Whether a warning is a failure; if not, it is something that a passed test case has to say.
    pub(super) deny: bool,
}

impl ReportFormat for JUnit {
    fn head(&self) -> String {
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites name=\"knotwright\">\n".to_owned()
    }

    fn file(&self, outcome: &Outcome) -> String {
        let cases: Vec<String> =
            outcome.findings().map(|(spots, finding)| self.case(&spots, finding)).collect();
        let tally = outcome.tally();
        let failures = tally.errors + if self.deny { tally.warnings } else { 0 };
        let path = escaped(&outcome.path);
        let mut out = format!(
            "  <testsuite name=\"{path}\" tests=\"{}\" failures=\"{failures}\" errors=\"{}\">\n",
            cases.len().max(1),
            tally.unread,
        );
        match &outcome.checked {
            Err(error) => _ = write!(out, "{}", unread(&path, &escaped(&error.to_string()))),
            Ok(_) if cases.is_empty() => {
                _ = writeln!(out, "    <testcase name=\"check\" classname=\"{path}\"/>")
            }
            Ok(_) => out.extend(cases),
        }
        out.push_str("  </testsuite>\n");
        out
    }

    fn foot(&self, _tally: &Tally) -> String {
        "</testsuites>\n".to_owned()
    }
}

impl JUnit {
    fn case(&self, spots: &Spots<'_>, finding: &Finding) -> String {
        let spot = spots.of(finding.place);
        let (path, rule, message) = (escaped(spot.path), finding.rule.name, escaped(&said(spots, finding)));
        let mut text = format!("{path}:{}:{}: {message}", spot.line, spot.column);
        for more in advice(spots, finding) {
            let _ = write!(text, "\n{}", escaped(&more));
        }
        let body = match finding.severity {
            Severity::Warning if !self.deny => format!("<system-out>{text}</system-out>"),
            Severity::Warning => format!("<failure type=\"warning\" message=\"{message}\">{text}</failure>"),
            Severity::Error => format!("<failure type=\"error\" message=\"{message}\">{text}</failure>"),
        };
        let name = format!("{rule}:{}:{}", spot.line, spot.column);
        format!("    <testcase name=\"{name}\" classname=\"{path}\">\n      {body}\n    </testcase>\n")
    }
}

fn unread(path: &str, reason: &str) -> String {
    format!(
        "    <testcase name=\"read\" classname=\"{path}\">\n      <error type=\"unreadable-file\" message=\"{reason}\"/>\n    </testcase>\n"
    )
}
