//! One JSON document with all that is known about each finding. Its form is `shared/schemas/findings-1.schema.json`.

use super::{ReportFormat, word};
use crate::outcome::{Outcome, Spots, Tally};
use crate::visible::to_json;
use knotwright_checker::{Finding, Place};
use serde::Serialize;

pub(super) struct FindingsJson;

#[derive(Serialize)]
struct JsonFile<'a> {
    path: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    unread: Option<String>,
    findings: Vec<JsonFinding<'a>>,
}

#[derive(Serialize)]
struct JsonFinding<'a> {
    rule: &'a str,
    severity: &'a str,
    message: &'a str,
    place: JsonPlace<'a>,
    notes: Vec<JsonText<'a>>,
    help: Option<&'a str>,
    mends: Vec<JsonMend<'a>>,
}

#[derive(Serialize)]
struct JsonMend<'a> {
    title: &'a str,
    certain: bool,
    edits: Vec<JsonText<'a>>,
}

#[derive(Serialize)]
struct JsonText<'a> {
    text: &'a str,
    place: JsonPlace<'a>,
}

/// Lines and columns count from 1, columns in characters; offsets are bytes from 0, the end not included.
#[derive(Serialize)]
struct JsonPlace<'a> {
    path: &'a str,
    line: u32,
    column: u32,
    end_line: u32,
    end_column: u32,
    offset: u32,
    end_offset: u32,
}

impl ReportFormat for FindingsJson {
    fn head(&self) -> String {
        "{\"schema\":\"knotwright/findings/1\",\"files\":[\n".to_owned()
    }

    fn file(&self, outcome: &Outcome) -> String {
        let findings: Vec<_> = outcome.findings().map(|(spots, finding)| one(&spots, finding)).collect();
        let unread = outcome.checked.as_ref().err().map(ToString::to_string);
        if findings.is_empty() && unread.is_none() {
            return String::new();
        }
        to_json(&JsonFile { path: &outcome.path, unread, findings })
    }

    fn separator(&self) -> &'static str {
        ",\n"
    }

    fn foot(&self, tally: &Tally) -> String {
        let Tally { files, unread, errors, warnings, .. } = tally;
        format!(
            "\n],\"summary\":{{\"files\":{files},\"unread\":{unread},\"errors\":{errors},\"warnings\":{warnings}}}}}\n"
        )
    }
}

fn one<'a>(spots: &Spots<'a>, finding: &'a Finding) -> JsonFinding<'a> {
    let text = |text: &'a String, place| JsonText { text, place: placed(spots, place) };
    let edits = |mend: &'a knotwright_checker::Mend| {
        mend.edits.iter().map(|edit| text(&edit.text, edit.place)).collect()
    };
    let mend = |mend: &'a knotwright_checker::Mend| JsonMend {
        title: &mend.title,
        certain: mend.certain,
        edits: edits(mend),
    };
    JsonFinding {
        rule: finding.rule.name,
        severity: word(finding.severity),
        message: &finding.message,
        place: placed(spots, finding.place),
        notes: finding.notes.iter().map(|note| text(&note.text, note.place)).collect(),
        help: finding.help.as_deref(),
        mends: finding.mends.iter().map(mend).collect(),
    }
}

fn placed<'a>(spots: &Spots<'a>, place: Place) -> JsonPlace<'a> {
    let spot = spots.of(place);
    JsonPlace {
        path: spot.path,
        line: spot.line,
        column: spot.column,
        end_line: spot.end_line,
        end_column: spot.end_column,
        offset: place.span.start,
        end_offset: place.span.end,
    }
}
