//! The folder of the sample patterns, some of which use others.

use knotwright_checker::{Library, OpenError, Source};
use std::path::{Path, PathBuf};
use std::sync::Arc;

pub(crate) struct SampleFolder;

impl Library for SampleFolder {
    #[expect(clippy::disallowed_methods, reason = "a test reads the samples")]
    fn open(&self, _: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let text = std::fs::read_to_string(folder().join(path)).map_err(|_| OpenError::Missing)?;
        Ok(Arc::new(Source::new(path, text)))
    }
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/patterns")
}

/// All samples, by name.
#[expect(clippy::disallowed_methods, reason = "a test reads the samples")]
pub(crate) fn sample_sources() -> Vec<Arc<Source>> {
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "knot"));
    files.sort();
    let read = |path: PathBuf| {
        let text = std::fs::read_to_string(&path).unwrap();
        Arc::new(Source::new(path.file_name().unwrap().to_string_lossy(), text))
    };
    files.into_iter().map(read).collect()
}
