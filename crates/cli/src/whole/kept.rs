//! What belongs to a file besides its text, and is kept when another takes its place.

use knotwright_workspace::refusal;
use std::fs::{File, Metadata};
use std::io;
use std::path::Path;

/// Gives `file`, which is going to take the place of `there` at `path`, its owner, its extended attributes (access lists
/// are among them) and its permissions.
///
/// # Errors
/// In words, what cannot be kept.
pub(super) fn keep(file: &File, path: &Path, there: &Metadata) -> Result<(), String> {
    owner(file, there)?;
    attributes::keep(file, path)?;
    // Last: a new owner, and an access list, change them.
    file.set_permissions(there.permissions()).map_err(|error| lost("its permissions", error))
}

/// By how many names a file goes.
#[cfg(unix)]
pub(super) fn names(there: &Metadata) -> u64 {
    std::os::unix::fs::MetadataExt::nlink(there)
}

/// Elsewhere it is not known.
#[cfg(not(unix))]
pub(super) fn names(_there: &Metadata) -> u64 {
    1
}

#[cfg(unix)]
fn owner(file: &File, there: &Metadata) -> Result<(), String> {
    use std::os::unix::fs::{MetadataExt, fchown};
    let new = file.metadata().map_err(|error| lost("its owner", error))?;
    let (owner, group) = (there.uid(), there.gid());
    let owner = (new.uid() != owner).then_some(owner);
    let group = (new.gid() != group).then_some(group);
    if owner.is_none() && group.is_none() {
        return Ok(());
    }
    let what = if owner.is_some() { "its owner" } else { "its group" };
    fchown(file, owner, group).map_err(|error| lost(what, error))
}

#[cfg(not(unix))]
fn owner(_file: &File, _there: &Metadata) -> Result<(), String> {
    Ok(())
}

fn lost(what: &str, error: impl Into<io::Error>) -> String {
    format!("{what} could not be kept ({}); nothing was written", refusal(&error.into()))
}

#[cfg(any(target_os = "linux", target_os = "macos"))]
mod attributes {
    use rustix::buffer::spare_capacity;
    use rustix::fs::{
        XattrFlags, fgetxattr, fremovexattr, fsetxattr, getxattr, getxattr_query, listxattr, listxattr_query,
    };
    use rustix::io::{Errno, Result};
    use std::fs::File;
    use std::path::Path;

    /// Room for attributes that come while we look.
    const ROOM: usize = 256;

    pub(super) fn keep(file: &File, path: &Path) -> std::result::Result<(), String> {
        let lost = |error: Errno| super::lost("its extended attributes", error);
        let names = listed(path).map_err(lost)?;
        remove_others(file, path, &names);
        for name in &names {
            let value = read(path, name).map_err(lost)?;
            let mut now = Vec::with_capacity(value.len() + ROOM);
            let is_so = fgetxattr(file, name.as_slice(), spare_capacity(&mut now)).is_ok() && now == value;
            if !is_so {
                fsetxattr(file, name.as_slice(), &value, XattrFlags::empty()).map_err(|error| {
                    let name = format!("its extended attribute `{}`", String::from_utf8_lossy(name));
                    super::lost(&name, error)
                })?;
            }
        }
        Ok(())
    }

    /// A folder may give every new file an access list; one that the file did not have must not come.
    fn remove_others(file: &File, path: &Path, names: &[Vec<u8>]) {
        let name = b"system.posix_acl_access";
        if !names.iter().any(|kept| kept == name) && getxattr_query(path, &name[..]).is_err() {
            let _ = fremovexattr(file, &name[..]);
        }
    }

    fn listed(path: &Path) -> Result<Vec<Vec<u8>>> {
        let length = match listxattr_query(path) {
            // A file system without such attributes has none to keep.
            Err(Errno::NOTSUP | Errno::NOSYS) => 0,
            length => length?,
        };
        if length == 0 {
            return Ok(Vec::new());
        }
        let mut list = Vec::with_capacity(length + ROOM);
        listxattr(path, spare_capacity(&mut list))?;
        Ok(list.split(|byte| *byte == 0).filter(|name| !name.is_empty()).map(<[u8]>::to_vec).collect())
    }

    fn read(path: &Path, name: &[u8]) -> Result<Vec<u8>> {
        let length = getxattr_query(path, name)?;
        let mut value = Vec::with_capacity(length + ROOM);
        getxattr(path, name, spare_capacity(&mut value))?;
        Ok(value)
    }
}

#[cfg(not(any(target_os = "linux", target_os = "macos")))]
mod attributes {
    use std::fs::File;
    use std::path::Path;

    /// Elsewhere they are not looked at.
    pub(super) fn keep(_file: &File, _path: &Path) -> Result<(), String> {
        Ok(())
    }
}
