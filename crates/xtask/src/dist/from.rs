//! The files of the commit, apart from what else lies about.

use crate::run::{run, said, top};
use std::path::Path;

/// What everything is made from.
pub(super) struct Commit {
    pub(super) id: String,
    /// When it was made, in seconds since 1970: the time of all files.
    pub(super) epoch: String,
}

/// Puts the files of the commit into an empty folder.
pub(super) fn lay_out(source: &Path) -> Result<Commit, String> {
    if !said(&["git", "status", "--porcelain"])?.is_empty() {
        eprintln!("note: what is not committed is not handed out");
    }
    // That it was not there is as good.
    let _ = std::fs::remove_dir_all(source);
    std::fs::create_dir_all(source).map_err(|error| format!("{}: {error}", source.display()))?;
    let (archive, folder) = (format!("{}.tar", source.display()), source.display().to_string());
    run(&["git", "-C", &top().to_string_lossy(), "archive", "--output", &archive, "HEAD"])?;
    run(&["tar", "--extract", "--file", &archive, "--directory", &folder])?;
    std::fs::remove_file(&archive).map_err(|error| format!("{archive}: {error}"))?;
    let (id, epoch) = (said(&["git", "rev-parse", "HEAD"])?, said(&["git", "log", "-1", "--format=%ct"])?);
    Ok(Commit { id, epoch })
}
