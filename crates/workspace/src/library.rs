//! The files that `use` names.

use crate::{Files, ReadError, folder_of, lexical};
use knotwright_checker::{Library, OpenError, Source};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

type Opened = Result<Arc<Source>, OpenError>;

/// Files read once and shared by all that use them, on any thread.
#[derive(Debug, Default)]
struct Shelf(Mutex<HashMap<String, Arc<OnceLock<Opened>>>>);

impl Shelf {
    fn get_or_open(&self, path: String, open: impl FnOnce(String) -> Opened) -> Opened {
        let place = {
            let mut shelf = self.0.lock().unwrap_or_else(PoisonError::into_inner);
            Arc::clone(shelf.entry(path.clone()).or_default())
        };
        place.get_or_init(|| open(path)).clone()
    }
}

/// The files of one workspace. Nothing outside its root is opened, neither by `..` nor through a symbolic link. A clone
/// has the same files.
#[derive(Debug, Clone)]
pub struct FileLibrary {
    /// The root, canonical.
    root: PathBuf,
    files: Arc<dyn Files>,
    shelf: Arc<Shelf>,
}

impl FileLibrary {
    /// The files under `root`, which is canonical.
    pub(crate) fn new(root: PathBuf, files: Arc<dyn Files>) -> Self {
        Self { root, files, shelf: Arc::default() }
    }

    /// Where they are read from.
    pub(crate) fn files(&self) -> &dyn Files {
        &*self.files
    }

    /// The canonical place of `path`, written in the file `from`.
    fn find(&self, from: &str, path: &str) -> Result<PathBuf, OpenError> {
        if path.starts_with(['/', '\\']) || Path::new(path).is_absolute() {
            return Err(OpenError::Outside);
        }
        let from = Path::new(from.strip_suffix(self.files.mark()).unwrap_or(from));
        let folder = self.files.canonical(&self.files.here().join(folder_of(from))).map_err(unreadable)?;
        // What is outside is refused before the disk is asked, so that nobody learns what is there.
        if !lexical(&folder, path).starts_with(&self.root) {
            return Err(OpenError::Outside);
        }
        let found = self.files.canonical(&folder.join(path)).map_err(unreadable)?;
        if found.starts_with(&self.root) { Ok(found) } else { Err(OpenError::Outside) }
    }

    /// The name a file is shown under: as `from` is, absolute or from the current folder. It depends on nothing
    /// else, so two ways to one file give one name, and a circle of files is seen as one.
    fn shown(&self, from: &str, found: &Path) -> String {
        let short = if Path::new(from).is_absolute() {
            found
        } else {
            found.strip_prefix(self.files.here()).unwrap_or(found)
        };
        crate::shown_path(short) + self.files.mark()
    }
}

impl Library for FileLibrary {
    fn open(&self, from: &str, path: &str) -> Opened {
        let found = self.find(from, path)?;
        self.shelf.get_or_open(self.shown(from, &found), |shown| {
            if !self.files.is_file(&found) {
                return Err(OpenError::Unreadable("it is no file".to_owned()));
            }
            self.files.read(&found).map(|text| Arc::new(Source::new(shown, text))).map_err(unreadable)
        })
    }
}

fn unreadable(error: ReadError) -> OpenError {
    match error {
        ReadError::Missing => OpenError::Missing,
        error => OpenError::Unreadable(error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    /// A workspace in a folder of its own, with files next to it.
    struct Place(tempfile::TempDir);

    impl Place {
        fn new(files: &[&str]) -> Self {
            let folder = tempfile::tempdir().unwrap();
            for file in files {
                let path = folder.path().join(file);
                fs::create_dir_all(path.parent().unwrap()).unwrap();
                fs::write(path, format!("pattern \"{file}\"\n")).unwrap();
            }
            Self(folder)
        }

        fn path(&self, file: &str) -> String {
            self.0.path().canonicalize().unwrap().join(file).to_str().unwrap().to_owned()
        }

        fn library(&self) -> FileLibrary {
            FileLibrary::new(PathBuf::from(self.path("work")), Arc::new(crate::Disk::default()))
        }
    }

    #[test]
    fn a_file_is_found_beside_and_above_the_one_that_names_it_and_read_once() {
        let place = Place::new(&["work/a.knot", "work/deep/b.knot", "work/library.knot"]);
        let library = place.library();
        let one = library.open(&place.path("work/a.knot"), "library.knot").unwrap();
        let other = library.open(&place.path("work/deep/b.knot"), "../library.knot").unwrap();
        assert!(Arc::ptr_eq(&one, &other));
        assert_eq!(one.path, place.path("work/library.knot"));
    }

    #[test]
    fn nothing_outside_the_workspace_is_opened_or_told_of() {
        let place = Place::new(&["work/a.knot", "outside.knot"]);
        let (library, from) = (place.library(), place.path("work/a.knot"));
        assert_eq!(library.open(&from, "../outside.knot"), Err(OpenError::Outside));
        assert_eq!(
            library.open(&from, "../none.knot"),
            Err(OpenError::Outside),
            "not even whether it exists"
        );
        assert_eq!(library.open(&from, &place.path("outside.knot")), Err(OpenError::Outside));
        assert_eq!(library.open(&from, "none.knot"), Err(OpenError::Missing));
    }

    #[cfg(unix)]
    #[test]
    fn a_symbolic_link_leads_not_outside() {
        let place = Place::new(&["work/a.knot", "outside/b.knot"]);
        std::os::unix::fs::symlink(place.path("outside"), place.path("work/link")).unwrap();
        let from = place.path("work/a.knot");
        assert_eq!(place.library().open(&from, "link/b.knot"), Err(OpenError::Outside));
    }

    #[test]
    fn what_is_there_but_is_no_text_says_why() {
        let place = Place::new(&["work/a.knot", "work/folder/b.knot"]);
        fs::write(place.path("work/bytes.knot"), b"\xff").unwrap();
        let (library, from) = (place.library(), place.path("work/a.knot"));
        let reason = |path: &str| match library.open(&from, path) {
            Err(OpenError::Unreadable(reason)) => reason,
            other => panic!("{other:?}"),
        };
        assert_eq!(reason("folder"), "it is no file");
        assert!(reason("bytes.knot").contains("0xFF"));
    }
}
