//! The reports of the real program, of samples with every kind of fault.

use super::tools::{ValidateTools, emptied};
use crate::run::{run, top};
use crate::tools::NodeJs;
use std::path::Path;
use std::process::Command;

/// Patterns that tie, patterns that do not, Markdown.
const SAMPLES: [&str; 3] = ["shared/patterns", "shared/corpus", "tests/repository"];

pub(super) fn validate(tools: &ValidateTools, program: &Path) -> Result<(), String> {
    emptied(&tools.folder.join("reports"))?;
    let bytes = tools.path("reports/bytes.knot");
    std::fs::write(&bytes, b"\xff").map_err(|error| error.to_string())?;
    for (form, name) in [("sarif", "all.sarif"), ("gitlab", "all.json"), ("junit", "all.xml")] {
        let arguments = [&["check", "--format", form, &bytes], &SAMPLES[..]].concat();
        let report = Command::new(program).args(arguments).current_dir(top()).output();
        let report = report.map_err(|error| error.to_string())?.stdout;
        std::fs::write(tools.path(&format!("reports/{name}")), report).map_err(|error| error.to_string())?;
    }
    sarif(tools)?;
    let gitlab = "tests/standards/gitlab-code-quality.schema.json";
    run(&[&tools.python("check-jsonschema"), "--schemafile", gitlab, &tools.path("reports/all.json")])?;
    let junit = "tests/standards/junit.py";
    run(&[&tools.python("python"), junit, &tools.pytest(), &tools.path("reports/all.xml")])
}

fn sarif(tools: &ValidateTools) -> Result<(), String> {
    let (python, report) = (tools.python("python"), tools.path("reports/all.sarif"));
    let (schema, notes) = (tools.path("sarif-2.1.0.json"), tools.path("reports/notes.sarif"));
    run(&[&python, "tests/standards/sarif_schema.py", &schema])?;
    // The schema's expressions are not written for the Unicode mode.
    let variant = ["--regex-variant", "nonunicode"];
    let check = tools.python("check-jsonschema");
    run(&[&[check.as_str()], &variant[..], &["--schemafile", &schema, &report]].concat())?;
    let multitool = tools.path("node_modules/.bin/sarif-multitool");
    let line = [multitool.as_str(), "validate", &report, "--output", &notes, "--log", "ForceOverwrite"];
    NodeJs::installed()?.run(&top(), &line, &[])?;
    run(&[&python, "tests/standards/sarif_notes.py", &notes])
}
