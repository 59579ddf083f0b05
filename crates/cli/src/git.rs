//! A file as it was committed, and which files are no longer as they were. `git` is run without a shell, and is told a revision only after it was looked at.

use knotwright_workspace::{ReadError, folder_of, read_from};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;

/// No name of a revision is longer.
const LONGEST: usize = 250;

/// The text of a file in a revision.
///
/// # Errors
/// In words: the revision is none, git is not there, or the file was not in it.
pub(crate) fn committed(path: &Path, revision: &str) -> Result<Arc<str>, String> {
    if !is_revision(revision) {
        return Err(no_revision(revision));
    }
    let Some(name) = path.file_name().and_then(|name| name.to_str()) else {
        return Err(ReadError::Name.to_string());
    };
    let folder = folder_of(path);
    let commit = commit(folder, revision)?;
    let mut child = git(folder)
        .args(["cat-file", "blob", "--end-of-options"])
        .arg(format!("{commit}:./{name}"))
        .stdout(Stdio::piped())
        .spawn()
        .map_err(not_run)?;
    let text = child.stdout.take().map(read_from);
    // If the file is too large, nobody reads what git still writes, and it ends by itself.
    let status = child.wait().map_err(not_run)?;
    match text {
        Some(Err(error)) => Err(error.to_string()),
        Some(Ok(text)) if status.success() => Ok(text),
        _ => Err(format!("there is no file of this name in `{revision}`")),
    }
}

/// The root of the repository that `folder` lies in, canonical.
///
/// # Errors
/// In words: it lies in none, or git is not there.
pub(crate) fn root(folder: &Path) -> Result<PathBuf, String> {
    let output = git(folder).args(["rev-parse", "--show-toplevel"]).output().map_err(not_run)?;
    let root = String::from_utf8_lossy(&output.stdout).trim_end_matches(['\r', '\n']).to_owned();
    let none = || {
        format!("{}: it lies in no repository that git would look into", knotwright_workspace::shown(folder))
    };
    if output.status.success() && !root.is_empty() {
        Path::new(&root).canonicalize().map_err(|_| none())
    } else {
        Err(none())
    }
}

/// The files under `root` that are not as they were where this branch left `revision`: committed or not, new, changed,
/// renamed (both names) and gone ones.
///
/// # Errors
/// In words: the revision is none, or it has no commit in common with what is checked out.
pub(crate) fn changed(root: &Path, revision: &str) -> Result<Vec<PathBuf>, String> {
    if !is_revision(revision) {
        return Err(no_revision(revision));
    }
    let left = merge_base(root, &commit(root, revision)?)?.ok_or_else(|| {
        format!(
            "`{revision}` has no commit in common with what is checked out, or it was not fetched; \
             fetch the whole history (`fetch-depth: 0` in a workflow, `GIT_DEPTH: 0` in a pipeline)"
        )
    })?;
    let options = ["diff", "--name-only", "-z", "--no-renames", "--no-relative", "--no-ext-diff"];
    let tracked = listed(root, &[&options[..], &[&left, "--"]].concat())?;
    let new = listed(root, &["ls-files", "-z", "--others", "--exclude-standard"])?;
    Ok([tracked, new].concat())
}

/// The last commit that `commit` and what is checked out have in common, if there is one.
fn merge_base(root: &Path, commit: &str) -> Result<Option<String>, String> {
    let output = git(root).args(["merge-base", commit, "HEAD"]).output().map_err(not_run)?;
    let name = String::from_utf8_lossy(&output.stdout).trim().to_owned();
    Ok((output.status.success() && !name.is_empty()).then_some(name))
}

/// The paths that a command of git lists, with the root before them.
fn listed(root: &Path, arguments: &[&str]) -> Result<Vec<PathBuf>, String> {
    let output = git(root).args(arguments).output().map_err(not_run)?;
    if !output.status.success() {
        return Err(format!("git cannot tell what changed: `git {}` fails", arguments.join(" ")));
    }
    let names = output.stdout.split(|byte| *byte == 0);
    // Names that are no text are none of a pattern's.
    let names = names.filter_map(|name| std::str::from_utf8(name).ok()).filter(|name| !name.is_empty());
    Ok(names.map(|name| root.join(name)).collect())
}

/// The full name of the commit that is meant.
fn commit(folder: &Path, revision: &str) -> Result<String, String> {
    let output = git(folder)
        .args(["rev-parse", "--verify", "--quiet", "--end-of-options"])
        .arg(format!("{revision}^{{commit}}"))
        .output()
        .map_err(not_run)?;
    let name = String::from_utf8_lossy(&output.stdout).trim().to_owned();
    let is_name = name.len() >= 40 && name.bytes().all(|byte| byte.is_ascii_hexdigit());
    if output.status.success() && is_name {
        Ok(name)
    } else {
        Err(format!("git knows no revision `{revision}` there, or the file lies in no repository"))
    }
}

fn git(folder: &Path) -> Command {
    let mut git = Command::new("git");
    // In a hook these lead from the top of the work tree, not from the folder of the file.
    ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX"].iter().for_each(|name| {
        git.env_remove(name);
    });
    git.arg("-C").arg(folder).stdin(Stdio::null()).stderr(Stdio::null());
    git
}

fn no_revision(text: &str) -> String {
    format!("`{text}` is no revision; name a commit, a branch or a tag: `HEAD~1`, `main`, `v2`")
}

fn not_run(error: std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "`git` is needed for that, and is not found".to_owned(),
        _ => format!("`git` cannot be run: {error}"),
    }
}

/// Whether this may name a revision: what git refuses in names of branches and tags (git-check-ref-format), what looks
/// like an option, and a `:` (which would name a file) are refused; `~`, `^` and `@{...}` are how one goes back.
fn is_revision(text: &str) -> bool {
    let refused = |sign: char| {
        sign.is_control() || sign.is_whitespace() || matches!(sign, ':' | '\\' | '?' | '*' | '[')
    };
    !text.is_empty()
        && text.len() <= LONGEST
        && !text.starts_with('-')
        && !text.contains(refused)
        && !text.contains("..")
}

#[cfg(test)]
mod tests {
    use super::is_revision;

    #[test]
    fn only_what_may_be_a_revision_is_told_to_git() {
        for good in ["HEAD", "HEAD~2", "main^", "v1.2", "feature/tides", "@{upstream}", "0123abcd"] {
            assert!(is_revision(good), "{good}");
        }
        for bad in ["", "-p", "--output=x", "HEAD:x", "a b", "a\nb", "a..b", "a*", "\\", &"a".repeat(251)] {
            assert!(!is_revision(bad), "{bad}");
        }
    }
}
