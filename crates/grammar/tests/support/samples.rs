//! Files from `shared/`.

use std::path::Path;

/// Names and texts of the `.knot` files of a folder in `shared/`, in the order of their names.
pub fn samples(folder: &str) -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared").join(folder);
    let entries = std::fs::read_dir(&folder).expect("the folder is there");
    let paths = entries.map(|entry| entry.expect("it can be read").path());
    let mut files: Vec<(String, String)> = paths
        .filter(|path| path.extension().is_some_and(|ending| ending == "knot"))
        .map(|path| (path.display().to_string(), std::fs::read_to_string(&path).expect("it is UTF-8")))
        .collect();
    files.sort();
    assert!(!files.is_empty(), "{} holds no patterns", folder.display());
    files
}
