//! Files are replaced whole or not at all.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::Path;

/// Puts `new` in the place of `old`. Whoever reads the file sees one or the other, also if the machine stops
/// half-way. Permissions are kept; of a symbolic link, the file it leads to is replaced and the link stays.
///
/// # Errors
/// In words, if it cannot be done, the file is write-protected, or it no longer reads `old`: then it was changed
/// while we worked, and that change must not be lost.
pub(crate) fn replace(path: &Path, old: &str, new: &str) -> Result<(), String> {
    let write = || -> io::Result<Result<(), String>> {
        let path = path.canonicalize()?;
        let permissions = fs::metadata(&path)?.permissions();
        if permissions.readonly() {
            return Ok(Err("it is write-protected; nothing was written".to_owned()));
        }
        if fs::read(&path)? != old.as_bytes() {
            return Ok(Err("it was changed by someone else meanwhile; nothing was written".to_owned()));
        }
        let folder = path.parent().unwrap_or(Path::new("."));
        let mut file = tempfile::Builder::new().prefix(".knotwright-").tempfile_in(folder)?;
        file.write_all(new.as_bytes())?;
        file.as_file().set_permissions(permissions)?;
        file.as_file().sync_all()?;
        file.persist(&path)?;
        Ok(Ok(()))
    };
    write().map_err(|error| format!("it cannot be written: {error}")).flatten()
}

/// Makes a new file.
///
/// # Errors
/// In words, if it cannot be made or something of that name is there already.
pub(crate) fn create(path: &Path, text: &str) -> Result<(), String> {
    let write = || {
        let mut file = File::create_new(path)?;
        file.write_all(text.as_bytes()).inspect_err(|_| drop(fs::remove_file(path)))
    };
    write().map_err(|error: io::Error| match error.kind() {
        io::ErrorKind::AlreadyExists => {
            "there is already something of that name; nothing was written".to_owned()
        }
        io::ErrorKind::NotFound => "there is no such folder to put it in".to_owned(),
        _ => format!("it cannot be written: {error}"),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(text: &str) -> (tempfile::TempDir, std::path::PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("band.knot");
        fs::write(&path, text).unwrap();
        (folder, path)
    }

    #[test]
    fn a_change_by_someone_else_is_not_lost() {
        let (folder, path) = file("changed");
        assert!(replace(&path, "old", "new").unwrap_err().contains("meanwhile"));
        assert_eq!(fs::read_to_string(&path).unwrap(), "changed");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left lying about");
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_are_kept() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let (folder, path) = file("old");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        let link = folder.path().join("link.knot");
        symlink(&path, &link).unwrap();
        replace(&link, "old", "new").unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    }

    #[test]
    fn a_write_protected_file_is_left_alone() {
        let (_folder, path) = file("old");
        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
        assert!(replace(&path, "old", "new").unwrap_err().contains("write-protected"));
        assert_eq!(fs::read_to_string(&path).unwrap(), "old");
    }

    #[test]
    fn a_new_file_takes_no_other_ones_place() {
        let (folder, path) = file("old");
        assert!(create(&path, "new").unwrap_err().contains("already"));
        assert_eq!(fs::read_to_string(&path).unwrap(), "old");
        assert!(create(&folder.path().join("none/a.knot"), "new").unwrap_err().contains("no such folder"));
    }
}
