//! For the tests of rules: a whole file, checked.

use crate::{Finding, NoLibrary, Settings, Source, check};
use std::sync::Arc;

/// The findings of one rule in `text`.
pub(crate) fn find_by(rule: &str, text: &str) -> Vec<Finding> {
    let source = Arc::new(Source::new("band.knot", text));
    let findings = check(source, &NoLibrary, &Settings::default()).findings;
    findings.into_iter().filter(|finding| finding.rule.name == rule).collect()
}

/// The messages of one rule in `text`.
pub(crate) fn messages_of(rule: &str, text: &str) -> Vec<String> {
    find_by(rule, text).into_iter().map(|finding| finding.message).collect()
}

/// Asserts that a rule says nothing of a file that has no error.
#[track_caller]
pub(crate) fn assert_silent(rule: &str, text: &str) {
    let source = Arc::new(Source::new("band.knot", text));
    for finding in check(source, &NoLibrary, &Settings::default()).findings {
        let is_told = finding.rule.name == rule || finding.rule.severity == crate::Severity::Error;
        assert!(!is_told, "{}: {}", finding.rule.name, finding.message);
    }
}
