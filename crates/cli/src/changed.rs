//! Which files a change concerns: those that changed, those that use them, and those whose settings changed.

use crate::git;
use knotwright_checker::Source;
use knotwright_grammar::tree::Import;
use knotwright_workspace::{FoundFile, SETTINGS_FILE, fenced_patterns, folder_of};
use rayon::prelude::*;
use std::collections::{BTreeSet, HashSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What changed in the repositories that some files are in.
#[derive(Debug, Default)]
pub(crate) struct GitChanges {
    /// Canonical as far as the files are still there.
    files: HashSet<PathBuf>,
    /// The folders of settings that changed, came or went.
    settings: Vec<PathBuf>,
}

impl GitChanges {
    /// What changed since `revision` in the repositories of `files`.
    ///
    /// # Errors
    /// In words: a file is in no repository, or the revision is none there.
    pub(crate) fn since(revision: &str, files: &[FoundFile]) -> Result<Self, String> {
        let folders: BTreeSet<PathBuf> = files.iter().map(|file| place(folder_of(&file.path))).collect();
        let mut roots: Vec<PathBuf> = Vec::new();
        let mut changes = Self::default();
        for folder in folders {
            // Asking once for each repository is enough.
            let nearest = folder.ancestors().find(|folder| folder.join(".git").exists());
            if nearest.is_some_and(|root| roots.iter().any(|known| known == root)) {
                continue;
            }
            let root = git::root(&folder)?;
            changes.take(git::changed(&root, revision)?);
            roots.push(root);
        }
        Ok(changes)
    }

    fn take(&mut self, paths: Vec<PathBuf>) {
        for path in paths {
            if path.file_name().is_some_and(|name| name == SETTINGS_FILE) {
                self.settings.push(folder_of(&path).to_path_buf());
            }
            self.files.insert(place(&path));
        }
    }

    /// Those of `files` that the change concerns, in order.
    pub(crate) fn among(&self, files: Vec<FoundFile>) -> Vec<FoundFile> {
        if self.files.is_empty() {
            return Vec::new();
        }
        files.into_par_iter().filter(|file| self.concern(file)).collect()
    }

    /// Those of `files` that changed themselves, in order.
    pub(crate) fn themselves_among(&self, mut files: Vec<FoundFile>) -> Vec<FoundFile> {
        files.retain(|file| self.files.contains(&place(&file.path)));
        files
    }

    fn concern(&self, file: &FoundFile) -> bool {
        let at = place(&file.path);
        self.files.contains(&at)
            || self.settings.iter().any(|folder| at.starts_with(folder))
            || self.concern_what_it_uses(&at)
    }

    /// Whether a file that is used, or one that is used there, changed. One that is gone counts as well.
    fn concern_what_it_uses(&self, at: &Path) -> bool {
        let (mut seen, mut left) = (HashSet::new(), used(at));
        while let Some(path) = left.pop() {
            if self.files.contains(&path) {
                return true;
            }
            if seen.insert(path.clone()) {
                left.extend(used(&path));
            }
        }
        false
    }
}

/// The files that the pattern, or the patterns of the Markdown file, at `path` use; none if it cannot be read.
fn used(path: &Path) -> Vec<PathBuf> {
    let Ok(text) = knotwright_workspace::read_text(path) else { return Vec::new() };
    let folder = folder_of(path);
    uses_in(path, text).into_iter().map(|used| place(&folder.join(used))).collect()
}

/// The paths, as they are written, that a text uses, the one at `path`.
pub(crate) fn uses_in(path: &Path, text: Arc<str>) -> Vec<String> {
    // Reading is quick, parsing is not; most files use no other.
    if !text.contains("use") {
        return Vec::new();
    }
    let is_markdown = path.extension().is_some_and(|ending| ending == knotwright_workspace::MARKDOWN_ENDING);
    let texts = if is_markdown {
        fenced_patterns(&text).into_iter().map(|of| Arc::from(of.text)).collect()
    } else {
        vec![text]
    };
    texts.into_iter().flat_map(uses).collect()
}

fn uses(text: Arc<str>) -> Vec<String> {
    named_by(&Source::new("", text))
}

/// The paths after `use ... from`.
pub(crate) fn named_by(source: &Source) -> Vec<String> {
    let uses = source.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Import>());
    uses.map(|import| import.path.value.clone()).collect()
}

/// Where a path leads. What is gone is named as it would be, were it there: the nearest folder that is left, and the
/// rest with every `..` taken literally.
fn place(path: &Path) -> PathBuf {
    let mut gone = Vec::new();
    for folder in path.ancestors() {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        if let Ok(mut found) = folder.canonicalize() {
            gone.into_iter().rev().for_each(|name| match name {
                std::path::Component::ParentDir => _ = found.pop(),
                name => found.push(name),
            });
            return found;
        }
        gone.extend(folder.components().next_back());
    }
    path.to_path_buf()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_gone_is_named_as_if_it_were_there() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path().canonicalize().unwrap();
        std::fs::create_dir(root.join("bands")).unwrap();
        for (path, is) in [
            ("bands/../motifs.knot", "motifs.knot"),
            ("bands/./gone/shell.knot", "bands/gone/shell.knot"),
            ("gone/../bands/a.knot", "bands/a.knot"),
            ("bands", "bands"),
        ] {
            assert_eq!(place(&root.join(path)), root.join(is), "{path}");
        }
    }
}
