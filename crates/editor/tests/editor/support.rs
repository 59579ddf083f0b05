//! Texts with a cursor, and the sample patterns.
#![expect(clippy::disallowed_methods, reason = "the tests read the samples")]

use knotwright_checker::{Library, NoLibrary, OpenError, Settings, Source};
use knotwright_editor::Checked;
use knotwright_numbers::ToNumber;
use std::path::PathBuf;
use std::sync::Arc;

/// Eight strands, a motif, a set that closes.
pub(crate) const HEAD: &str = "pattern \"Pier\"\nthread kelp #1f5d50 \"deep kelp\"\nthread foam #f4f1e8\n\
    thread sand goldenrod\nstrands 2 kelp foam sand | mirror\n";

/// A text and where its cursor stands.
pub(crate) fn cursor(marked: &str) -> (String, u32) {
    let at = marked.find('‸').expect("a text with a cursor");
    (marked.replacen('‸', "", 1), at.to_u32())
}

/// The text checked, without other files.
pub(crate) fn checked(text: &str) -> Checked {
    Checked::new(Arc::new(Source::new("band.knot", text)), &NoLibrary, &Settings::default())
}

/// The text checked, and its cursor.
pub(crate) fn at(marked: &str) -> (Checked, u32) {
    let (text, at) = cursor(marked);
    (checked(&text), at)
}

/// The body in a set below [`HEAD`], checked, and its cursor.
pub(crate) fn in_set(marked: &str) -> (Checked, u32) {
    at(&format!("{HEAD}set {{\n{marked}\n}}\n"))
}

/// A file beside others, by name.
#[derive(Default)]
pub(crate) struct Files(pub(crate) Vec<Arc<Source>>);

impl Files {
    pub(crate) fn new(files: &[(&str, &str)]) -> Self {
        Self(files.iter().map(|(path, text)| Arc::new(Source::new(*path, *text))).collect())
    }

    pub(crate) fn checked(&self, path: &str) -> Checked {
        let source = self.open("", path).expect("a file of the test");
        Checked::new(source, self, &Settings::default())
    }
}

impl Library for Files {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        self.0.iter().find(|file| file.path == path).cloned().ok_or(OpenError::Missing)
    }
}

/// The sample patterns of the project.
pub(crate) fn samples() -> Files {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../shared/patterns");
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the samples")
        .filter_map(|entry| Some(entry.ok()?.path()))
        .collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "knot"));
    paths.sort();
    let read = |path: &PathBuf| {
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        Arc::new(Source::new(name, std::fs::read_to_string(path).expect("a sample")))
    };
    Files(paths.iter().map(read).collect())
}

/// All samples, checked.
pub(crate) fn checked_samples() -> Vec<Checked> {
    let files = samples();
    files.0.iter().map(|file| Checked::new(Arc::clone(file), &files, &Settings::default())).collect()
}
