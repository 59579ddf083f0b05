//! The merge of lines that git does.

use super::{git, not_run};
use std::path::Path;

/// Merges three files, line by line: the text in which all fits, or the one with the marks of conflicts.
///
/// # Errors
/// In words: git is not there, or cannot merge them.
pub(crate) fn merge_file(ours: &Path, base: &Path, theirs: &Path) -> Result<Result<String, String>, String> {
    let labels = ["-L", "ours", "-L", "base", "-L", "theirs"];
    let output = git(Path::new("."))
        .args(["merge-file", "--stdout", "--quiet"])
        .args(labels)
        .arg("--")
        .args([ours, base, theirs])
        .output()
        .map_err(not_run)?;
    let text = String::from_utf8(output.stdout).map_err(|error| error.to_string())?;
    match output.status.code() {
        Some(0) => Ok(Ok(text)),
        // The number of conflicts; more than 127 are reported as 127.
        Some(1..=127) => Ok(Err(text)),
        _ => Err("git cannot merge the lines".to_owned()),
    }
}
