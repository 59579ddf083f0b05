//! A file as it was in a revision, with the settings and the libraries of then.

use crate::git::{self, CommitFiles};
use crate::terminal::Failure;
use knotwright_workspace::{Disk, Files, FoundFile, Homes, ReadError, folder_of, lexical};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The file of that path as it was in `revision`, and its text.
///
/// # Errors
/// The revision is none, the file was not in it, or its settings of then cannot be understood.
pub(crate) fn found(path: &Path, revision: &str) -> Result<(FoundFile, Arc<str>), Failure> {
    let shown = knotwright_workspace::shown_path(path);
    let said = |reason: String| Failure::said(format_args!("{shown}: {reason}"));
    let disk = Disk::default();
    let place = placed(path, &disk);
    let folder = place.ancestors().skip(1).find(|folder| folder.is_dir()).unwrap_or(disk.here());
    let commit = git::commit(folder, revision).map_err(said)?;
    let root = git::root(folder).map_err(said)?;
    let commit = CommitFiles::new(&root, &commit, revision, disk.here()).map_err(said)?;
    in_files(Arc::new(commit), &place, shown.clone()).map_err(|failure| match failure {
        NotCommitted::Missing => said(format!("this file does not exist in `{revision}`")),
        NotCommitted::Unread(error) => said(error.to_string()),
        NotCommitted::Home(failure) => failure,
    })
}

/// Why a file is not found among others.
pub(crate) enum NotCommitted {
    /// There is none of that name.
    Missing,
    /// It is no text.
    Unread(ReadError),
    /// Its settings cannot be had.
    Home(Failure),
}

/// A file among others, at home there, and its text. `shown` is what it is called.
///
/// # Errors
/// [`NotCommitted`].
pub(crate) fn in_files(
    files: Arc<dyn Files>,
    place: &Path,
    shown: String,
) -> Result<(FoundFile, Arc<str>), NotCommitted> {
    let unread = |error: ReadError| match error {
        ReadError::Missing => NotCommitted::Missing,
        error => NotCommitted::Unread(error),
    };
    let path = files.canonical(place).map_err(unread)?;
    let text = files.read(&path).map_err(unread)?;
    let shown = shown + files.mark();
    let folder = folder_of(&path);
    let home = Homes::among(files).of(folder, folder).map_err(|error| NotCommitted::Home(error.into()))?;
    Ok((FoundFile { path, shown, home, named: true }, text))
}

/// Where a file lies, also if it is no longer there.
pub(crate) fn placed(path: &Path, disk: &Disk) -> PathBuf {
    let folder = disk.canonical(folder_of(path));
    match (folder, path.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => lexical(disk.here(), &path.to_string_lossy()),
    }
}
