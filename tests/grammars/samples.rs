//! The samples that every parser of the notation shares.

use std::path::{Path, PathBuf};

/// One file.
pub(crate) struct Sample {
    pub(crate) name: String,
    pub(crate) text: String,
}

/// All `.knot` files of a folder below `shared/`.
pub(crate) fn samples(folder: &str) -> Vec<Sample> {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("../shared").join(folder);
    let entries = std::fs::read_dir(&home).unwrap_or_else(|error| panic!("{}: {error}", home.display()));
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.expect("a folder can be read").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "knot"))
        .collect();
    paths.sort();
    assert!(!paths.is_empty(), "no sample in {}", home.display());
    paths
        .iter()
        .map(|path| Sample {
            name: format!("{folder}/{}", path.file_name().unwrap_or_default().to_string_lossy()),
            text: std::fs::read_to_string(path).expect("a sample is text"),
        })
        .collect()
}
