//! Which files a change concerns: those that changed, those that use them, and those whose settings changed. No others
//! are tied.

use super::ReviewSides;
use crate::changed::uses_in;
use crate::git::{self, FileChange};
use knotwright_workspace::{Files, MARKDOWN_ENDING, PATTERN_ENDING, SETTINGS_FILE, folder_of, lexical};
use rayon::prelude::*;
use std::collections::{BTreeMap, HashMap, HashSet};
use std::path::{Path, PathBuf};

/// A file that is looked at. Paths lead from the root of the repository.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Concerned {
    /// Where it was, and where it is.
    pub(super) paths: [Option<String>; 2],
    pub(super) because: Because,
}

/// Why a file is looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Because {
    /// It changed itself.
    Changed,
    /// It uses this one, which changed.
    Uses(String),
    /// These settings changed.
    Settings(String),
}

/// The files that the change between two sides concerns, under `paths` or everywhere.
///
/// # Errors
/// In words: git is not there or cannot answer.
pub(super) fn concerned(sides: &ReviewSides, paths: &[PathBuf]) -> Result<Vec<Concerned>, String> {
    let to = sides.range.to.as_ref().map(|(commit, _)| commit.as_str());
    let changes = git::between(&sides.root, &sides.range.from, to)?;
    let mut concerned: BTreeMap<[Option<String>; 2], Because> = changes
        .iter()
        .filter(|change| [&change.before, &change.after].into_iter().flatten().any(|path| is_looked_at(path)))
        .map(|change| ([change.before.clone(), change.after.clone()], Because::Changed))
        .collect();
    if !changes.is_empty() {
        for (path, because) in untouched(sides, &changes)? {
            concerned.entry([Some(path.clone()), Some(path)]).or_insert(because);
        }
    }
    let is_meant =
        |path: &String| paths.is_empty() || paths.iter().any(|of| sides.absolute(path).starts_with(of));
    let all = concerned.into_iter().map(|(paths, because)| Concerned { paths, because });
    Ok(all.filter(|file| file.paths.iter().flatten().any(is_meant)).collect())
}

/// The files whose own text is as it was and that the changes concern, and why.
fn untouched(sides: &ReviewSides, changes: &[FileChange]) -> Result<Vec<(String, Because)>, String> {
    let changed: HashSet<&str> = changes
        .iter()
        .flat_map(|change| [&change.before, &change.after])
        .flatten()
        .map(String::as_str)
        .collect();
    let all = sides.paths()?;
    let others: Vec<&str> =
        all.iter().map(String::as_str).filter(|path| is_looked_at(path) && !changed.contains(path)).collect();
    let by_settings = others.iter().filter_map(|path| {
        let settings = changed.iter().filter(|settings| holds_for(settings, path));
        Some((path.to_string(), Because::Settings(settings.max_by_key(|path| path.len())?.to_string())))
    });
    let mut found: Vec<(String, Because)> = users(sides, &changed, &others);
    found.extend(by_settings);
    Ok(found)
}

/// Whether `settings` is the path of settings that hold for the file at `path`.
fn holds_for(settings: &str, path: &str) -> bool {
    let folder = settings.strip_suffix(SETTINGS_FILE);
    folder.is_some_and(|folder| (folder.is_empty() || folder.ends_with('/')) && path.starts_with(folder))
}

/// Those of `others` that use a changed file, by way of whatever number of files, each with that file.
fn users(sides: &ReviewSides, changed: &HashSet<&str>, others: &[&str]) -> Vec<(String, Because)> {
    let files = &*sides.files[1];
    let used = others
        .par_iter()
        .flat_map_iter(|path| used(files, &sides.absolute(path)).into_iter().map(move |used| (used, *path)));
    let mut users: HashMap<PathBuf, Vec<&str>> = HashMap::new();
    for (used, user) in used.collect::<Vec<_>>() {
        users.entry(used).or_default().push(user);
    }
    let mut found: BTreeMap<&str, String> = BTreeMap::new();
    let mut left: Vec<(PathBuf, String)> =
        changed.iter().map(|path| (sides.absolute(path), path.to_string())).collect();
    left.sort_unstable();
    while let Some((path, cause)) = left.pop() {
        for user in users.remove(&path).unwrap_or_default() {
            if !found.contains_key(user) {
                found.insert(user, cause.clone());
                left.push((sides.absolute(user), cause.clone()));
            }
        }
    }
    found.into_iter().map(|(path, cause)| (path.to_owned(), Because::Uses(cause))).collect()
}

/// Where the paths lead that the file at `path` uses.
fn used(files: &dyn Files, path: &Path) -> Vec<PathBuf> {
    let Ok(text) = files.read(path) else { return Vec::new() };
    let folder = folder_of(path);
    let place = |used: String| {
        let place = lexical(folder, &used);
        // What is gone is named as it would be, were it there.
        files.canonical(&place).unwrap_or(place)
    };
    uses_in(path, text).into_iter().map(place).collect()
}

/// Whether there may be patterns in the file at `path`. As in a walk of folders, hidden ones are left out.
fn is_looked_at(path: &str) -> bool {
    let ending = Path::new(path).extension().and_then(|ending| ending.to_str());
    matches!(ending, Some(PATTERN_ENDING | MARKDOWN_ENDING))
        && !path.split('/').any(|name| name.starts_with('.'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_hold_below_their_folder() {
        assert!(holds_for("knotwright.toml", "a.knot") && holds_for("knotwright.toml", "b/c.knot"));
        assert!(holds_for("b/knotwright.toml", "b/c/d.knot"));
        assert!(!holds_for("b/knotwright.toml", "bc.knot"));
        assert!(!holds_for("b/my-knotwright.toml", "b/a.knot"));
    }

    #[test]
    fn hidden_files_and_those_without_patterns_are_left_out() {
        assert!(is_looked_at("a.knot") && is_looked_at("b/c.md"));
        for path in ["a.txt", ".github/a.md", ".a.knot", "knot"] {
            assert!(!is_looked_at(path), "{path}");
        }
    }
}
