//! Where what was made goes: into a file, whole or not at all, or to the standard output.

use crate::terminal::{Failure, Out, Terminal};
use crate::whole;
use knotwright_workspace::{Homes, PATTERN_ENDING, folder_of, refusal};
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Writes `bytes` into a file, in place of what was there; without a file, to the standard output.
///
/// # Errors
/// It cannot be written, or it is a pattern, which nothing that is made from patterns may replace.
pub(crate) fn put(path: Option<&PathBuf>, bytes: &[u8], terminal: &Terminal) -> Result<(), Failure> {
    let Some(path) = path else {
        let mut out: Out = terminal.out();
        out.write_bytes(bytes)?;
        return out.flush();
    };
    let said =
        |reason: String| Failure::said(format_args!("{}: {reason}", knotwright_workspace::shown_path(path)));
    match path.metadata() {
        // A device or a pipe is written to; only a file can be replaced. What lies behind `/dev/stdout` was opened by
        // whoever started us.
        Ok(there) if !there.is_file() || path.starts_with("/dev") => fs::OpenOptions::new()
            .write(true)
            .open(path)
            .and_then(|mut file| file.write_all(bytes))
            .map_err(|error| said(format!("it cannot be written: {}", refusal(&error)))),
        _ => put_whole(path, bytes).map_err(said),
    }
}

fn put_whole(path: &Path, bytes: &[u8]) -> Result<(), String> {
    let target = match path.symlink_metadata() {
        Ok(_) => whole::behind_links(path, &tree(path))?,
        Err(_) => path.to_path_buf(),
    };
    if [path, &target].iter().any(|path| is_pattern(path)) {
        return Err("that is the name of a pattern; it is not written over".to_owned());
    }
    whole::put(&target, bytes, || Ok(()))
}

fn is_pattern(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(PATTERN_ENDING))
}

/// The workspace that `path` is in; what it is must be known only where links are followed.
fn tree(path: &Path) -> PathBuf {
    let folder = folder_of(path);
    let canonical = || folder.canonicalize().unwrap_or_else(|_| folder.to_path_buf());
    Homes::default().of(folder, folder).map_or_else(|_| canonical(), |home| home.root.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn the_file_that_a_link_leads_to_is_replaced_unless_it_is_a_pattern() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().unwrap();
        let (path, link) = (folder.path().join("band.svg"), folder.path().join("link.svg"));
        fs::write(&path, "one").unwrap();
        symlink(&path, &link).unwrap();
        put_whole(&link, b"two").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        let (pattern, disguise) = (folder.path().join("band.knot"), folder.path().join("other.svg"));
        fs::write(&pattern, "mine").unwrap();
        symlink(&pattern, &disguise).unwrap();
        assert!(put_whole(&disguise, b"two").unwrap_err().contains("name of a pattern"));
        assert_eq!(fs::read(&pattern).unwrap(), b"mine");
    }
}
