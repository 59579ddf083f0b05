//! Pattern and Markdown files get another text.

use crate::whole;
use knotwright_workspace::{FoundFile, refusal};
use std::fs;

/// Puts `new` in the place of `old`; see [`whole::put`]. Of a symbolic link within the workspace, the file it leads to is
/// replaced and the link stays.
///
/// # Errors
/// In words, if it cannot be done, or the file no longer reads `old`: then it was changed while we worked, and that change
/// must not be lost.
pub(crate) fn replace(file: &FoundFile, old: &str, new: &str) -> Result<(), String> {
    let path = whole::behind_links(&file.path, &file.home.root)?;
    whole::put(&path, new.as_bytes(), || match fs::read(&path) {
        Ok(now) if now == old.as_bytes() => Ok(()),
        Ok(_) => Err("someone else changed it in the meantime; nothing was written".to_owned()),
        Err(error) => Err(format!("it cannot be read again: {}", refusal(&error))),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_workspace::{Homes, PATTERN_ENDING, find_files};

    #[test]
    fn a_change_by_someone_else_is_not_lost() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("band.knot");
        fs::write(&path, "changed").unwrap();
        let file = find_files(std::slice::from_ref(&path), &[PATTERN_ENDING], &Homes::default())
            .unwrap()
            .files
            .remove(0);
        assert!(replace(&file, "old", "new").unwrap_err().contains("in the meantime"));
        assert_eq!(fs::read_to_string(&path).unwrap(), "changed");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left lying about");
        replace(&file, "changed", "new").unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
    }
}
