//! The files of a commit.

use super::blobs::Blobs;
use super::bytes;
use knotwright_workspace::{Files, ReadError, lexical};
use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// More links in one path lead in a circle. The Linux kernel follows as many.
const MOST_LINKS: usize = 40;

/// All files of a commit, as if they lay in the work tree.
#[derive(Debug)]
pub(crate) struct CommitFiles {
    /// The root of the work tree, canonical.
    root: PathBuf,
    /// The folder that relative names are shown from.
    here: PathBuf,
    mark: String,
    /// By path from the root.
    entries: BTreeMap<String, TreeEntry>,
    blobs: Mutex<Option<Blobs>>,
}

/// A file or a link, by the name that git gives its content.
#[derive(Debug)]
struct TreeEntry {
    is_link: bool,
    blob: Box<str>,
}

impl CommitFiles {
    /// The files of a commit, given by its full name. `mark` comes after the names that are shown, relative to `here`.
    ///
    /// # Errors
    /// In words: git is not there or does not know it.
    pub(crate) fn new(root: &Path, commit: &str, mark: &str, here: &Path) -> Result<Self, String> {
        let listed = bytes(root, &["ls-tree", "-r", "-z", "--full-tree", commit])?;
        let lines = listed.split(|byte| *byte == 0).filter_map(|line| std::str::from_utf8(line).ok());
        Ok(Self {
            root: root.to_path_buf(),
            here: here.to_path_buf(),
            mark: format!(" ({mark})"),
            entries: lines.filter_map(entry).collect(),
            blobs: Mutex::default(),
        })
    }

    /// The paths of all files, from the root.
    pub(crate) fn paths(&self) -> impl Iterator<Item = &str> {
        self.entries.iter().filter(|(_, entry)| !entry.is_link).map(|(path, _)| path.as_str())
    }

    fn entry(&self, path: &Path) -> Option<&TreeEntry> {
        self.entries.get(&inner(path.strip_prefix(&self.root).ok()?)?)
    }

    fn blob(&self, entry: &TreeEntry) -> Result<Arc<str>, ReadError> {
        let mut blobs = self.blobs.lock().unwrap_or_else(PoisonError::into_inner);
        if blobs.is_none() {
            *blobs = Some(Blobs::of(&self.root).map_err(ReadError::Other)?);
        }
        blobs.as_mut().map_or(Err(ReadError::Missing), |blobs| blobs.read(&entry.blob))
    }

    fn is_folder(&self, path: &Path) -> bool {
        let Some(inner) = path.strip_prefix(&self.root).ok().and_then(inner) else { return false };
        let below = inner.clone() + "/";
        inner.is_empty()
            || self.entries.range(below.clone()..).next().is_some_and(|(path, _)| path.starts_with(&below))
    }

    /// Where the first link in a path leads, with what comes after it.
    fn follow(&self, path: &Path) -> Option<Result<PathBuf, ReadError>> {
        let mut at = PathBuf::new();
        let mut parts = path.components();
        while let Some(part) = parts.next() {
            let folder = at.clone();
            at.push(part);
            if let Some(entry) = self.entry(&at).filter(|entry| entry.is_link) {
                let target = self.blob(entry);
                return Some(target.map(|target| lexical(&folder, &target).join(parts.as_path())));
            }
        }
        None
    }
}

impl Files for CommitFiles {
    fn read(&self, path: &Path) -> Result<Arc<str>, ReadError> {
        let entry = self.entry(path).filter(|entry| !entry.is_link).ok_or(ReadError::Missing)?;
        self.blob(entry)
    }

    fn is_file(&self, path: &Path) -> bool {
        self.entry(path).is_some_and(|entry| !entry.is_link)
    }

    fn canonical(&self, path: &Path) -> Result<PathBuf, ReadError> {
        let mut at = lexical(&self.here, &path.to_string_lossy());
        for _ in 0..MOST_LINKS {
            match self.follow(&at) {
                Some(target) => at = target?,
                None if self.is_file(&at) || self.is_folder(&at) => return Ok(at),
                None => return Err(ReadError::Missing),
            }
        }
        Err(ReadError::Missing)
    }

    fn is_repository(&self, folder: &Path) -> bool {
        folder == self.root
    }

    fn mark(&self) -> &str {
        &self.mark
    }

    fn here(&self) -> &Path {
        &self.here
    }
}

/// A path from the root, as git writes it.
fn inner(path: &Path) -> Option<String> {
    let names: Option<Vec<&str>> = path
        .components()
        .map(|part| match part {
            Component::Normal(name) => name.to_str(),
            _ => None,
        })
        .collect();
    Some(names?.join("/"))
}

/// `MODE TYPE NAME<tab>PATH`; of a file or a link only.
fn entry(line: &str) -> Option<(String, TreeEntry)> {
    let (about, path) = line.split_once('\t')?;
    let mut about = about.split(' ');
    let (mode, kind, blob) = (about.next()?, about.next()?, about.next()?);
    (kind == "blob").then(|| (path.to_owned(), TreeEntry { is_link: mode == "120000", blob: blob.into() }))
}
