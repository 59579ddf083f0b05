//! A GitLab code quality report: a JSON array of issues.
//!
//! Source: GitLab's documentation, "Code Quality report format": each issue has `description`, `check_name`,
//! `fingerprint`, `severity` (`info`, `minor`, `major`, `critical`, `blocker`) and `location` (from memory).

use super::fingerprint::Fingerprints;
use super::{ReportFormat, said};
use crate::outcome::{Outcome, Tally};
use crate::visible::to_json;
use knotwright_checker::Severity;
use serde_json::{Value, json};

pub(super) struct GitLab;

impl ReportFormat for GitLab {
    fn head(&self) -> String {
        "[\n".to_owned()
    }

    fn file(&self, outcome: &Outcome) -> String {
        let mut marks = Fingerprints::of(outcome);
        let unread = outcome.checked.as_ref().err().map(|error| {
            let message = error.to_string();
            let mark = marks.next("unreadable-file", &message);
            let line = error.place().map_or(1, |(line, _)| line);
            issue(
                "unreadable-file",
                &message,
                "major",
                &mark,
                json!({"path": outcome.path, "lines": {"begin": line}}),
            )
        });
        let mut issues: Vec<String> = unread.into_iter().collect();
        for (spots, finding) in outcome.findings() {
            let spot = spots.of(finding.place);
            let mark = marks.next(finding.rule.name, &finding.message);
            let lines = json!({"begin": spot.line, "end": spot.end_line});
            let location = json!({"path": spot.path, "lines": lines});
            let said = said(&spots, finding);
            issues.push(issue(finding.rule.name, &said, grade(finding.severity), &mark, location));
        }
        issues.join(",\n")
    }

    fn separator(&self) -> &'static str {
        ",\n"
    }

    fn foot(&self, _tally: &Tally) -> String {
        "\n]\n".to_owned()
    }
}

fn grade(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "major",
        Severity::Warning => "minor",
    }
}

fn issue(rule: &str, message: &str, severity: &str, mark: &str, location: Value) -> String {
    let issue = json!({
        "description": message,
        "check_name": rule,
        "fingerprint": mark,
        "severity": severity,
        "location": location,
    });
    to_json(&issue)
}
