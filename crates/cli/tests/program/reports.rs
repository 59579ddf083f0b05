//! The report for GitLab against a schema of ours. The other forms are held to published schemas by
//! `cargo xtask validate`.

use crate::stage::{BROKEN, DOUBTFUL, GOOD, Stage};
use serde_json::Value;

/// Source: GitLab's documentation, "Code Quality report format" (from memory).
const SCHEMA: &str = include_str!("../../../../tests/standards/gitlab-code-quality.schema.json");

#[test]
fn the_gitlab_form_has_the_fields_that_gitlab_documents() {
    let stage = Stage::with(&[("a.knot", BROKEN), ("b.knot", GOOD), ("deep/c.knot", DOUBTFUL)]);
    stage.write("d.knot", b"\xff");
    let said = stage.run(&["check", "--format", "gitlab", "."]);
    let report: Value = serde_json::from_str(&said.out).unwrap();
    let schema = jsonschema::draft202012::new(&serde_json::from_str(SCHEMA).unwrap()).unwrap();
    let errors: Vec<String> =
        schema.iter_errors(&report).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(errors.is_empty(), "{errors:#?}");
    let of = |key: &str| {
        report.as_array().unwrap().iter().map(|issue| &issue["location"][key]).collect::<Vec<_>>()
    };
    assert_eq!(of("path"), ["a.knot", "d.knot", "deep/c.knot"]);
    let mut marks: Vec<&Value> =
        report.as_array().unwrap().iter().map(|issue| &issue["fingerprint"]).collect();
    marks.sort_by_key(|mark| mark.to_string());
    marks.dedup();
    assert_eq!(marks.len(), 3, "no two alike");
}

/// Source: GitHub's documentation, "Workflow commands for GitHub Actions": `::error file=..,line=..::message`, with `%`,
/// line breaks, and in properties `:` and `,`, written in percents (from memory).
#[test]
fn the_github_form_is_one_command_a_finding_whatever_the_file_is_named() {
    let stage = Stage::with(&[("50% tide, low: a.knot", BROKEN)]);
    let said = stage.run(&["check", "--format", "github", "."]);
    assert_eq!(said.out.lines().count(), 1, "{}", said.out);
    let properties = said.out.strip_prefix("::error ").and_then(|rest| rest.split("::").next()).unwrap();
    let properties: Vec<(&str, &str)> =
        properties.split(',').map(|property| property.split_once('=').unwrap()).collect();
    assert!(properties.contains(&("file", "50%25 tide%2C low%3A a.knot")), "{properties:?}");
    assert!(properties.contains(&("line", "7")) && properties.contains(&("col", "16")), "{properties:?}");
}
