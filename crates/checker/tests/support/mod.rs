//! The texts that all rooms share, and a library that has them.
#![allow(clippy::disallowed_methods, dead_code)] // tests may read files, and not each test needs all

use knotwright_checker::{Library, OpenError, Source};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The files of `shared/patterns`.
pub(crate) struct Shared;

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared").join(name)
}

impl Library for Shared {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let text = std::fs::read_to_string(folder("patterns").join(path)).map_err(|_| OpenError::Missing)?;
        Ok(Arc::new(Source::new(path, text)))
    }
}

/// Names and texts of the patterns, and of the samples of the notation that are right.
pub(crate) fn samples() -> Vec<(String, String)> {
    files(&["patterns", "corpus/accepted"])
}

/// Names and texts of the patterns.
pub(crate) fn patterns() -> Vec<(String, String)> {
    files(&["patterns"])
}

fn files(folders: &[&str]) -> Vec<(String, String)> {
    let mut files = Vec::new();
    for name in folders {
        for entry in std::fs::read_dir(folder(name)).expect("the folder is there") {
            let path = entry.expect("it can be read").path();
            if path.extension().is_some_and(|ending| ending == "knot") {
                let text = std::fs::read_to_string(&path).expect("it is UTF-8");
                files.push((path.file_name().unwrap_or_default().to_string_lossy().into_owned(), text));
            }
        }
    }
    files.sort();
    files
}
