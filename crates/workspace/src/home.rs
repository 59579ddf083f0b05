//! Where a file is at home: the root of its workspace and the settings that hold there.

use crate::{FileLibrary, ReadError, read};
use ignore::gitignore::{Gitignore, GitignoreBuilder};
use knotwright_checker::Settings;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// The name of the file with the settings.
pub const SETTINGS_FILE: &str = "knotwright.toml";

/// A workspace.
///
/// Its root is the nearest folder upward with a `knotwright.toml`; or else the root of the repository, where
/// the search stops; or else the folder that was given (the folder of the file, if a file was).
#[derive(Debug)]
pub struct Home {
    /// The root, canonical.
    pub root: PathBuf,
    /// The settings.
    pub settings: Settings,
    /// The files that `use` may name.
    pub library: FileLibrary,
    excluded: Gitignore,
}

/// Why the settings cannot be had.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HomeError {
    /// Of which file or folder this is said.
    pub path: String,
    /// What is wrong, in words.
    pub reason: String,
}

impl Home {
    /// Whether the settings exclude `path`, absolute and canonical, or a folder it lies in.
    pub fn excludes(&self, path: &Path, is_folder: bool) -> bool {
        self.excludes_anything()
            && path.starts_with(&self.root)
            && self.excluded.matched_path_or_any_parents(path, is_folder).is_ignore()
    }

    /// Whether the settings exclude anything at all.
    pub fn excludes_anything(&self) -> bool {
        !self.excluded.is_empty()
    }

    fn new(root: PathBuf, settings: Settings) -> Result<Self, HomeError> {
        let mut excluded = GitignoreBuilder::new(&root);
        for pattern in &settings.exclude {
            excluded.add_line(None, pattern).map_err(|error| settings_error(&root, error.to_string()))?;
        }
        let excluded = excluded.build().map_err(|error| settings_error(&root, error.to_string()))?;
        Ok(Self { library: FileLibrary::new(root.clone()), root, settings, excluded })
    }
}

/// The homes found so far: each `knotwright.toml` is read once.
#[derive(Debug, Default)]
pub struct Homes {
    by_folder: Mutex<HashMap<PathBuf, Arc<Home>>>,
}

impl Homes {
    /// The home of the files in `folder`. `given` is the folder that becomes the root if none is found upward.
    ///
    /// # Errors
    /// There is no such folder, or its `knotwright.toml` cannot be read or understood.
    pub fn of(&self, folder: &Path, given: &Path) -> Result<Arc<Home>, HomeError> {
        let folder = canonical(folder)?;
        let root = root_of(&folder).map_or_else(|| canonical(given), |root| Ok(root.to_path_buf()))?;
        let mut homes = self.by_folder.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(home) = homes.get(&root) {
            return Ok(Arc::clone(home));
        }
        let home = Arc::new(Home::new(root.clone(), settings_in(&root)?)?);
        homes.insert(root, Arc::clone(&home));
        Ok(home)
    }
}

/// The nearest folder upward that has settings, or is the root of a repository.
fn root_of(folder: &Path) -> Option<&Path> {
    folder.ancestors().find(|folder| folder.join(SETTINGS_FILE).is_file() || folder.join(".git").exists())
}

fn settings_in(root: &Path) -> Result<Settings, HomeError> {
    match read(&root.join(SETTINGS_FILE)) {
        Ok(text) => Settings::parse(&text).map_err(|error| settings_error(root, error.to_string())),
        Err(ReadError::Missing) => Ok(Settings::default()),
        Err(error) => Err(settings_error(root, error.to_string())),
    }
}

fn settings_error(root: &Path, reason: String) -> HomeError {
    HomeError { path: crate::shown(&root.join(SETTINGS_FILE)), reason }
}

fn canonical(folder: &Path) -> Result<PathBuf, HomeError> {
    folder
        .canonicalize()
        .map_err(|error| HomeError { path: crate::shown(folder), reason: ReadError::from(error).to_string() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    fn folder(paths: &[&str]) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path().canonicalize().unwrap();
        for path in paths {
            fs::create_dir_all(root.join(path).parent().unwrap()).unwrap();
            fs::write(root.join(path), "").unwrap();
        }
        (folder, root)
    }

    fn home(folder: &Path) -> Arc<Home> {
        Homes::default().of(folder, folder).unwrap()
    }

    #[test]
    fn the_nearest_settings_upward_make_the_root() {
        let (_keep, root) = folder(&["knotwright.toml", "a/b/x.knot", "a/c/knotwright.toml", "a/c/d/y.knot"]);
        assert_eq!(home(&root.join("a/b")).root, root);
        assert_eq!(home(&root.join("a/c/d")).root, root.join("a/c"));
    }

    #[test]
    fn the_search_stops_at_the_root_of_the_repository() {
        let (_keep, root) = folder(&["knotwright.toml", "clone/.git/HEAD", "clone/bands/x.knot"]);
        assert_eq!(home(&root.join("clone/bands")).root, root.join("clone"));
    }

    #[test]
    fn settings_that_are_no_text_name_their_file() {
        let (_keep, root) = folder(&["x.knot"]);
        fs::write(root.join(SETTINGS_FILE), b"\xff").unwrap();
        let error = Homes::default().of(&root, &root).unwrap_err();
        assert!(error.path.ends_with("knotwright.toml"), "{error:?}");
        assert!(error.reason.contains("0xFF"), "{error:?}");
    }

    #[test]
    fn excludes_are_read_from_the_root_and_hold_for_all_below() {
        let (_keep, root) = folder(&["old/a.knot", "new/a.knot"]);
        fs::write(root.join(SETTINGS_FILE), "exclude = [\"/old/\", \"*.draft.knot\"]\n").unwrap();
        let home = home(&root);
        assert!(home.excludes(&root.join("old/deep/a.knot"), false));
        assert!(home.excludes(&root.join("new/b.draft.knot"), false));
        assert!(!home.excludes(&root.join("new/a.knot"), false));
    }
}
