//! Which files changed.

use super::{bytes, failed, git, line, not_run, revision::merge_base};
use std::collections::HashSet;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Stdio;

/// A file that is not as it was. Its paths lead from the root of the repository.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct FileChange {
    /// Where it was; none if it is new.
    pub(crate) before: Option<String>,
    /// Where it is; none if it is gone.
    pub(crate) after: Option<String>,
}

/// What changed from one commit to another, or to the files on the disk, new ones included. Files that were moved
/// are followed, even if git does not know of it.
///
/// # Errors
/// In words: git is not there or cannot answer.
pub(crate) fn between(root: &Path, from: &str, to: Option<&str>) -> Result<Vec<FileChange>, String> {
    let changes = raw(root, from, to, None)?;
    if to.is_some() {
        return Ok(changes);
    }
    let new = untracked(root)?;
    if new.is_empty() || changes.iter().all(|change| change.after.is_some()) {
        let new = new.into_iter().map(|path| FileChange { before: None, after: Some(path) });
        return Ok(changes.into_iter().chain(new).collect());
    }
    let index = index_with(root, &new)?;
    raw(root, from, None, Some(index.path()))
}

/// The files under `root` that are not as they were where this branch left `revision`: committed or not, new, changed,
/// renamed (both names) and gone ones.
///
/// # Errors
/// In words: the revision is none, or it has no commit in common with what is checked out.
pub(crate) fn changed(root: &Path, revision: &str) -> Result<Vec<PathBuf>, String> {
    let left = merge_base(root, revision, "HEAD")?;
    let options = ["diff", "--name-only", "-z", "--no-renames", "--no-relative", "--no-ext-diff"];
    let tracked = bytes(root, &[&options[..], &[&left, "--"]].concat())?;
    Ok(names(&tracked).chain(untracked(root)?).map(|name| root.join(name)).collect())
}

/// New files that git does not track, except those that `.gitignore` names.
///
/// # Errors
/// In words: git is not there or cannot answer.
fn untracked(root: &Path) -> Result<Vec<String>, String> {
    Ok(names(&bytes(root, &["ls-files", "-z", "--others", "--exclude-standard"])?).collect())
}

/// All files but those that `.gitignore` names; some may be gone from the disk.
///
/// # Errors
/// In words: git is not there or cannot answer.
pub(crate) fn present(root: &Path) -> Result<Vec<String>, String> {
    Ok(names(&bytes(root, &["ls-files", "-z", "--cached", "--others", "--exclude-standard"])?).collect())
}

/// Names that are no text are none of a pattern's.
fn names(listed: &[u8]) -> impl Iterator<Item = String> {
    let names = listed.split(|byte| *byte == 0);
    names.filter_map(|name| String::from_utf8(name.to_vec()).ok()).filter(|name| !name.is_empty())
}

fn not_copied(error: std::io::Error) -> String {
    format!("the index of git cannot be copied: {}", knotwright_workspace::refusal(&error))
}

/// A copy of the index in which these files are new, so that git looks whether they were moved there.
fn index_with(root: &Path, new: &[String]) -> Result<tempfile::NamedTempFile, String> {
    let copy = tempfile::NamedTempFile::new().map_err(not_copied)?;
    let index = line(root, &["rev-parse", "--git-path", "index"])?.ok_or_else(|| failed(&["rev-parse"]))?;
    std::fs::copy(root.join(index), copy.path()).map_err(not_copied)?;
    let add = ["add", "--intent-to-add", "--pathspec-from-file=-", "--pathspec-file-nul"];
    let mut child = git(root)
        .arg("--literal-pathspecs")
        .args(add)
        .env("GIT_INDEX_FILE", copy.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .spawn()
        .map_err(not_run)?;
    let written = child.stdin.take().map(|mut stdin| stdin.write_all(new.join("\0").as_bytes()));
    let ended = child.wait().map_err(not_run)?;
    match written {
        Some(Ok(())) if ended.success() => Ok(copy),
        _ => Err(failed(&add)),
    }
}

fn raw(root: &Path, from: &str, to: Option<&str>, index: Option<&Path>) -> Result<Vec<FileChange>, String> {
    let options =
        ["diff", "--raw", "-z", "-M", "--no-abbrev", "--no-relative", "--no-ext-diff", "--ignore-submodules"];
    let arguments: Vec<&str> = options.into_iter().chain([from]).chain(to).chain(["--"]).collect();
    let mut git = git(root);
    if let Some(index) = index {
        git.env("GIT_INDEX_FILE", index);
    }
    let output = git.args(&arguments).output().map_err(not_run)?;
    if output.status.success() { Ok(read(&output.stdout)) } else { Err(failed(&arguments)) }
}

/// Reads what `git diff --raw -z` writes: `:MODE MODE NAME NAME STATUS`, then one path, or two if it was moved, each with
/// a NUL after it.
fn read(raw: &[u8]) -> Vec<FileChange> {
    let mut fields = raw.split(|byte| *byte == 0).filter(|field| !field.is_empty());
    let text = |field: &[u8]| String::from_utf8(field.to_vec()).ok();
    let (mut changes, mut seen) = (Vec::new(), HashSet::new());
    while let Some(head) = fields.next() {
        let status = head.rsplit(|byte| *byte == b' ').next().and_then(|status| status.first());
        let Some(path) = fields.next() else { break };
        let path = text(path);
        let (before, after) = match status {
            Some(b'A') => (None, path),
            Some(b'D') => (path, None),
            Some(b'R') => (path, fields.next().and_then(text)),
            Some(b'C') => (None, fields.next().and_then(text)),
            _ => (path.clone(), path),
        };
        // A file in conflict is listed twice.
        let is_new = seen.insert((before.clone(), after.clone()));
        if is_new && (before.is_some() || after.is_some()) {
            changes.push(FileChange { before, after });
        }
    }
    changes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_change_is_read() {
        let raw = b":100644 100644 1a 2b M\0a.knot\0:000000 100644 00 2b A\0new\nline.knot\0\
            :100644 000000 1a 00 D\0gone.knot\0:100644 100644 1a 2b R087\0old.knot\0b/new.knot\0\
            :100644 000000 1a 00 U\0a.knot\0";
        let change = |before: Option<&str>, after: Option<&str>| FileChange {
            before: before.map(str::to_owned),
            after: after.map(str::to_owned),
        };
        assert_eq!(
            read(raw),
            [
                change(Some("a.knot"), Some("a.knot")),
                change(None, Some("new\nline.knot")),
                change(Some("gone.knot"), None),
                change(Some("old.knot"), Some("b/new.knot")),
            ]
        );
    }
}
