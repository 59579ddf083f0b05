//! Where a file is at home: the root of its workspace and the settings that hold there.

use crate::layer::Layer;
use crate::{Disk, FileLibrary, Files, ReadError};
use knotwright_checker::Settings;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// The name of the file with the settings.
pub const SETTINGS_FILE: &str = "knotwright.toml";

/// A folder of a workspace, and what holds for the files in it.
///
/// The root of a workspace is the nearest folder upward whose `knotwright.toml` says `root = true`, or the root of the
/// repository, whichever comes first; without both, the topmost folder upward with a `knotwright.toml`; or else the
/// folder that was given (the folder of the file, if a file was). Settings between the root and a file add up: the nearer
/// ones go before the others.
#[derive(Debug)]
pub struct Home {
    /// The root, canonical.
    pub root: PathBuf,
    /// The files that `use` may name.
    pub library: FileLibrary,
    /// From the root to the file.
    layers: Vec<Arc<Layer>>,
    /// What holds for files that no `[[folder]]` names.
    settings: Arc<Settings>,
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
    /// The settings that hold for the file at `path`, which is in this home.
    pub fn settings(&self, path: &Path) -> Arc<Settings> {
        if !self.layers.iter().any(|layer| layer.varies()) {
            return Arc::clone(&self.settings);
        }
        let path = self.placed(path);
        let mut settings = Settings::default();
        self.layers.iter().flat_map(|layer| layer.levels(&path)).for_each(|levels| settings.add(levels));
        Arc::new(settings)
    }

    /// Whether the settings exclude the file at `path`, which is in this home, or a folder it is in.
    pub fn excludes_file(&self, path: &Path) -> bool {
        self.excludes_anything() && self.excludes(&self.placed(path), false)
    }

    /// Whether the settings exclude `path`, absolute and canonical, or a folder it is in.
    pub fn excludes(&self, path: &Path, is_folder: bool) -> bool {
        // As with .gitignore, the nearest settings that say anything of it decide.
        self.layers.iter().rev().find_map(|layer| layer.excludes(path, is_folder)).unwrap_or(false)
    }

    /// Whether the settings exclude anything at all.
    pub fn excludes_anything(&self) -> bool {
        self.layers.iter().any(|layer| layer.excludes_anything())
    }

    fn new(root: PathBuf, library: FileLibrary, layers: Vec<Arc<Layer>>) -> Self {
        let mut settings = Settings::default();
        layers.iter().for_each(|layer| settings.add(&layer.levels));
        Self { root, library, layers, settings: Arc::new(settings) }
    }

    /// The path of a file from the root of the disk. A link in the place of the file itself is not followed.
    fn placed(&self, path: &Path) -> PathBuf {
        let folder = crate::folder_of(path);
        let folder = self.library.files().canonical(folder).unwrap_or_else(|_| folder.to_path_buf());
        path.file_name().map_or_else(|| folder.clone(), |name| folder.join(name))
    }
}

/// The homes found so far: each `knotwright.toml` is read once.
#[derive(Debug)]
pub struct Homes {
    known: Mutex<KnownHomes>,
}

/// Those on the disk.
impl Default for Homes {
    fn default() -> Self {
        Self::among(Arc::new(Disk::default()))
    }
}

#[derive(Debug)]
struct KnownHomes {
    files: Arc<dyn Files>,
    /// By the nearest folder upward that has settings, or is the root.
    homes: HashMap<PathBuf, Arc<Home>>,
    /// By their folders.
    layers: HashMap<PathBuf, Arc<Layer>>,
    /// By the roots.
    libraries: HashMap<PathBuf, FileLibrary>,
}

impl Homes {
    /// The homes of these files.
    pub fn among(files: Arc<dyn Files>) -> Self {
        let (homes, layers, libraries) = (HashMap::new(), HashMap::new(), HashMap::new());
        Self { known: Mutex::new(KnownHomes { files, homes, layers, libraries }) }
    }

