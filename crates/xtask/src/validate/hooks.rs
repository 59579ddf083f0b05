//! The hooks, run by pre-commit in a copy of the sample repository.

use super::tools::{ValidateTools, emptied};
use crate::run::{copy, run_in, run_with_in, top};
use std::path::Path;

const TUTORIAL: &str = "tutorials/first-band.md";
/// Its heading, and marks with nothing between them.
const TOLD: &str =
    "# Your first band\n\n<!-- knotwright write ../bands/mooring.knot -->\n\n<!-- /knotwright -->\n";

pub(super) fn validate(tools: &ValidateTools, program: &Path) -> Result<(), String> {
    let trial = tools.folder.join("trial");
    emptied(&trial)?;
    copy(&top().join("tests/repository"), &trial).map_err(|error| error.to_string())?;
    run_in(&trial, &["git", "init", "--quiet"])?;
    run_in(&trial, &["git", "add", "--all"])?;
    let hooks = Hooks { tools, program, trial: &trial };
    ["knotwright-format", "knotwright-check", "knotwright-check-all", "knotwright-refresh"]
        .iter()
        .try_for_each(|hook| hooks.passes(hook))?;
    // A file that a hook has changed stops the commit; once it is added, the commit goes on.
    broken(&trial, TUTORIAL, "# Your first band\n", TOLD)?;
    hooks.fails("knotwright-refresh")?;
    run_in(&trial, &["git", "add", "--all"])?;
    hooks.passes("knotwright-refresh")?;
    broken(&trial, "bands/mooring.knot", "repeat 4", "repeat 3")?;
    hooks.fails("knotwright-check")?;
    hooks.fails("knotwright-check-all")?;
    broken(&trial, "bands/mooring.knot", "  repeat", "repeat")?;
    hooks.fails("knotwright-format")
}

/// A file with another text in one place.
fn broken(trial: &Path, name: &str, from: &str, to: &str) -> Result<(), String> {
    let path = trial.join(name);
    let text = std::fs::read_to_string(&path).map_err(|error| error.to_string())?;
    std::fs::write(&path, text.replace(from, to)).map_err(|error| error.to_string())?;
    run_in(trial, &["git", "add", "--all"])
}

struct Hooks<'a> {
    tools: &'a ValidateTools,
    program: &'a Path,
    trial: &'a Path,
}

impl Hooks<'_> {
    fn passes(&self, hook: &str) -> Result<(), String> {
        let folder = self.program.parent().unwrap_or(self.program).to_string_lossy();
        let path = std::env::var("PATH").unwrap_or_default();
        let variables =
            [("PATH", format!("{folder}:{path}")), ("PRE_COMMIT_HOME", self.tools.path("pre-commit-home"))];
        let variables: Vec<(&str, &str)> =
            variables.iter().map(|(name, value)| (*name, value.as_str())).collect();
        let (pre_commit, house) = (self.tools.python("pre-commit"), top());
        let line = [&pre_commit, "try-repo", &house.to_string_lossy(), hook, "--all-files", "--verbose"];
        run_with_in(self.trial, &line, &variables)
    }

    fn fails(&self, hook: &str) -> Result<(), String> {
        match self.passes(hook) {
            Err(_) => Ok(()),
            Ok(()) => Err(format!("{hook} passes what it should not")),
        }
    }
}
