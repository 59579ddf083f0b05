//! The files of the workspace that are not open: motifs are used, and names stand, in them too. Of Markdown only those
//! with a pattern count.

use super::document::uses_others;
use super::snapshot::{Known, Setting, Since, Snapshot};
use super::{Text, file_of};
use knotwright_checker::Source;
use knotwright_workspace::{Homes, MARKDOWN_ENDING, PATTERN_ENDING, find_some, patterns};
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};
use tower_lsp::ls_types::Uri;

/// More files than these of either sort are not looked at; a workspace of so many patterns is none.
const MOST_FILES: usize = 5_000;

/// The files under some folders, read when they are first asked for.
#[derive(Debug, Default)]
pub(crate) struct Index {
    folders: Vec<PathBuf>,
    /// Files that were read before and have not changed; `None`, if no pattern stands in it.
    kept: HashMap<PathBuf, Option<Arc<Text>>>,
    read: OnceLock<Read>,
}

/// What was read.
#[derive(Debug, Clone, Default)]
struct Read {
    files: Vec<Indexed>,
    /// Where no pattern stands.
    others: Vec<PathBuf>,
}

/// A file.
#[derive(Debug, Clone)]
pub(crate) struct Indexed {
    /// Where it is.
    place: PathBuf,
    pub(crate) text: Arc<Text>,
    pub(crate) known: Arc<Known>,
}

impl Index {
    /// The files under these folders. The root of the disk, the home of a user and what holds them are too much.
    pub(crate) fn new(folders: impl IntoIterator<Item = PathBuf>) -> Self {
        let mut folders: Vec<PathBuf> = folders.into_iter().filter(|folder| is_fit(folder)).collect();
        folders.sort();
        folders.dedup();
        Self { folders, ..Self::default() }
    }

    /// Those under these documents, which are folders.
    pub(crate) fn of_uris<'u>(uris: impl IntoIterator<Item = &'u Uri>) -> Self {
        Self::new(uris.into_iter().filter_map(file_of))
    }

    /// The folders.
    pub(crate) fn folders(&self) -> &[PathBuf] {
        &self.folders
    }

    /// The same, after the files at these places have changed, come or gone.
    pub(crate) fn without(&self, changed: &HashSet<PathBuf>) -> Self {
        let read = self.read.get().into_iter();
        let with = read.clone().flat_map(|read| &read.files);
        let with = with.map(|file| (file.place.clone(), Some(Arc::clone(&file.text))));
        let without = read.flat_map(|read| &read.others).map(|place| (place.clone(), None));
        let kept = with.chain(without).filter(|(place, _)| !changed.contains(place)).collect();
        Self { folders: self.folders.clone(), kept, read: OnceLock::new() }
    }

    /// The same, after an open document has changed: what is known of files that may use it is forgotten.
    pub(crate) fn renewed(&self) -> Self {
        let read = self.read.get().map(|Read { files, others }| Read {
            files: files.iter().map(Indexed::renewed).collect(),
            others: others.clone(),
        });
        Self {
            folders: self.folders.clone(),
            kept: self.kept.clone(),
            read: read.map_or_else(OnceLock::new, OnceLock::from),
        }
    }

    /// The files, in the order of their names; the open ones may be among them, as they are saved.
    pub(crate) fn files(&self, homes: &Homes) -> &[Indexed] {
        let read = self.read.get_or_init(|| {
            let found = find_some(&self.folders, &[PATTERN_ENDING, MARKDOWN_ENDING], homes, MOST_FILES);
            let mut read = Read::default();
            for file in found.map(|finds| finds.files).unwrap_or_default() {
                match self.read(&file.path) {
                    Some(text) => read.files.push(Indexed { place: file.path, text, known: Arc::default() }),
                    None => read.others.push(file.path),
                }
            }
            read
        });
        &read.files
    }

    /// The files, if anybody has asked for them yet.
    pub(super) fn read_already(&self) -> &[Indexed] {
        self.read.get().map_or(&[], |read| &read.files)
    }

    /// All files as they stand in the editor, and what is open besides.
    pub(super) fn sources(&self, setting: &Setting) -> Vec<Arc<Source>> {
        let saved = self.files(&setting.homes).iter().map(|file| &file.text);
        let saved = saved.filter(|text| !setting.open.contains_key(&text.path));
        let mut sources: Vec<Arc<Source>> =
            setting.open.values().chain(saved).map(|text| Arc::clone(text.source())).collect();
        sources.sort_by(|one, other| one.path.cmp(&other.path));
        sources
    }

    /// The text of a file; `None` if it cannot be read or no pattern stands in it.
    fn read(&self, place: &Path) -> Option<Arc<Text>> {
        if let Some(kept) = self.kept.get(place) {
            return kept.clone();
        }
        let path = knotwright_workspace::shown(&place.canonicalize().ok()?);
        let text = knotwright_workspace::read(place).ok()?;
        let is_ours = Path::new(&path).extension().is_none_or(|ending| ending != MARKDOWN_ENDING)
            || !patterns(&text).is_empty();
        if is_ours { Some(Arc::new(Text::saved(&path, &text)?)) } else { None }
    }
}

impl Indexed {
    /// The file as a document.
    pub(crate) fn snapshot(&self, setting: &Setting) -> Snapshot {
        let (text, known) = (Arc::clone(&self.text), Arc::clone(&self.known));
        Snapshot { text, known, setting: setting.clone() }
    }

    /// The same, after a file has changed that it may use.
    fn renewed(&self) -> Self {
        let known = match self.text.is_page() {
            true if self.known.depends() => Arc::new(Known::after(Arc::clone(&self.known), Since::Files)),
            false if uses_others(self.text.source()) => Arc::default(),
            _ => Arc::clone(&self.known),
        };
        Self { known, ..self.clone() }
    }
}

/// Whether a folder is one that somebody keeps patterns in, and not half a disk.
fn is_fit(folder: &Path) -> bool {
    let home = std::env::home_dir().and_then(|home| home.canonicalize().ok());
    folder.parent().is_some() && !home.is_some_and(|home| home.starts_with(folder))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_a_disk_is_not_indexed() {
        let home = std::env::home_dir().unwrap();
        let index = Index::new([PathBuf::from("/"), home.clone(), home.join("patterns")]);
        assert_eq!(index.folders(), [home.join("patterns")]);
    }

    #[test]
    fn files_are_read_once_and_again_when_they_have_changed() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path().canonicalize().unwrap();
        for name in ["a.knot", "b.knot", "c.txt", "d.md"] {
            std::fs::write(root.join(name), "pattern \"Pier\"\n").unwrap();
        }
        let homes = Homes::default();
        let first = Index::new([root.clone()]);
        assert_eq!(first.files(&homes).len(), 2, "no pattern stands in the Markdown");
        std::fs::write(root.join("b.knot"), "pattern \"Quay\"\n").unwrap();
        let second = first.without(&HashSet::from([root.join("b.knot")]));
        let (one, other) = (first.files(&homes), second.files(&homes));
        assert!(Arc::ptr_eq(&one[0].text, &other[0].text));
        assert_eq!(other[1].text.rope.to_string(), "pattern \"Quay\"\n");
    }
}
