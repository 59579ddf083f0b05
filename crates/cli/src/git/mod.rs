//! What git is asked. It runs without a shell, and gets a revision only after that was checked.

mod blobs;
mod changes;
mod commit;
mod merge_file;
mod revision;

pub(crate) use changes::{FileChange, between, changed, present};
pub(crate) use commit::CommitFiles;
pub(crate) use merge_file::merge_file;
pub(crate) use revision::{RevisionRange, commit, last_with, upstream};

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// The root of the repository that `folder` is in, canonical.
///
/// # Errors
/// In words: it is in none, or git is not there.
pub(crate) fn root(folder: &Path) -> Result<PathBuf, String> {
    let output = git(folder)
        .args(["rev-parse", "--show-toplevel"])
        .stderr(Stdio::piped())
        .output()
        .map_err(not_run)?;
    let root = String::from_utf8_lossy(&output.stdout).trim_end_matches(['\r', '\n']).to_owned();
    let none = || {
        let shown = knotwright_workspace::shown_path(folder);
        format!("{shown}: it is in no git repository{}", said(&output))
    };
    if output.status.success() && !root.is_empty() {
        Path::new(&root).canonicalize().map_err(|_| none())
    } else {
        Err(none())
    }
}

/// What git said, if it is more than that there is no repository: in containers, that another user owns it.
fn said(output: &Output) -> String {
    let said = String::from_utf8_lossy(&output.stderr);
    let line = said.lines().find(|line| line.contains("dubious ownership"));
    line.map(|line| format!(": {}", line.trim_start_matches("fatal: "))).unwrap_or_default()
}

/// `git`, about to be run in `folder`.
fn git(folder: &Path) -> Command {
    let mut git = Command::new("git");
    // In a hook these lead from the top of the work tree, not from the folder of the file.
    ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX"].iter().for_each(|name| {
        git.env_remove(name);
    });
    git.arg("-C").arg(folder).stdin(Stdio::null()).stderr(Stdio::null());
    git
}

/// The first line that a command of git writes; none if it fails.
fn line(folder: &Path, arguments: &[&str]) -> Result<Option<String>, String> {
    let output = git(folder).args(arguments).output().map_err(not_run)?;
    let line = String::from_utf8_lossy(&output.stdout).lines().next().unwrap_or_default().trim().to_owned();
    Ok((output.status.success() && !line.is_empty()).then_some(line))
}

/// What a command of git writes.
fn bytes(folder: &Path, arguments: &[&str]) -> Result<Vec<u8>, String> {
    let output = git(folder).args(arguments).output().map_err(not_run)?;
    if output.status.success() { Ok(output.stdout) } else { Err(failed(arguments)) }
}

fn failed(arguments: &[&str]) -> String {
    format!("git cannot say what changed: `git {}` failed", arguments.join(" "))
}

fn not_run(error: std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "this needs `git`, which was not found".to_owned(),
        _ => format!("`git` cannot be run: {}", knotwright_workspace::refusal(&error)),
    }
}
