//! One line a finding, which editors and `grep` can take apart.

use super::{ReportFormat, said, word};
use crate::outcome::Outcome;
use crate::visible::{name, on_one_line};
use std::fmt::Write;

pub(super) struct Short;

/// " Did you mean this?", which is short enough for one line, if the help begins with that.
fn guess(help: &str) -> Option<String> {
    let (guess, _) = help.split_once('?').filter(|(guess, _)| guess.starts_with("Did you mean "))?;
    Some(format!(" {}?", on_one_line(guess)))
}

impl ReportFormat for Short {
    fn file(&self, outcome: &Outcome) -> String {
        let mut out = String::new();
        for (spots, finding) in outcome.findings() {
            let spot = spots.of(finding.place);
            let (severity, rule) = (word(finding.severity), finding.rule.name);
            let (path, message) = (name(spot.path), on_one_line(&said(&spots, finding)));
            let guess = finding.help.as_deref().and_then(guess).unwrap_or_default();
            let _ =
                writeln!(out, "{path}:{}:{}: {severity}[{rule}]: {message}{guess}", spot.line, spot.column);
        }
        out
    }
}
