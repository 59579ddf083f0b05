//! The files that git keeps.

use std::path::{Path, PathBuf};
use std::process::Command;

/// The top folder of the checkout.
pub(crate) fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests/ has a parent").to_path_buf()
}

/// Every file under version control (or about to be) whose name ends so, as paths from the top.
pub(crate) fn kept(ending: &str) -> Vec<PathBuf> {
    let listed = Command::new("git")
        .args(["ls-files", "-z", "--cached", "--others", "--exclude-standard"])
        .current_dir(top())
        .output()
        .expect("git lists the files");
    assert!(listed.status.success(), "git ls-files failed");
    String::from_utf8_lossy(&listed.stdout)
        .split('\0')
        .filter(|name| !name.is_empty() && name.ends_with(ending))
        .map(PathBuf::from)
        .filter(|path| top().join(path).is_file())
        .collect()
}

/// The text of a kept file; `None` if it is no text.
pub(crate) fn text(path: &Path) -> Option<String> {
    String::from_utf8(std::fs::read(top().join(path)).expect("a kept file can be read")).ok()
}
