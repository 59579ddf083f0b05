//! Where what was made goes: into a file, whole or not at all, or to the standard output.

use crate::terminal::{Failure, Out, Terminal};
use std::fs;
use std::io::{self, Write};
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
    let shown = knotwright_workspace::shown(path);
    if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("knot")) {
        return Err(Failure::said(format_args!(
            "{shown}: that is the name of a pattern; it is not written over"
        )));
    }
    put_whole(path, bytes)
        .map_err(|error| Failure::said(format_args!("{shown}: it cannot be written: {error}")))
}

fn put_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let there = fs::metadata(path).ok();
    // A device or a pipe is written to; only a file can be replaced.
    if there.as_ref().is_some_and(|there| !there.is_file()) {
        return fs::OpenOptions::new().write(true).open(path)?.write_all(bytes);
    }
    let target = if there.is_some() { path.canonicalize()? } else { path.to_path_buf() };
    let folder = match target.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(".knotwright-");
    let mut file = new_file(&mut builder).tempfile_in(folder)?;
    file.write_all(bytes)?;
    if let Some(there) = there {
        if there.permissions().readonly() {
            return Err(io::Error::new(io::ErrorKind::PermissionDenied, "it is write-protected"));
        }
        file.as_file().set_permissions(there.permissions())?;
    }
    file.as_file().sync_all()?;
    file.persist(&target)?;
    Ok(())
}

/// A new file may be read by whoever may read new files here.
#[cfg(unix)]
fn new_file<'a, 'b, 'c>(builder: &'a mut tempfile::Builder<'b, 'c>) -> &'a mut tempfile::Builder<'b, 'c> {
    use std::os::unix::fs::PermissionsExt;
    builder.permissions(fs::Permissions::from_mode(0o666))
}

#[cfg(not(unix))]
fn new_file<'a, 'b, 'c>(builder: &'a mut tempfile::Builder<'b, 'c>) -> &'a mut tempfile::Builder<'b, 'c> {
    builder
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_replaced_whole() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("band.svg");
        put_whole(&path, b"one").unwrap();
        put_whole(&path, b"two").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left lying about");
        assert!(put_whole(&folder.path().join("none/band.svg"), b"one").is_err());
    }

    #[cfg(unix)]
    #[test]
    fn the_file_that_a_link_leads_to_is_replaced_and_keeps_its_permissions() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let (path, link) = (folder.path().join("band.svg"), folder.path().join("link.svg"));
        fs::write(&path, "one").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        symlink(&path, &link).unwrap();
        put_whole(&link, b"two").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    }
}