    /// The home of the files in `folder`. `given` is the folder that becomes the root if none is found upward.
    ///
    /// # Errors
    /// There is no such folder, or a `knotwright.toml` cannot be read or understood.
    pub fn of(&self, folder: &Path, given: &Path) -> Result<Arc<Home>, HomeError> {
        self.known.lock().unwrap_or_else(PoisonError::into_inner).home(folder, given)
    }
}

impl KnownHomes {
    fn home(&mut self, folder: &Path, given: &Path) -> Result<Arc<Home>, HomeError> {
        let folder = self.canonical(folder)?;
        let (layers, root) = self.upward(&folder)?;
        let root = match root {
            Some(root) => root,
            None => layers.first().map_or_else(|| self.canonical(given), |layer| Ok(layer.folder.clone()))?,
        };
        let nearest = layers.last().map_or(&root, |layer| &layer.folder).clone();
        if let Some(home) = self.homes.get(&nearest).filter(|home| home.root == root) {
            return Ok(Arc::clone(home));
        }
        let new = || FileLibrary::new(root.clone(), Arc::clone(&self.files));
        let library = self.libraries.entry(root.clone()).or_insert_with(new);
        let home = Arc::new(Home::new(root, library.clone(), layers));
        self.homes.insert(nearest, Arc::clone(&home));
        Ok(home)
    }

    /// The settings that hold in `folder`, the farthest first, and the root where one is said.
    fn upward(&mut self, folder: &Path) -> Result<(Vec<Arc<Layer>>, Option<PathBuf>), HomeError> {
        let (mut layers, mut root) = (Vec::new(), None);
        for folder in folder.ancestors() {
            let layer = self.layer(folder)?;
            let begins =
                layer.as_ref().is_some_and(|layer| layer.is_root) || self.files.is_repository(folder);
            layers.extend(layer);
            if begins {
                root = Some(folder.to_path_buf());
                break;
            }
        }
        layers.reverse();
        Ok((layers, root))
    }

    fn layer(&mut self, folder: &Path) -> Result<Option<Arc<Layer>>, HomeError> {
        if let Some(layer) = self.layers.get(folder) {
            return Ok(Some(Arc::clone(layer)));
        }
        let path = folder.join(SETTINGS_FILE);
        let error = |reason: String| HomeError { path: crate::shown_path(&path) + self.files.mark(), reason };
        let text = match self.files.read(&path) {
            Ok(text) => text,
            // Above what is ours, folders may be closed to us.
            Err(ReadError::Missing | ReadError::Denied) => return Ok(None),
            Err(reason) => return Err(error(reason.to_string())),
        };
        let layer = Arc::new(Layer::parse(folder, &text).map_err(error)?);
        self.layers.insert(folder.to_path_buf(), Arc::clone(&layer));
        Ok(Some(layer))
    }

