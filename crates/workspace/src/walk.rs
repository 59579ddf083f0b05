//! From what was typed, files and folders, to the files that are meant.

use crate::refusal::without_numbers;
use crate::{Home, HomeError, Homes, ReadError};
use ignore::{DirEntry, WalkBuilder};
use knotwright_checker::Settings;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, mpsc};

/// The ending of pattern files.
pub const PATTERN_ENDING: &str = "knot";

/// The ending of Markdown files.
pub const MARKDOWN_ENDING: &str = "md";

/// A file that is meant.
#[derive(Debug, Clone)]
pub struct FoundFile {
    /// Where it is.
    pub path: PathBuf,
    /// Its name as shown to people.
    pub shown: String,
    /// Its workspace.
    pub home: Arc<Home>,
    /// Whether it was named itself, and not found in a folder.
    pub named: bool,
}

impl FoundFile {
    /// Whether it is a Markdown file, with patterns in fenced blocks.
    pub fn is_markdown(&self) -> bool {
        has_ending(&self.path, MARKDOWN_ENDING)
    }

    /// The settings that hold for it.
    pub fn settings(&self) -> Arc<Settings> {
        self.home.settings(&self.path)
    }
}

/// All that was found.
#[derive(Debug, Default)]
pub struct Finds {
    /// The files, in the order of their names, each once.
    pub files: Vec<FoundFile>,
    /// Files and folders that cannot be had, and why.
    pub lost: Vec<(String, ReadError)>,
}

/// Looks up what was typed. A file that was named is taken whatever its ending; folders are walked for files with
/// one of `endings`. Hidden files, what `.gitignore` names and what the settings exclude is left out of a walk,
/// and symbolic links are not followed.
///
/// # Errors
/// The settings of one of the workspaces cannot be read.
pub fn find_files(typed: &[PathBuf], endings: &[&str], homes: &Homes) -> Result<Finds, HomeError> {
    find_some(typed, endings, homes, usize::MAX)
}

/// [`find_files`], but no more than `most` files of each ending: whoever walks folders that nobody has chosen must end somewhere.
/// Nor are more than a hundred times as many files looked at.
///
/// # Errors
/// As [`find_files`].
pub fn find_some(
    typed: &[PathBuf],
    endings: &[&str],
    homes: &Homes,
    most: usize,
) -> Result<Finds, HomeError> {
    let looks = most.saturating_mul(100);
    let endings = endings.iter().map(|ending| (*ending, most)).collect();
    let mut search = FileSearch { endings, homes, looks, known: HashMap::new(), finds: Finds::default() };
    for path in typed {
        match path.metadata() {
            Ok(about) if about.is_dir() => search.walk(path)?,
            Ok(_) => search.take(path.clone(), folder_of(path), true)?,
            Err(error) => search.finds.lost.push((crate::shown_path(path), error.into())),
        }
    }
    let mut finds = search.finds;
    finds.files.sort_unstable_by(|one, other| one.shown.cmp(&other.shown).then(other.named.cmp(&one.named)));
    finds.files.dedup_by(|later, first| later.shown == first.shown);
    Ok(finds)
}

/// The folder that a file is in.
pub fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

struct FileSearch<'a> {
    /// What is looked for, and how many more of each.
    endings: Vec<(&'a str, usize)>,
    homes: &'a Homes,
    /// How many more are looked at.
    looks: usize,
    /// By folder as it is spelled.
    known: HashMap<PathBuf, Arc<Home>>,
    finds: Finds,
}

