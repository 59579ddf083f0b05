//! What one `knotwright.toml` says, ready to be asked about paths.

use ignore::gitignore::{Gitignore, GitignoreBuilder};
use knotwright_checker::{Levels, SettingsFile};
use std::path::{Path, PathBuf};

/// The settings of one folder, for it and all below.
#[derive(Debug)]
pub(crate) struct Layer {
    /// The folder, canonical.
    pub(crate) folder: PathBuf,
    /// Whether nothing above it counts.
    pub(crate) is_root: bool,
    /// How grave rules are for all files.
    pub(crate) levels: Levels,
    excluded: Gitignore,
    /// How grave they are for some, in the order in which they are written.
    some: Vec<(Gitignore, Levels)>,
}

/// The most globs of one file of settings. Each takes some 12 KB of memory, and is asked of every file.
const MOST_GLOBS: usize = 2000;

impl Layer {
    /// Understands the text of the settings in `folder`, which is canonical.
    ///
    /// # Errors
    /// What is wrong with it, in words.
    pub(crate) fn parse(folder: &Path, text: &str) -> Result<Self, String> {
        let file = SettingsFile::parse(text).map_err(|error| error.to_string())?;
        let count =
            file.folders.iter().map(|of| of.paths.len()).fold(file.exclude.len(), |sum, paths| sum + paths);
        if count > MOST_GLOBS {
            return Err(format!(
                "`exclude` and `paths` have {count} entries, and there is room for {MOST_GLOBS}: name folders in place of files"
            ));
        }
        let some = file.folders.into_iter().map(|of| Ok((globs(folder, &of.paths)?, of.levels)));
        Ok(Self {
            folder: folder.to_path_buf(),
            is_root: file.root,
            levels: file.levels,
            excluded: globs(folder, &file.exclude)?,
            some: some.collect::<Result<_, String>>()?,
        })
    }

    /// Whether this folder's settings exclude `path`, absolute and canonical, or bring it back; `None` if they say nothing
    /// of it.
    pub(crate) fn excludes(&self, path: &Path, is_folder: bool) -> Option<bool> {
        if !self.excludes_anything() || !path.starts_with(&self.folder) {
            return None;
        }
        match self.excluded.matched_path_or_any_parents(path, is_folder) {
            ignore::Match::None => None,
            found => Some(found.is_ignore()),
        }
    }

    pub(crate) fn excludes_anything(&self) -> bool {
        !self.excluded.is_empty()
    }

    /// Whether something holds for some files only.
    pub(crate) fn varies(&self) -> bool {
        !self.some.is_empty()
    }

    /// How grave rules are for the file at `path`, absolute and canonical; what is said later goes before.
    pub(crate) fn levels<'a>(&'a self, path: &'a Path) -> impl Iterator<Item = &'a Levels> {
        let is_meant = move |(globs, _): &&(Gitignore, Levels)| {
            path.starts_with(&self.folder) && globs.matched_path_or_any_parents(path, false).is_ignore()
        };
        std::iter::once(&self.levels).chain(self.some.iter().filter(is_meant).map(|(_, levels)| levels))
    }
}

fn globs(folder: &Path, patterns: &[String]) -> Result<Gitignore, String> {
    let mut globs = GitignoreBuilder::new(folder);
    for pattern in patterns {
        globs.add_line(None, pattern).map_err(|error| error.to_string())?;
    }
    globs.build().map_err(|error| error.to_string())
}
