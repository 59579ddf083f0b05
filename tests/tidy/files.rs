//! The files that belong to the project.

use ignore::WalkBuilder;
use std::path::{Path, PathBuf};

/// The top folder of the checkout.
pub(crate) fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests/ has a parent").to_path_buf()
}

/// Every file that is under version control or about to be, and whose name ends so, as sorted paths from the top. It is the
/// files of `.gitignore` that say so, not git, which need not be there.
pub(crate) fn kept(ending: &str) -> Vec<PathBuf> {
    let mut walk = WalkBuilder::new(top());
    walk.hidden(false).parents(false).require_git(false).git_global(false).git_exclude(false);
    walk.filter_entry(|entry| entry.file_name() != ".git");
    let mut kept: Vec<PathBuf> = walk
        .build()
        .map(|entry| entry.expect("a folder of the checkout can be read"))
        .filter(|entry| entry.file_type().is_some_and(|kind| kind.is_file()))
        .filter(|entry| entry.file_name().to_string_lossy().ends_with(ending))
        .map(|entry| entry.path().strip_prefix(top()).expect("it is below the top").to_path_buf())
        .collect();
    kept.sort();
    kept
}

/// The text of a kept file; `None` if it is no text.
pub(crate) fn text(path: &Path) -> Option<String> {
    String::from_utf8(std::fs::read(top().join(path)).expect("a kept file can be read")).ok()
}

/// The sources of our crates without their tests: every path and text.
pub(crate) fn sources() -> impl Iterator<Item = (PathBuf, String)> {
    let is_source = |path: &PathBuf| {
        path.starts_with("crates") && path.iter().any(|part| part == "src") && !path.ends_with("tests.rs")
    };
    kept(".rs").into_iter().filter(is_source).map(|path| {
        let text = text(&path).expect("a source is text");
        let code = text.split("#[cfg(test)]").next().unwrap_or_default().to_owned();
        (path, code)
    })
}