impl FileSearch<'_> {
    fn walk(&mut self, folder: &Path) -> Result<(), HomeError> {
        let home = self.home(folder, folder)?;
        let place = Arc::new(FolderPlace { typed: folder.to_path_buf(), canonical: canonical(folder) });
        if let Some(pipe) = canonical(folder).ancestors().find_map(special_ignore) {
            self.finds.lost.push((crate::shown_path(&pipe), ReadError::Special));
            return Ok(());
        }
        let (outer, of) = (Arc::clone(&home), Arc::clone(&place));
        let (pipes, found) = mpsc::channel();
        let walk = WalkBuilder::new(folder)
            .standard_filters(false)
            .hidden(true)
            .parents(true)
            .git_ignore(true)
            .require_git(false)
            // Files are looked at below: settings that lie nearer may bring them back.
            .filter_entry(move |entry| {
                !is_folder(entry) || of.keeps(entry, &outer) && !is_blocked(entry, &pipes)
            })
            .build();
        for entry in walk {
            if self.looks == 0 || self.endings.iter().all(|(_, left)| *left == 0) {
                break;
            }
            self.looks -= 1;
            match entry {
                Ok(entry) if self.is_wanted(&entry) => {
                    // A folder within may have settings, and excludes, of its own.
                    let home = self.home(folder_of(entry.path()), folder)?;
                    if place.keeps(&entry, &home) && self.has_room(&entry) {
                        self.take(entry.into_path(), folder, false)?;
                    }
                }
                Ok(_) => {}
                Err(error) => self.lose(folder, error),
            }
        }
        self.finds
            .lost
            .extend(found.try_iter().map(|pipe: PathBuf| (crate::shown_path(&pipe), ReadError::Special)));
        Ok(())
    }

    fn is_wanted(&self, entry: &DirEntry) -> bool {
        entry.file_type().is_some_and(|kind| kind.is_file())
            && self.endings.iter().any(|(ending, _)| has_ending(entry.path(), ending))
    }

    /// Whether one more such file is taken.
    fn has_room(&mut self, entry: &DirEntry) -> bool {
        let of = self.endings.iter_mut().find(|(ending, left)| *left > 0 && has_ending(entry.path(), ending));
        of.map(|(_, left)| *left -= 1).is_some()
    }

    fn take(&mut self, path: PathBuf, given: &Path, named: bool) -> Result<(), HomeError> {
        let Some(shown) = path.to_str().map(|_| crate::shown_path(&path)) else {
            self.finds.lost.push((crate::shown_path(&path), ReadError::Name));
            return Ok(());
        };
        let home = self.home(folder_of(&path), given)?;
        self.finds.files.push(FoundFile { path, shown, home, named });
        Ok(())
    }

    fn home(&mut self, folder: &Path, given: &Path) -> Result<Arc<Home>, HomeError> {
        if let Some(home) = self.known.get(folder) {
            return Ok(Arc::clone(home));
        }
        let home = self.homes.of(folder, given)?;
        self.known.insert(folder.to_path_buf(), Arc::clone(&home));
        Ok(home)
    }

    fn lose(&mut self, folder: &Path, error: ignore::Error) {
        let path = match &error {
            ignore::Error::WithPath { path, .. } => path.clone(),
            ignore::Error::WithDepth { err, .. } if let ignore::Error::WithPath { path, .. } = &**err => {
                path.clone()
            }
            _ => folder.to_path_buf(),
        };
        let words = without_numbers(&error.to_string());
        let reason = error.into_io_error().map_or(ReadError::Other(words), ReadError::from);
        self.finds.lost.push((crate::shown_path(&path), reason));
    }
}

/// A folder as it was typed, and where it is.
struct FolderPlace {
    typed: PathBuf,
    canonical: PathBuf,
}

impl FolderPlace {
    /// Whether the settings of `home` leave `entry`, found in this folder, in. The folder itself is meant, even if
    /// its own settings exclude it.
    fn keeps(&self, entry: &DirEntry, home: &Home) -> bool {
        if !home.excludes_anything() || entry.depth() == 0 {
            return true;
        }
        let Ok(rest) = entry.path().strip_prefix(&self.typed) else { return true };
        !home.excludes(&self.canonical.join(rest), is_folder(entry))
    }
}

/// The `.gitignore` of a folder, if it is neither a file nor a folder: whoever opens a pipe waits without end.
fn special_ignore(folder: &Path) -> Option<PathBuf> {
    let path = folder.join(".gitignore");
    path.metadata().is_ok_and(|about| !about.is_file() && !about.is_dir()).then_some(path)
}

/// Whether a folder cannot be walked for its `.gitignore`, which is handed over then.
fn is_blocked(folder: &DirEntry, pipes: &mpsc::Sender<PathBuf>) -> bool {
    let pipe = special_ignore(folder.path());
    // If nobody takes it any more, the walk has ended.
    pipe.map(|pipe| pipes.send(pipe).is_ok()).is_some()
}

fn is_folder(entry: &DirEntry) -> bool {
    entry.file_type().is_some_and(|kind| kind.is_dir())
}

