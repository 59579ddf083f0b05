//! Files are written whole or not at all, and stay what they are except for their text.

mod kept;
mod temporary;

use knotwright_workspace::refusal;
use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};
use temporary::Temporary;

/// Puts `bytes` into the file at `path`, which is no link. Whoever reads it sees the old text or the new, also if the
/// machine stops half-way. What else belongs to a file that is there (owner, permissions, extended attributes, further
/// names) stays.
///
/// Right before, `is_meant` is asked whether the file may still be replaced.
///
/// # Errors
/// In words, what cannot be done, or cannot be kept; then nothing was written.
pub(crate) fn put(
    path: &Path,
    bytes: &[u8],
    is_meant: impl FnOnce() -> Result<(), String>,
) -> Result<(), String> {
    let there = there(path)?;
    if let Some(there) = &there {
        replaceable(there)?;
    }
    let folder = knotwright_workspace::folder_of(path);
    let file = Temporary::new(folder, there.is_some()).map_err(not_written)?;
    file.write(bytes).map_err(not_written)?;
    if let Some(there) = &there {
        kept::keep(file.file(), path, there)?;
    }
    file.file().sync_all().map_err(not_written)?;
    is_meant()?;
    file.persist(path).map_err(not_written)
}

/// Writes what can be made again, in place of whatever is at `path`, a link included. It is not waited for until it is
/// safe on the disk.
///
/// # Errors
/// In words.
pub(crate) fn make(path: &Path, bytes: &[u8]) -> Result<(), String> {
    let file = Temporary::new(knotwright_workspace::folder_of(path), false).map_err(not_written)?;
    file.write(bytes).map_err(not_written)?;
    file.persist(path).map_err(not_written)
}

/// The file that is at `path` and is going to be replaced, behind a link if that leads to a place within `tree`,
/// which is canonical.
///
/// # Errors
/// In words: a link leads nowhere, or out of the tree.
pub(crate) fn behind_links(path: &Path, tree: &Path) -> Result<PathBuf, String> {
    let is_link = path.symlink_metadata().is_ok_and(|about| about.is_symlink());
    if !is_link {
        return path.canonicalize().map_err(not_written);
    }
    let target = path
        .canonicalize()
        .map_err(|_| "it is a symbolic link that leads to no file; nothing was written".to_owned())?;
    if target.starts_with(tree) {
        return Ok(target);
    }
    Err(format!(
        "it is a symbolic link out of its workspace, to {0}; nothing was written; if that file is meant, name it itself",
        knotwright_workspace::shown_path(&target)
    ))
}

