//! Which files there are, which settings hold for them, and where `use` finds others.
//!
//! This is a room of its own, below the command line and the language server, because the two must never
//! disagree about it: an editor that finds other settings than the continuous integration is worse than none.
//! Files are read here; nothing is written, and nothing is said to anybody.

mod fenced;
mod files;
mod home;
mod layer;
mod library;
mod markdown;
mod refusal;
mod text;
mod walk;

pub use fenced::{Alone, Fenced};
pub use files::{Disk, Files};
pub use home::{Home, HomeError, Homes, SETTINGS_FILE};
pub use library::FileLibrary;
pub use markdown::{fenced_patterns, markdown_comments};
pub use refusal::refusal;
pub use text::{MOST_BYTES, ReadError, read_bytes, read_from, read_text, refuse_special};
pub use walk::{Finds, FoundFile, MARKDOWN_ENDING, PATTERN_ENDING, find_files, find_some, folder_of};

use std::path::{Component, Path, PathBuf};

/// The name of a file as it is shown to people: without `.` folders and doubled slashes, with `/` between folders on every
/// system. What is not UTF-8 in it is replaced.
pub fn shown_path(path: &Path) -> String {
    // Parts of a path have neither doubled slashes nor `.` folders but a first one.
    let clean: PathBuf = path.components().filter(|part| *part != Component::CurDir).collect();
    let path = if clean.as_os_str().is_empty() { path } else { &clean };
    let name = path.to_string_lossy();
    if cfg!(windows) { name.replace('\\', "/") } else { name.into_owned() }
}

/// `folder` and then `path`, with every `..` taken literally.
pub fn lexical(folder: &Path, path: &str) -> PathBuf {
    let mut at = folder.to_path_buf();
    for part in Path::new(path).components() {
        match part {
            Component::ParentDir => _ = at.pop(),
            Component::CurDir => {}
            part => at.push(part),
        }
    }
    at
}

#[cfg(test)]
mod tests {
    use super::shown_path;
    use std::path::Path;

    #[test]
    fn a_path_is_shown_as_people_would_write_it() {
        for (path, is) in [
            ("./a.knot", "a.knot"),
            (".//a.knot", "a.knot"),
            ("././bands/.//a.knot", "bands/a.knot"),
            ("bands//a.knot", "bands/a.knot"),
            ("/bands/./a.knot", "/bands/a.knot"),
            ("../a.knot", "../a.knot"),
            (".", "."),
            ("", ""),
        ] {
            assert_eq!(shown_path(Path::new(path)), is, "{path}");
        }
    }
}
