//! SARIF 2.1.0 (OASIS standard, 27 March 2020), for services that scan code.

use super::fingerprint::Fingerprints;
use super::{ReportFormat, word};
use crate::outcome::{LineSpot, Outcome, Spots, Tally};
use crate::visible::to_json;
use knotwright_checker::{Finding, Mend, Place, Rule};
use serde_json::{Value, json};

pub(super) struct Sarif;

impl ReportFormat for Sarif {
    fn head(&self) -> String {
        let mut rules: Vec<Value> =
            knotwright_checker::rules::all().iter().map(|rule| described(rule)).collect();
        rules
            .push(json!({"id": UNREAD, "shortDescription": {"text": "A file that cannot be read as text."}}));
        let driver = json!({"name": "knotwright", "version": env!("CARGO_PKG_VERSION"), "rules": rules});
        let schema =
            "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
        format!(
            "{{\"$schema\":\"{schema}\",\"version\":\"2.1.0\",\"runs\":[{{\"tool\":{},\n\
             \"columnKind\":\"unicodeCodePoints\",\n\"results\":[\n",
            to_json(&json!({"driver": driver}))
        )
    }

    fn file(&self, outcome: &Outcome) -> String {
        let mut marks = Fingerprints::of(outcome);
        let unread = outcome.checked.as_ref().err().map(|error| {
            let mark = marks.next(UNREAD, &error.to_string());
            unread(&outcome.path, error, &mark)
        });
        let found = outcome.findings().map(|(spots, finding)| {
            let mark = marks.next(finding.rule.name, &finding.message);
            result(&spots, finding, &mark)
        });
        let results: Vec<String> = unread.into_iter().chain(found).map(|value| to_json(&value)).collect();
        results.join(",\n")
    }

    fn separator(&self) -> &'static str {
        ",\n"
    }

    fn foot(&self, tally: &Tally) -> String {
        let run = json!([{"executionSuccessful": tally.refused == 0}]);
        format!("\n],\"invocations\":{run}}}]}}\n")
    }
}

fn described(rule: &Rule) -> Value {
    json!({
        "id": rule.name,
        "shortDescription": {"text": rule.summary},
        "fullDescription": {"text": rule.why},
        "defaultConfiguration": {"level": word(rule.severity)},
    })
}

/// A file that could not be read has no rule of the checker's; it is reported as an error all the same, or nobody
/// would see it, and under a name, as SARIF asks of every result (3.27.5).
const UNREAD: &str = "unreadable-file";

fn unread(path: &str, error: &knotwright_workspace::ReadError, mark: &str) -> Value {
    let line = error.place().map_or(1, |(line, _)| line);
    json!({
        "ruleId": UNREAD,
        "partialFingerprints": {"knotwright/1": mark},
        "level": "error",
        "message": {"text": error.to_string()},
        "locations": [{"physicalLocation": {"artifactLocation": {"uri": uri(path)}, "region": {"startLine": line}}}],
    })
}

fn result(spots: &Spots<'_>, finding: &Finding, mark: &str) -> Value {
    let mut result = json!({
        "ruleId": finding.rule.name,
        "level": word(finding.severity),
        "message": {"text": said(finding)},
        "locations": [{"physicalLocation": physical(spots, finding.place)}],
        "partialFingerprints": {"knotwright/1": mark},
    });
    if !finding.notes.is_empty() {
        let related = finding.notes.iter().enumerate().map(|(id, note)| {
            json!({"id": id, "message": {"text": note.text}, "physicalLocation": physical(spots, note.place)})
        });
        result["relatedLocations"] = related.collect();
    }
    if !finding.mends.is_empty() {
        result["fixes"] = finding.mends.iter().map(|mend| fix(spots, mend)).collect();
    }
    result
}

fn said(finding: &Finding) -> String {
    match &finding.help {
        Some(help) => format!("{}\n{help}", finding.message),
        None => finding.message.clone(),
    }
}

fn physical(spots: &Spots<'_>, place: Place) -> Value {
    let spot = spots.of(place);
    json!({"artifactLocation": {"uri": uri(spot.path)}, "region": region(spot, place)})
}

fn region(spot: LineSpot<'_>, place: Place) -> Value {
    json!({
        "startLine": spot.line,
        "startColumn": spot.column,
        "endLine": spot.end_line,
        "endColumn": spot.end_column,
        "byteOffset": place.span.start,
        "byteLength": place.span.len(),
    })
}

/// A fix changes one file after another; the edits of one file stand together.
fn fix(spots: &Spots<'_>, mend: &Mend) -> Value {
    let mut changes: Vec<(Place, Vec<Value>)> = Vec::new();
    for edit in &mend.edits {
        let replacement = json!({"deletedRegion": region(spots.of(edit.place), edit.place), "insertedContent": {"text": edit.text}});
        match changes.iter_mut().find(|(place, _)| place.file == edit.place.file) {
            Some((_, replacements)) => replacements.push(replacement),
            None => changes.push((edit.place, vec![replacement])),
        }
    }
    let changes = changes.into_iter().map(|(place, replacements)| {
        json!({"artifactLocation": {"uri": uri(spots.of(place).path)}, "replacements": replacements})
    });
    json!({"description": {"text": mend.title}, "artifactChanges": changes.collect::<Value>()})
}

/// A path as a URI reference (RFC 3986): relative as it is, absolute as a `file:` URI.
fn uri(path: &str) -> String {
    let mut out = String::with_capacity(path.len() + 8);
    let absolute = std::path::Path::new(path).is_absolute();
    if absolute {
        out.push_str(if path.starts_with('/') { "file://" } else { "file:///" });
    }
    for byte in path.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                out.push(char::from(byte))
            }
            b':' if absolute => out.push(':'),
            byte => out.push_str(&format!("%{byte:02X}")),
        }
    }
    out
}
