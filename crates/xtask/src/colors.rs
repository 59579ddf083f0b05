//! How editors color the samples, held to what the language server says every token is.

use crate::run::{run, target};
use std::process::Command;

const FOLDER: &str = "tests/colors";
const GRAMMAR: &str = "grammar/textmate/knotwright.tmLanguage.json";

/// The TextMate grammar, by the libraries that VS Code has for it; installs them.
pub(crate) fn textmate() -> Result<(), String> {
    run(&["npm", "ci", "--prefix", FOLDER, "--ignore-scripts", "--no-audit", "--no-fund"])?;
    let inks = inks()?;
    for grammar in [GRAMMAR, "editors/sublime/Knotwright.tmLanguage"] {
        run(&["node", &format!("{FOLDER}/textmate.mjs"), &inks, grammar])?;
    }
    let tester = format!("{FOLDER}/node_modules/.bin/vscode-tmgrammar-test");
    run(&[&tester, "--grammar", GRAMMAR, &format!("{FOLDER}/mistakes.knot")])
}

/// The file that says what every token of the samples is.
pub(crate) fn inks() -> Result<String, String> {
    let line = ["run", "--quiet", "--locked", "--package", "knotwright-tests", "--example", "inks"];
    let output = Command::new("cargo").args(line).output().map_err(|error| error.to_string())?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into_owned());
    }
    let path = target().join("inks.json");
    std::fs::write(&path, output.stdout).map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(path.display().to_string())
}
