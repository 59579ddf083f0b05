//! The files of the workspace that are not open: motifs are used, and names stand, in them too. Of Markdown only those
//! with a pattern count.

use super::version::{Since, Version};
use super::{DocumentText, Setting, Snapshot, file_of};
use knotwright_checker::Source;
use knotwright_grammar::Parsed;
use knotwright_workspace::{Homes, MARKDOWN_ENDING, PATTERN_ENDING, fenced_patterns, find_some};
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};
use tower_lsp::ls_types::Uri;

/// More files than these of either sort are not looked at; nobody keeps that many patterns in one workspace.
const MOST_FILES: usize = 5_000;

/// The files under some folders, read when they are first asked for.
#[derive(Debug, Default)]
pub(crate) struct Index {
    folders: Vec<PathBuf>,
    /// Files that were read before and have not changed; `None`, if no pattern stands in it.
    kept: HashMap<PathBuf, Option<Version>>,
    read: OnceLock<IndexContents>,
}

/// What was read.
#[derive(Debug, Clone, Default)]
struct IndexContents {
    files: Vec<Indexed>,
    /// Where no pattern stands.
    others: Vec<PathBuf>,
}

/// A file.
#[derive(Debug, Clone)]
pub(crate) struct Indexed {
    /// Where it is.
    place: PathBuf,
    pub(crate) version: Version,
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

    /// The index after the files at these places have changed, come or gone.
    pub(crate) fn without(&self, changed: &HashSet<PathBuf>) -> Self {
        let read = self.read.get().into_iter();
        let with = read.clone().flat_map(|read| &read.files);
        let with = with.map(|file| (file.place.clone(), Some(file.version.renewed(Since::Settings))));
        let without = read.flat_map(|read| &read.others).map(|place| (place.clone(), None));
        let kept = with.chain(without).filter(|(place, _)| !changed.contains(place)).collect();
        Self { folders: self.folders.clone(), kept, read: OnceLock::new() }
    }

    /// The index after an open document has changed: what is known of files that may use it is forgotten.
    pub(crate) fn renewed(&self) -> Self {
        let read = self.read.get().map(|IndexContents { files, others }| IndexContents {
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
            let mut read = IndexContents::default();
            for file in found.map(|finds| finds.files).unwrap_or_default() {
                match self.read(&file.path) {
                    Some(version) => read.files.push(Indexed { place: file.path, version }),
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

    /// All files as they are in the editor, and what is open besides.
    pub(super) fn sources(&self, setting: &Setting) -> Vec<Arc<Source>> {
        let versions = self.versions(setting);
        let mut sources: Vec<Arc<Source>> = versions.map(|version| Arc::clone(version.source())).collect();
        sources.sort_by(|one, other| one.path.cmp(&other.path));
        sources
    }

    /// The pages among them, each as one source: with the statements of all its patterns, where they stand in the page.
    pub(super) fn pages(&self, setting: &Setting) -> Vec<Arc<Source>> {
        let pages = self.versions(setting).filter(|version| version.text.is_page());
        pages.map(|version| Arc::new(of_page(&version.text))).collect()
    }

    fn versions<'v>(&'v self, setting: &'v Setting) -> impl Iterator<Item = &'v Version> {
        let saved = self.files(&setting.homes).iter().map(|file| &file.version);
        let saved = saved.filter(|version| !setting.open.contains_key(&version.text.path));
        setting.open.values().chain(saved)
    }

    /// The text of a file; `None` if it cannot be read or no pattern stands in it.
    fn read(&self, place: &Path) -> Option<Version> {
        if let Some(kept) = self.kept.get(place) {
            return kept.clone();
        }
        let path = knotwright_workspace::shown_path(&place.canonicalize().ok()?);
        let text = knotwright_workspace::read_text(place).ok()?;
        let is_ours = Path::new(&path).extension().is_none_or(|ending| ending != MARKDOWN_ENDING)
            || !fenced_patterns(&text).is_empty();
        if is_ours { Some(Version::new(DocumentText::saved(&path, &text)?)) } else { None }
    }
}

impl Indexed {
    /// The file as a document.
    pub(crate) fn snapshot(&self, setting: &Setting) -> Snapshot {
        Snapshot::new(self.version.clone(), setting.clone())
    }

    /// The file after another one has changed that it may use.
    fn renewed(&self) -> Self {
        let version =
            if self.version.depends() { self.version.renewed(Since::Files) } else { self.version.clone() };
        Self { place: self.place.clone(), version }
    }
}

fn of_page(page: &DocumentText) -> Source {
    let text = page.rope.to_string();
    let mut parsed = Parsed::default();
    for block in fenced_patterns(&text) {
        let read = knotwright_grammar::parse(&block.text).behind(block.place.start);
        parsed.tree.statements.extend(read.tree.statements);
    }
    Source::read(page.path.clone(), text, parsed)
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
        assert!(Arc::ptr_eq(&one[0].version.text, &other[0].version.text));
        assert_eq!(other[1].version.text.rope.to_string(), "pattern \"Quay\"\n");
    }
}
