//! The two times that are compared.

use crate::git::{self, CommitFiles, RevisionRange};
use knotwright_workspace::{Disk, Files, Homes};
use std::path::PathBuf;
use std::sync::Arc;

/// A repository before a change and after it. Names are shown from its root.
pub(crate) struct ReviewSides {
    /// The root, canonical.
    pub(crate) root: PathBuf,
    /// From where to where.
    pub(crate) range: RevisionRange,
    /// The files before and after.
    pub(crate) files: [Arc<dyn Files>; 2],
    /// Their settings.
    pub(crate) homes: [Homes; 2],
    /// The commit that it ends with, if not the disk.
    end: Option<Arc<CommitFiles>>,
}

impl ReviewSides {
    /// The two sides of `range` in the repository at `root`.
    ///
    /// # Errors
    /// In words: git is not there or cannot answer.
    pub(crate) fn new(root: PathBuf, range: RevisionRange) -> Result<Self, String> {
        let commit = |name: &str, shown: &str| CommitFiles::new(&root, name, shown, &root).map(Arc::new);
        let begin = commit(&range.from, &range.from_name)?;
        let end = range.to.as_ref().map(|(name, shown)| commit(name, shown)).transpose()?;
        let after: Arc<dyn Files> = match &end {
            Some(end) => Arc::clone(end) as Arc<dyn Files>,
            None => Arc::new(Disk::seen_from(root.clone())),
        };
        let files = [begin as Arc<dyn Files>, after];
        let homes = [0, 1].map(|side: usize| Homes::among(Arc::clone(&files[side])));
        Ok(Self { root, range, files, homes, end })
    }

    /// The paths, from the root, of all files there are after the change; some may be gone from the disk.
    ///
    /// # Errors
    /// In words: git is not there or cannot answer.
    pub(super) fn paths(&self) -> Result<Vec<String>, String> {
        match &self.end {
            Some(end) => Ok(end.paths().map(str::to_owned).collect()),
            None => git::present(&self.root),
        }
    }

    /// The absolute path of one from the root.
    pub(super) fn absolute(&self, path: &str) -> PathBuf {
        self.root.join(path)
    }
}
