//! The sample patterns, checked.

use knotwright_checker::{Library, OpenError, Pattern, Settings, Source, check};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct Folder(PathBuf);

impl Library for Folder {
    #[expect(clippy::disallowed_methods, reason = "a test reads the samples")]
    fn open(&self, _: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let text = std::fs::read_to_string(self.0.join(path)).map_err(|_| OpenError::Missing)?;
        Ok(Arc::new(Source::new(path, text)))
    }
}

#[expect(clippy::disallowed_methods, reason = "a test reads the samples")]
pub(crate) fn samples() -> Vec<Pattern> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/patterns");
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "knot"));
    files.sort();
    let read = |path: PathBuf| {
        let text = std::fs::read_to_string(&path).unwrap();
        let source = Source::new(path.file_name().unwrap().to_string_lossy(), text);
        check(Arc::new(source), &Folder(folder.clone()), &Settings::default()).pattern
    };
    files.into_iter().filter_map(read).filter(|pattern| pattern.is_whole()).collect()
}
