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

/// A mistake in a library is found once for each band: every form says which, and marks in the band's own file stay.
#[test]
fn a_finding_in_a_library_names_the_band_that_works_it() {
    let library = "pattern \"Parts\"\n\nmotif sweep(shade) {\n  take left 1 (shade): forward 3\n}\n";
    let band = GOOD
        .replace("thread kelp", "use sweep from \"../lib/parts.knot\"\nthread kelp")
        .replacen(
            "take left 1: forward 3\n  take left 1: forward 3",
            "work sweep(kelp)\n  work sweep(kelp)",
            1,
        )
        .replace("2 kelp 2 sand", "kelp sand kelp sand");
    let settings = ("knotwright.toml", "root = true\n");
    let stage = Stage::with(&[
        settings,
        ("bands/a.knot", &band),
        ("bands/b.knot", &band),
        ("lib/parts.knot", library),
    ]);
    let report = |format: &str| stage.run(&["check", "--format", format, "bands"]).out;
    let short = report("short");
    let lines: Vec<&str> = short.lines().filter(|line| line.starts_with("lib/parts.knot:4:")).collect();
    assert_eq!(lines.len(), 2, "{short}");
    for (line, band) in lines.iter().zip(["a", "b"]) {
        assert!(line.ends_with(&format!(" (worked in bands/{band}.knot:9)")), "{line}");
    }
    for (format, before) in [("github", "::"), ("gitlab", "\"description\":"), ("junit", "message=")] {
        let said = report(format);
        for band in ["a", "b"] {
            let named = format!("(worked in bands/{band}.knot:9)");
            let line = said.lines().find(|line| line.contains(&named));
            assert!(line.is_some_and(|line| line.contains(before)), "{format}: {said}");
        }
    }
    stage.write("lib/parts.knot", library.replace("(shade):", "(weed):"));
    let unknown = report("short");
    assert!(unknown.contains(" (used by bands/b.knot)\n"), "nothing is worked: {unknown}");
    stage.write("lib/parts.knot", library);
    let report: Value = serde_json::from_str(&report("gitlab")).unwrap();
    let issues = report.as_array().unwrap().iter();
    let mut marks: Vec<&str> = issues.map(|issue| issue["fingerprint"].as_str().unwrap()).collect();
    let all = marks.len();
    marks.sort_unstable();
    marks.dedup();
    assert_eq!(marks.len(), all, "each band is marked by itself");
}
