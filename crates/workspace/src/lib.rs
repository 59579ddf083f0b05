//! Which files there are, which settings hold for them, and where `use` finds others.
//!
//! This is a room of its own, below the command line and the language server, because the two must never
//! disagree about it: an editor that finds other settings than the continuous integration is worse than none.
//! Files are read here; nothing is written, and nothing is said to anybody.

mod fenced;
mod home;
mod library;
mod markdown;
mod text;
mod walk;

pub use fenced::{Alone, Fenced};
pub use home::{Home, HomeError, Homes, SETTINGS_FILE};
pub use library::FileLibrary;
pub use markdown::{comments, patterns};
pub use text::{MOST_BYTES, ReadError, read, read_from};
pub use walk::{Finds, Found, MARKDOWN_ENDING, PATTERN_ENDING, find, find_some, folder_of};

use std::path::Path;

/// The name of a file as it is shown to people: without a leading `./`, with `/` between folders on every
/// system. What is not UTF-8 in it is replaced.
pub fn shown(path: &Path) -> String {
    let name = path.to_string_lossy();
    let name = if cfg!(windows) { name.replace('\\', "/") } else { name.into_owned() };
    match name.strip_prefix("./") {
        Some(rest) if !rest.is_empty() => rest.to_owned(),
        _ => name,
    }
}