fn there(path: &Path) -> Result<Option<Metadata>, String> {
    match path.symlink_metadata() {
        Ok(about) => Ok(Some(about)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(not_written(error)),
    }
}

fn replaceable(there: &Metadata) -> Result<(), String> {
    if !there.is_file() {
        return Err(
            "it is a folder, a pipe or a device, and cannot be replaced; nothing was written".to_owned()
        );
    }
    if there.permissions().readonly() {
        return Err("it is write-protected; nothing was written".to_owned());
    }
    match kept::names(there) {
        0 | 1 => Ok(()),
        names => Err(format!(
            "it goes by {names} names (hard links), and would be another file under one of them; nothing was written"
        )),
    }
}

fn not_written(error: io::Error) -> String {
    format!("it cannot be written: {}", refusal(&error))
}

/// Makes a new file.
///
/// # Errors
/// In words, if it cannot be made or something of that name is there already.
pub(crate) fn create(path: &Path, text: &str) -> Result<(), String> {
    let write = || {
        let mut file = fs::File::create_new(path)?;
        io::Write::write_all(&mut file, text.as_bytes()).inspect_err(|_| drop(fs::remove_file(path)))
    };
    write().map_err(|error: io::Error| match error.kind() {
        io::ErrorKind::AlreadyExists => "a file of that name already exists; nothing was written".to_owned(),
        io::ErrorKind::NotFound => "its folder does not exist".to_owned(),
        _ => not_written(error),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(text: &str) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().canonicalize().unwrap().join("band.knot");
        fs::write(&path, text).unwrap();
        (folder, path)
    }

    fn write(path: &Path, text: &str) -> Result<(), String> {
        put(path, text.as_bytes(), || Ok(()))
    }

    fn names(folder: &Path) -> usize {
        fs::read_dir(folder).unwrap().count()
    }

    #[test]
    fn a_file_is_replaced_whole_and_nothing_is_left_lying_about() {
        let (folder, path) = file("one");
        write(&path, "two").unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "two");
        write(&path.with_extension("svg"), "new").unwrap();
        assert!(put(&path, b"three", || Err("not now".to_owned())).is_err());
        assert_eq!(fs::read_to_string(&path).unwrap(), "two");
        assert_eq!(names(folder.path()), 2);
        assert!(write(&folder.path().join("none/band.svg"), "one").is_err());
    }

    #[test]
    fn a_write_protected_file_is_left_alone() {
        let (_folder, path) = file("old");
        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
        assert!(write(&path, "new").unwrap_err().contains("write-protected"));
        assert_eq!(fs::read_to_string(&path).unwrap(), "old");
    }

    #[test]
    fn a_new_file_takes_no_other_ones_place() {
        let (folder, path) = file("old");
        assert!(create(&path, "new").unwrap_err().contains("already"));
        assert_eq!(fs::read_to_string(&path).unwrap(), "old");
        assert!(create(&folder.path().join("none/a.knot"), "new").unwrap_err().contains("does not exist"));
    }

    #[cfg(unix)]
    #[test]
    fn permissions_are_kept_and_hard_links_are_not_parted() {
        use std::os::unix::fs::PermissionsExt;
        let (folder, path) = file("old");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        write(&path, "new").unwrap();
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        fs::hard_link(&path, folder.path().join("other.knot")).unwrap();
        assert!(write(&path, "newer").unwrap_err().contains("2 names"));
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
        assert_eq!(names(folder.path()), 2);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_followed_within_its_tree_only() {
        use std::os::unix::fs::symlink;
        let (folder, path) = file("old");
        let inner = folder.path().canonicalize().unwrap().join("inner");
        fs::create_dir(&inner).unwrap();
        let (link, lost) = (inner.join("link.knot"), inner.join("lost.knot"));
        symlink(&path, &link).unwrap();
        symlink("nowhere.knot", &lost).unwrap();
        assert_eq!(behind_links(&link, path.parent().unwrap()), Ok(path.clone()));
        assert!(behind_links(&link, &inner).unwrap_err().contains("band.knot"));
        assert!(behind_links(&lost, &inner).unwrap_err().contains("leads to no file"));
        assert_eq!(behind_links(&path, &inner), Ok(path), "it is no link, and was named");
    }

    /// As the `setfattr` and `getfattr` of others see it; a file system without such attributes has nothing to keep.
    #[cfg(target_os = "linux")]
    #[test]
    fn extended_attributes_are_kept() {
        let (_folder, path) = file("old");
        let set = |name: &str, value: &[u8]| {
            rustix::fs::setxattr(&path, name, value, rustix::fs::XattrFlags::empty())
        };
        if set("user.tide", b"low").is_err() {
            return;
        }
        set("user.empty", b"").unwrap();
        write(&path, "new").unwrap();
        let mut value = Vec::with_capacity(16);
        rustix::fs::getxattr(&path, "user.tide", rustix::buffer::spare_capacity(&mut value)).unwrap();
        assert_eq!(value, b"low");
        assert_eq!(rustix::fs::getxattr(&path, "user.empty", &mut [0_u8; 4][..]), Ok(0));
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
    }

    /// Only those who may give files away can try it; who may not has none to give back.
    #[cfg(unix)]
    #[test]
    fn the_owner_is_kept() {
        use std::os::unix::fs::{MetadataExt, chown};
        let (_folder, path) = file("old");
        if chown(&path, Some(12_345), Some(54_321)).is_err() {
            return;
        }
        write(&path, "new").unwrap();
        let about = fs::metadata(&path).unwrap();
        assert_eq!((about.uid(), about.gid()), (12_345, 54_321));
    }

    #[test]
    fn what_a_killed_run_left_behind_is_swept_and_what_a_living_one_writes_is_not() {
        let (folder, path) = file("old");
        let leftover = folder.path().join(".knotwright-a1B2c3");
        fs::write(&leftover, "half a te").unwrap();
        fs::write(folder.path().join(".knotwright-notes"), "mine").unwrap();
        let living = Temporary::new(folder.path(), false).unwrap();
        write(&path, "new").unwrap();
        assert!(!leftover.exists());
        assert_eq!(names(folder.path()), 3, "the band, the notes, and what is being written");
        living.persist(&folder.path().join("other.knot")).unwrap();
        assert_eq!(names(folder.path()), 3);
    }
}