fn canonical(folder: &Path) -> PathBuf {
    folder.canonicalize().unwrap_or_else(|_| folder.to_path_buf())
}

fn has_ending(path: &Path, ending: &str) -> bool {
    path.extension().is_some_and(|found| found == ending)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    /// The names, without the folder, of what a walk of a folder with these files finds.
    fn walk(files: &[(&str, &str)]) -> Vec<String> {
        let folder = tempfile::tempdir().unwrap();
        for (path, text) in files {
            let path = folder.path().join(path);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        let typed = [folder.path().to_path_buf(), folder.path().join("a.knot")];
        let finds = find_files(&typed, &[PATTERN_ENDING, MARKDOWN_ENDING], &Homes::default()).unwrap();
        let root = crate::shown_path(folder.path()) + "/";
        finds.files.iter().map(|file| file.shown.strip_prefix(&root).unwrap().to_owned()).collect()
    }

    #[test]
    fn a_walk_is_in_order_and_takes_each_file_once() {
        assert_eq!(
            walk(&[("b/c.knot", ""), ("a.knot", ""), ("b/a.md", ""), ("b/a.txt", "")]),
            ["a.knot", "b/a.md", "b/c.knot"]
        );
    }

    #[test]
    fn what_is_hidden_ignored_or_excluded_stays_out() {
        let files = [
            (".gitignore", "/build\n*.old.knot\n"),
            ("knotwright.toml", "exclude = [\"drafts/\"]\n"),
            ("a.knot", ""),
            (".hidden/a.knot", ""),
            ("build/a.knot", ""),
            ("a.old.knot", ""),
            ("drafts/deep/a.knot", ""),
            ("inner/knotwright.toml", "exclude = [\"trials/*\"]\n"),
            ("inner/trials/a.knot", ""),
            ("inner/b.knot", ""),
        ];
        assert_eq!(walk(&files), ["a.knot", "inner/b.knot"]);
    }

    #[test]
    fn a_file_that_is_named_is_meant_even_if_it_is_excluded() {
        assert_eq!(walk(&[("a.knot", ""), ("knotwright.toml", "exclude = [\"*.knot\"]\n")]), ["a.knot"]);
    }

    #[test]
    fn a_walk_ends_when_there_is_enough() {
        let folder = tempfile::tempdir().unwrap();
        for name in 0..9 {
            fs::write(folder.path().join(format!("{name}.knot")), "").unwrap();
            fs::write(folder.path().join(format!("{name}.md")), "").unwrap();
        }
        let typed = [folder.path().to_path_buf()];
        let finds = find_some(&typed, &[PATTERN_ENDING, MARKDOWN_ENDING], &Homes::default(), 4).unwrap();
        let pages = finds.files.iter().filter(|file| file.is_markdown()).count();
        assert_eq!((finds.files.len(), pages), (8, 4), "four of either sort");
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn folders_whose_list_of_ignored_files_is_a_pipe_are_left_out_and_told_of() {
        use rustix::fs::{CWD, FileType, Mode, mknodat};
        let folder = tempfile::tempdir().unwrap();
        for inner in ["closed", "open"] {
            fs::create_dir(folder.path().join(inner)).unwrap();
            fs::write(folder.path().join(inner).join("a.knot"), "").unwrap();
        }
        let pipe = folder.path().join("closed/.gitignore");
        mknodat(CWD, &pipe, FileType::Fifo, Mode::from_raw_mode(0o600), 0).unwrap();
        for (typed, files) in [(folder.path().to_path_buf(), 1), (folder.path().join("closed"), 0)] {
            let finds = find_files(&[typed], &[PATTERN_ENDING], &Homes::default()).unwrap();
            assert_eq!(finds.files.len(), files);
            let [(lost, ReadError::Special)] = &finds.lost[..] else { panic!("{:?}", finds.lost) };
            assert!(lost.ends_with("closed/.gitignore"), "{lost}");
        }
    }

    #[test]
    fn what_is_not_there_is_reported_and_the_rest_is_found() {
        let finds =
            find_files(&[PathBuf::from("none-such.knot")], &[PATTERN_ENDING], &Homes::default()).unwrap();
        assert_eq!(finds.lost, [("none-such.knot".to_owned(), ReadError::Missing)]);
    }
}
