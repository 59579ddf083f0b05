//! One line a finding, which editors and `grep` can take apart.

use super::{ReportFormat, word};
use crate::outcome::Outcome;
use crate::visible::on_one_line;
use std::fmt::Write;

pub(super) struct Short;

impl ReportFormat for Short {
    fn file(&self, outcome: &Outcome) -> String {
        let mut out = String::new();
        for (spots, finding) in outcome.findings() {
            let spot = spots.of(finding.place);
            let (severity, rule) = (word(finding.severity), finding.rule.name);
            let (path, message) = (on_one_line(spot.path), on_one_line(&finding.message));
            let _ = writeln!(out, "{path}:{}:{}: {severity}[{rule}]: {message}", spot.line, spot.column);
        }
        out
    }
}
