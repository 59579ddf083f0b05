//! Where files are read from: the disk as it is, or something that stands for it, such as a revision.

use crate::text::refuse_special;
use crate::{ReadError, read_text};
use std::fmt::Debug;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Files at absolute paths. Settings, patterns and what they use are all read through one of these, so that they are
/// all of one time.
pub trait Files: Debug + Send + Sync {
    /// The text of a file.
    ///
    /// # Errors
    /// There is none, or it is no text.
    fn read(&self, path: &Path) -> Result<Arc<str>, ReadError>;

    /// Whether there is a file.
    fn is_file(&self, path: &Path) -> bool;

    /// Where a path leads: absolute, without links, `.` and `..`.
    ///
    /// # Errors
    /// It leads nowhere.
    fn canonical(&self, path: &Path) -> Result<PathBuf, ReadError>;

    /// Whether a repository begins in this folder.
    fn is_repository(&self, folder: &Path) -> bool;

    /// What comes after every name that is shown, to tell these files from others: ` (main)`.
    fn mark(&self) -> &str;

    /// The folder that relative names are shown from.
    fn here(&self) -> &Path;
}

/// The files on the disk, as they are now.
#[derive(Debug, Clone)]
pub struct Disk {
    here: PathBuf,
}

impl Disk {
    /// With names that are shown from this folder, which is canonical.
    pub fn seen_from(here: PathBuf) -> Self {
        Self { here }
    }
}

/// With names that are shown from the current folder.
impl Default for Disk {
    fn default() -> Self {
        let here = std::env::current_dir().and_then(|here| here.canonicalize());
        Self::seen_from(here.unwrap_or_default())
    }
}

impl Files for Disk {
    fn read(&self, path: &Path) -> Result<Arc<str>, ReadError> {
        refuse_special(path)?;
        read_text(path)
    }

    fn is_file(&self, path: &Path) -> bool {
        path.is_file()
    }

    fn canonical(&self, path: &Path) -> Result<PathBuf, ReadError> {
        path.canonicalize().map_err(ReadError::from)
    }

    fn is_repository(&self, folder: &Path) -> bool {
        folder.join(".git").exists()
    }

    fn mark(&self) -> &str {
        ""
    }

    fn here(&self) -> &Path {
        &self.here
    }
}
