//! Revisions, and from where to where a change goes.

use super::{git, line, not_run};
use std::path::Path;

/// No name of a revision is longer.
const LONGEST: usize = 250;

/// From where to where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct RevisionRange {
    /// The full name of the commit it begins with.
    pub(crate) from: String,
    /// What that is called.
    pub(crate) from_name: String,
    /// The full name of the commit it ends with, and what that is called; none for the files on the disk.
    pub(crate) to: Option<(String, String)>,
}

impl RevisionRange {
    /// What is meant by `typed` in a repository: `A..B`, two revisions; `A...B`, the second from where it left the first;
    /// `A`, the files on the disk from where this branch left it.
    ///
    /// # Errors
    /// In words: a revision is none, or there is no commit in common.
    pub(crate) fn of(root: &Path, typed: &str) -> Result<Self, String> {
        let or_head = |name: &str| if name.is_empty() { "HEAD".to_owned() } else { name.to_owned() };
        if let Some((from, to)) = typed.split_once("...") {
            let (from, to) = (or_head(from), or_head(to));
            let end = commit(root, &to)?;
            let left = merge_base(root, &from, &end)?;
            return Ok(Self { from: left, from_name: from, to: Some((end, to)) });
        }
        if let Some((from, to)) = typed.split_once("..") {
            let (from, to) = (or_head(from), or_head(to));
            let (begin, end) = (commit(root, &from)?, commit(root, &to)?);
            return Ok(Self { from: begin, from_name: from, to: Some((end, to)) });
        }
        Ok(Self { from: merge_base(root, typed, "HEAD")?, from_name: typed.to_owned(), to: None })
    }
}

/// What this branch is meant to go into: its upstream, or else the main branch of `origin`.
///
/// # Errors
/// In words: neither is known.
pub(crate) fn upstream(root: &Path) -> Result<String, String> {
    for name in ["@{upstream}", "origin/HEAD"] {
        let asked = ["rev-parse", "--abbrev-ref", "--verify", "--quiet", name];
        if let Some(name) = line(root, &asked)? {
            return Ok(name);
        }
    }
    Err("this branch has no upstream to compare with; name a revision: `--since main`".to_owned())
}

/// The full name of the commit that is meant.
///
/// # Errors
/// In words: it is none, or git is not there.
pub(crate) fn commit(folder: &Path, revision: &str) -> Result<String, String> {
    if !is_revision(revision) {
        return Err(format!(
            "`{revision}` is not a revision; name a commit, a branch or a tag: `HEAD~1`, `main`, `v2`"
        ));
    }
    let wanted = format!("{revision}^{{commit}}");
    let name = line(folder, &["rev-parse", "--verify", "--quiet", "--end-of-options", &wanted])?;
    let is_name = |name: &String| name.len() >= 40 && name.bytes().all(|byte| byte.is_ascii_hexdigit());
    name.filter(is_name)
        .ok_or_else(|| format!("git knows no revision `{revision}` there, or the file is in no repository"))
}

/// The last commit that `revision` and `head` have in common.
///
/// # Errors
/// In words: the revision is none, or there is none in common.
pub(super) fn merge_base(root: &Path, revision: &str, head: &str) -> Result<String, String> {
    line(root, &["merge-base", &commit(root, revision)?, head])?.ok_or_else(|| {
        format!(
            "`{revision}` has no commit in common with what is checked out, or it was not fetched; \
             fetch the whole history (`fetch-depth: 0` in a workflow, `GIT_DEPTH: 0` in a pipeline)"
        )
    })
}

/// The newest commit, of all that branches and tags lead to, in which the file at `path` (from the root) was the blob of
/// that name; none if it was so in no commit.
///
/// # Errors
/// In words: git is not there.
pub(crate) fn last_with(root: &Path, path: &str, blob: &str) -> Result<Option<String>, String> {
    let is_there = |commit: &str| -> Result<bool, String> {
        let found = line(root, &["rev-parse", "--verify", "--quiet", &format!("{commit}:{path}")])?;
        Ok(found.is_some_and(|found| found.starts_with(blob)))
    };
    if is_there("HEAD")? {
        return commit(root, "HEAD").map(Some);
    }
    let find = format!("--find-object={blob}");
    let output = git(root)
        .args(["--literal-pathspecs", "log", "--all", "--format=%H", "-1", &find, "--", path])
        .output()
        .map_err(not_run)?;
    let answer = String::from_utf8_lossy(&output.stdout).trim().to_owned();
    // A commit that brought the blob has it, one that took it away does not, but the one before does.
    for candidate in [answer.clone(), format!("{answer}^")] {
        if !answer.is_empty() && is_there(&candidate)? {
            return commit(root, &candidate).map(Some);
        }
    }
    Ok(None)
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
    fn only_what_may_be_a_revision_is_passed_to_git() {
        for good in ["HEAD", "HEAD~2", "main^", "v1.2", "feature/tides", "@{upstream}", "0123abcd"] {
            assert!(is_revision(good), "{good}");
        }
        for bad in ["", "-p", "--output=x", "HEAD:x", "a b", "a\nb", "a..b", "a*", "\\", &"a".repeat(251)] {
            assert!(!is_revision(bad), "{bad}");
        }
    }
}
