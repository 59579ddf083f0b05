//! Names of documents and names of files.

use std::path::{Path, PathBuf};
use tower_lsp::ls_types::Uri;

/// The file of a document as the checker names it: its canonical path. A document that is no file, or not yet, keeps
/// the name the client gave it.
pub(crate) fn path_of(uri: &Uri) -> String {
    match file_of(uri) {
        Some(file) => knotwright_workspace::shown_path(&file),
        None => uri.as_str().to_owned(),
    }
}

/// The file of a document, symbolic links followed as far as they lead somewhere.
pub(crate) fn file_of(uri: &Uri) -> Option<PathBuf> {
    if !uri.scheme().as_str().eq_ignore_ascii_case("file") {
        return None;
    }
    let path = uri.to_file_path().filter(|path| path.is_absolute())?;
    Some(canonical(&path))
}

fn canonical(path: &Path) -> PathBuf {
    if let Ok(canonical) = path.canonicalize() {
        return canonical;
    }
    match (path.parent().and_then(|folder| folder.canonicalize().ok()), path.file_name()) {
        (Some(folder), Some(name)) => folder.join(name),
        _ => path.to_path_buf(),
    }
}

/// The document of a file that the checker named.
pub(crate) fn uri_of(path: &str) -> Option<Uri> {
    if Path::new(path).is_absolute() { Uri::from_file_path(path) } else { path.parse().ok() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_alike_however_its_document_is_spelled() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path().canonicalize().unwrap();
        std::fs::write(root.join("low tide.knot"), "").unwrap();
        let uri = uri_of(root.join("low tide.knot").to_str().unwrap()).unwrap();
        assert!(uri.as_str().ends_with("/low%20tide.knot"), "{uri:?}");
        let dotted: Uri = uri.as_str().replace("low%20tide", "./low%20tid%65").parse().unwrap();
        assert_eq!(path_of(&uri), path_of(&dotted));
        assert_eq!(path_of(&uri), root.join("low tide.knot").to_str().unwrap());
    }

    #[test]
    fn a_document_that_is_no_file_keeps_its_name() {
        let uri: Uri = "untitled:Untitled-1".parse().unwrap();
        assert_eq!(path_of(&uri), "untitled:Untitled-1");
        assert_eq!(uri_of("untitled:Untitled-1"), Some(uri));
    }
}
