//! The files that `use` names, as they are in the editor: what is open there goes before what is on the disk.

use super::Version;
use knotwright_checker::{Library, OpenError, Settings, Source};
use knotwright_workspace::{Home, Homes, lexical, shown_path};
use std::collections::HashMap;
use std::path::Path;
use std::sync::Arc;

/// The open documents by path.
pub(crate) type Open = Arc<HashMap<String, Version>>;

/// What is around one document.
#[derive(Debug)]
pub(crate) struct Around {
    home: Option<Arc<Home>>,
    open: Open,
    settings: Settings,
}

impl Around {
    /// What is around the file at `path`.
    ///
    /// # Errors
    /// Why its settings cannot be read, in words; then no settings hold.
    pub(crate) fn of(path: &str, homes: &Homes, open: Open) -> (Self, Option<String>) {
        let folder = Path::new(path).parent().filter(|_| Path::new(path).is_absolute());
        // A folder that is not there yet has no settings.
        let (home, trouble) =
            match folder.filter(|folder| folder.is_dir()).map(|folder| homes.of(folder, folder)) {
                None => (None, None),
                Some(Ok(home)) => (Some(home), None),
                Some(Err(error)) => (None, Some(format!("{}: {}", error.path, error.reason))),
            };
        let settings =
            home.as_ref().map(|home| (*home.settings(Path::new(path))).clone()).unwrap_or_default();
        (Self { home, open, settings }, trouble)
    }

    /// The settings that hold for the document.
    pub(crate) fn settings(&self) -> &Settings {
        &self.settings
    }
}

impl Library for Around {
    fn open(&self, from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let Some(home) = &self.home else { return Err(OpenError::Missing) };
        match home.library.open(from, path) {
            Ok(source) => match self.open.get(&source.path) {
                Some(version) => Ok(Arc::clone(version.source())),
                None => Ok(source),
            },
            // It may be open and not yet saved.
            Err(OpenError::Missing) => match self.open.get(&unsaved(from, path)) {
                Some(version) => Ok(Arc::clone(version.source())),
                None => Err(OpenError::Missing),
            },
            Err(error) => Err(error),
        }
    }
}

/// Where the file `path`, written in `from`, would be.
fn unsaved(from: &str, path: &str) -> String {
    let folder = Path::new(from).parent().unwrap_or(Path::new(""));
    shown_path(&lexical(folder, path))
}

/// All files at once, each with what is around it.
pub(crate) struct Everywhere<'a> {
    homes: &'a Homes,
    open: &'a Open,
}

impl<'a> Everywhere<'a> {
    pub(crate) fn new(homes: &'a Homes, open: &'a Open) -> Self {
        Self { homes, open }
    }
}

impl Library for Everywhere<'_> {
    fn open(&self, from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        Around::of(from, self.homes, Arc::clone(self.open)).0.open(from, path)
    }
}