    fn canonical(&self, folder: &Path) -> Result<PathBuf, HomeError> {
        let error =
            |reason: ReadError| HomeError { path: crate::shown_path(folder), reason: reason.to_string() };
        self.files.canonical(folder).map_err(error)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_checker::{Level, Library};
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

    /// How grave the rules that these settings are about are for a file.
    fn levels(path: &Path) -> Vec<(&'static str, Level)> {
        home(crate::folder_of(path)).settings(path).levels.clone().into_iter().collect()
    }

    #[test]
    fn the_topmost_settings_upward_make_the_root_or_those_that_say_so() {
        let (_keep, root) = folder(&["knotwright.toml", "a/b/x.knot", "a/c/knotwright.toml", "a/c/d/y.knot"]);
        assert_eq!(home(&root.join("a/b")).root, root);
        assert_eq!(home(&root.join("a/c/d")).root, root);
        fs::write(root.join("a/c/knotwright.toml"), "root = true\n").unwrap();
        assert_eq!(home(&root.join("a/c/d")).root, root.join("a/c"));
    }

    #[test]
    fn nearer_settings_add_to_those_above_them() {
        let (_keep, root) = folder(&["a/b/x.knot", "a/y.knot"]);
        let outer = "exclude = [\"*.old.knot\", \"*.tmp.knot\"]\n[rules]\nidle-strand = \"off\"\nuneven-use = \"off\"\n";
        fs::write(root.join(SETTINGS_FILE), outer).unwrap();
        let inner = "exclude = [\"!*.old.knot\"]\n[rules]\nidle-strand = \"error\"\n";
        fs::write(root.join("a/b").join(SETTINGS_FILE), inner).unwrap();
        assert_eq!(levels(&root.join("a/y.knot")), [("idle-strand", Level::Off), ("uneven-use", Level::Off)]);
        assert_eq!(
            levels(&root.join("a/b/x.knot")),
            [("idle-strand", Level::Error), ("uneven-use", Level::Off)]
        );
        let near = home(&root.join("a/b"));
        assert!(
            !near.excludes_file(&root.join("a/b/z.old.knot"))
                && near.excludes_file(&root.join("a/b/z.tmp.knot"))
        );
        assert!(home(&root.join("a")).excludes_file(&root.join("a/z.old.knot")));
        fs::write(root.join("a/b").join(SETTINGS_FILE), format!("root = true\n{inner}")).unwrap();
        assert_eq!(levels(&root.join("a/b/x.knot")), [("idle-strand", Level::Error)]);
        assert!(!home(&root.join("a/b")).excludes_file(&root.join("a/b/z.tmp.knot")));
    }

    #[test]
    fn folders_have_severities_of_their_own_and_the_last_word_counts() {
        let (_keep, root) = folder(&["archive/deep/x.knot", "archive/kept/y.knot", "z.knot"]);
        let text = "[rules]\nidle-strand = \"error\"\n\
                    [[folder]]\npaths = [\"archive/\"]\nrules = { idle-strand = \"off\" }\n\
                    [[folder]]\npaths = [\"/archive/kept\"]\nrules = { idle-strand = \"warning\" }\n";
        fs::write(root.join(SETTINGS_FILE), text).unwrap();
        for (path, level) in [
            ("z.knot", Level::Error),
            ("archive/deep/x.knot", Level::Off),
            ("archive/kept/y.knot", Level::Warning),
        ] {
            assert_eq!(levels(&root.join(path)), [("idle-strand", level)], "{path}");
        }
        fs::write(root.join("archive").join(SETTINGS_FILE), "[rules]\nidle-strand = \"error\"\n").unwrap();
        assert_eq!(levels(&root.join("archive/deep/x.knot")), [("idle-strand", Level::Error)], "nearer");
    }

    #[test]
    fn one_workspace_reads_a_library_once_whatever_settings_lie_within() {
        let (_keep, root) = folder(&["knotwright.toml", "a/knotwright.toml", "a/x.knot", "fans.knot"]);
        fs::write(root.join("fans.knot"), "pattern \"Fans\"\n").unwrap();
        let homes = Homes::default();
        let open = |folder: &Path, path: &str| {
            let from = folder.join("x.knot").to_str().unwrap().to_owned();
            homes.of(folder, folder).unwrap().library.open(&from, path).unwrap()
        };
        assert!(Arc::ptr_eq(&open(&root, "fans.knot"), &open(&root.join("a"), "../fans.knot")));
    }

    #[test]
    fn there_is_room_for_so_many_globs_and_no_more() {
        let (_keep, root) = folder(&["x.knot"]);
        let write = |count: usize| {
            let globs = "\"a*\", ".repeat(count);
            fs::write(root.join(SETTINGS_FILE), format!("exclude = [{globs}]\n")).unwrap();
            Homes::default().of(&root, &root)
        };
        assert!(write(2000).is_ok());
        let error = write(2001).unwrap_err();
        assert!(error.reason.contains("2001 entries, and there is room for 2000"), "{error:?}");
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn settings_that_are_a_pipe_are_refused_and_not_waited_for() {
        let (_keep, root) = folder(&["x.knot"]);
        use rustix::fs::{CWD, FileType, Mode, mknodat};
        mknodat(CWD, root.join(SETTINGS_FILE), FileType::Fifo, Mode::from_raw_mode(0o600), 0).unwrap();
        let error = Homes::default().of(&root, &root).unwrap_err();
        assert!(error.reason.contains("neither a file nor a folder"), "{error:?}");
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
