//! A whole new pattern is typed key by key, the cursor at its end: nobody is told off for what is not there yet.

mod support;

use knotwright_checker::{Finding, Settings, Severity, Source, check};
use knotwright_numbers::ToNumber;
use std::sync::Arc;
use support::{Shared, patterns};

fn findings(text: &str) -> Vec<Finding> {
    check(Arc::new(Source::new("band.knot", text)), &Shared, &Settings::default()).findings
}

/// Whether a finding stands on the line of the cursor, the last one.
fn is_here(text: &str, finding: &Finding) -> bool {
    let line = text.rfind('\n').map_or(0, |end| end + 1);
    finding.place.file.0 == 0 && finding.place.span.end.to_usize() >= line
}

/// Each beginning of a text, a key after the other.
fn typed(text: &str) -> impl Iterator<Item = &str> {
    let keys = text.char_indices().map(|(at, _)| at).chain([text.len()]);
    keys.map(|at| &text[..at])
}

/// What is wrong with what is said after a key.
fn objections(text: &str, findings: &[Finding]) -> Vec<String> {
    let mut objections = Vec::new();
    let elsewhere = findings.iter().filter(|finding| !is_here(text, finding)).count();
    if elsewhere > 2 {
        objections.push(format!("{elsewhere} findings stand on other lines"));
    }
    let is_red = |finding: &&Finding| finding.severity == Severity::Error && !finding.unfinished;
    objections.extend(findings.iter().filter(is_red).map(|finding| format!("red: {}", finding.message)));
    let braces: Vec<&Finding> =
        findings.iter().filter(|finding| finding.rule.name == "unmatched-brace").collect();
    let is_at_cursor = |finding: &&Finding| finding.place.span.start.to_usize() == text.len();
    if braces.len() > 1 || !braces.iter().all(is_at_cursor) {
        objections.push(format!("{} braces are not closed", braces.len()));
    }
    objections
}

#[test]
fn at_no_key_anything_is_red_or_more_than_two_findings_stand_elsewhere() {
    let (mut wrong, mut keys, mut open) = (Vec::new(), 0, 0);
    for (name, text) in
        patterns().into_iter().filter(|(name, text)| text.len() < 900 || name == "garden-vine.knot")
    {
        for text in typed(&text) {
            let findings = findings(text);
            keys += 1;
            open += usize::from(findings.iter().any(|finding| finding.rule.name == "unmatched-brace"));
            let line = text.lines().last().unwrap_or_default();
            wrong.extend(
                objections(text, &findings).into_iter().map(|what| format!("{name}: {line}|  {what}")),
            );
        }
    }
    wrong.truncate(40);
    assert_eq!(wrong, [""; 0]);
    assert!(keys > 10_000 && open > 3_000, "{keys}, {open}");
}

/// Who stops halfway through a word that is no prefix of the right one is told so when the line is done.
#[test]
fn a_line_that_is_done_is_red_again() {
    let text = "pattern \"Pier\"\nthread kelp teal\nstrands 4 kelp\nset {\n  take left 1: forwrad 3";
    let is_red = |finding: &Finding| finding.severity == Severity::Error && !finding.unfinished;
    assert!(!findings(text).iter().any(is_red));
    assert!(findings(&format!("{text}\n")).iter().any(is_red));
}
