//! How editors color the samples, held to what the language server says every token is.

use crate::run::{said, target, top};
use crate::tools::NodeJs;

const FOLDER: &str = "tests/colors";
const GRAMMAR: &str = "grammar/textmate/knotwright.tmLanguage.json";

/// The TextMate grammar, by the libraries that VS Code has for it; installs them.
pub(crate) fn textmate() -> Result<(), String> {
    let node = NodeJs::installed()?;
    node.packages(&top().join(FOLDER))?;
    let inks = inks()?;
    for grammar in [GRAMMAR, "editors/sublime/Knotwright.tmLanguage"] {
        node.run(&top(), &[&format!("{FOLDER}/textmate.mjs"), &inks, grammar], &[])?;
    }
    let tester = format!("{FOLDER}/node_modules/.bin/vscode-tmgrammar-test");
    node.run(&top(), &[&tester, "--grammar", GRAMMAR, &format!("{FOLDER}/mistakes.knot")], &[])
}

/// The file that says what every token of the samples is.
pub(crate) fn inks() -> Result<String, String> {
    let run = ["cargo", "run", "--quiet", "--profile", "test", "--locked"];
    let text = said(&[&run[..], &["--package", "knotwright-tests", "--example", "inks"]].concat())?;
    let path = target().join("inks.json");
    std::fs::write(&path, text).map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(path.display().to_string())
}
