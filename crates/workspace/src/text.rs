//! Files become text here, or a sentence about why they do not.

use std::cell::RefCell;
use std::fmt;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;
use std::sync::Arc;

/// The most bytes that are read of one file. The grammar refuses anything larger, so no more is asked for.
pub const MOST_BYTES: usize = 16 * 1024 * 1024;

/// Why a file has no text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadError {
    /// There is none.
    Missing,
    /// It is a folder.
    Folder,
    /// It is neither a file nor a folder, but a pipe or a device.
    Special,
    /// The system does not let us.
    Denied,
    /// Its name is not UTF-8.
    Name,
    /// Larger than [`MOST_BYTES`].
    TooLarge,
    /// A byte that is not UTF-8 is here (line and column count from 1, the column in characters).
    NotUtf8 {
        /// The byte.
        byte: u8,
        /// Its line.
        line: usize,
        /// Its column.
        column: usize,
    },
    /// A NUL byte is here.
    Nul {
        /// Its line.
        line: usize,
        /// Its column.
        column: usize,
    },
    /// Something else that the system said.
    Other(String),
}

impl ReadError {
    /// Whether the file was read well enough, and it is its content that is no pattern.
    pub fn is_about_content(&self) -> bool {
        matches!(self, Self::TooLarge | Self::NotUtf8 { .. } | Self::Nul { .. })
    }

    /// The line and column it is about, from 1, if it is about a place.
    pub fn place(&self) -> Option<(usize, usize)> {
        match self {
            Self::NotUtf8 { line, column, .. } | Self::Nul { line, column } => Some((*line, *column)),
            _ => None,
        }
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing => to.write_str("there is no such file or folder"),
            Self::Folder => to.write_str("this is a folder, and a file is needed here"),
            Self::Special => to.write_str("this is neither a file nor a folder, and a file is needed here"),
            Self::Denied => to.write_str("you have no right to read it"),
            Self::Name => to.write_str("the name of this file is not UTF-8; rename it"),
            Self::TooLarge => to.write_str("it is larger than 16 MiB, which no pattern needs to be"),
            Self::NotUtf8 { byte, line, column } => {
                write!(
                    to,
                    "line {line}, column {column}: the byte 0x{byte:02X} is not UTF-8; save the file as UTF-8 text"
                )
            }
            Self::Nul { line, column } => {
                write!(to, "line {line}, column {column}: a NUL byte; this is not a text file")
            }
            Self::Other(reason) => to.write_str(reason),
        }
    }
}

impl From<io::Error> for ReadError {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound => Self::Missing,
            io::ErrorKind::PermissionDenied => Self::Denied,
            io::ErrorKind::IsADirectory => Self::Folder,
            _ => Self::Other(format!("it cannot be read: {}", crate::refusal(&error))),
        }
    }
}

thread_local! {
    /// One buffer a thread: ten thousand small files do not ask ten thousand times for memory to read into.
    static BYTES: RefCell<Vec<u8>> = RefCell::new(Vec::with_capacity(64 * 1024));
}

/// The text of a file. It is opened, read and closed, and nothing else is asked of the system.
///
/// # Errors
/// It cannot be read, is not UTF-8, holds a NUL byte, or more than [`MOST_BYTES`].
pub fn read_text(path: &Path) -> Result<Arc<str>, ReadError> {
    read_from(File::open(path)?)
}

/// The bytes of a file that may hold a picture.
///
/// # Errors
/// It cannot be read, is no file, or holds more than [`MOST_BYTES`].
pub fn read_bytes(path: &Path) -> Result<Vec<u8>, ReadError> {
    refuse_special(path)?;
    let mut bytes = Vec::new();
    File::open(path)?.take(MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    if bytes.len() > MOST_BYTES { Err(ReadError::TooLarge) } else { Ok(bytes) }
}

/// A pipe would be waited for without end, and a device may never end.
///
/// # Errors
/// It is neither a file nor a folder, or nothing can be asked of it.
pub fn refuse_special(path: &Path) -> Result<(), ReadError> {
    let about = path.metadata()?;
    if about.is_file() || about.is_dir() { Ok(()) } else { Err(ReadError::Special) }
}

/// The text that comes out of `source`, a file or the standard input.
///
/// # Errors
/// As [`read_text`].
pub fn read_from(source: impl Read) -> Result<Arc<str>, ReadError> {
    BYTES.with_borrow_mut(|bytes| {
        bytes.clear();
        source.take(MOST_BYTES as u64 + 1).read_to_end(bytes)?;
        let text = as_text(bytes).map(Arc::from);
        bytes.shrink_to(1024 * 1024);
        text
    })
}

fn as_text(bytes: &[u8]) -> Result<&str, ReadError> {
    if bytes.len() > MOST_BYTES {
        return Err(ReadError::TooLarge);
    }
    // `contains` goes by words, a search byte by byte.
    if bytes.contains(&0) {
        let (line, column) = place_of(bytes.split(|byte| *byte == 0).next().unwrap_or_default());
        return Err(ReadError::Nul { line, column });
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let (before, rest) = bytes.split_at(error.valid_up_to());
        let (line, column) = place_of(before);
        ReadError::NotUtf8 { byte: rest.first().copied().unwrap_or_default(), line, column }
    })
}

/// Line and column, from 1, of what comes after `before`. A byte-order mark is no column.
fn place_of(before: &[u8]) -> (usize, usize) {
    let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
    let last = before.rsplit(|byte| *byte == b'\n').next().unwrap_or_default();
    let last = String::from_utf8_lossy(last);
    (line, last.trim_start_matches('\u{feff}').chars().count() + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(bytes: &[u8]) -> String {
        read_from(bytes).unwrap_err().to_string()
    }

    #[test]
    fn the_place_of_a_bad_byte_is_reported_in_characters() {
        assert_eq!(
            said(b"pattern \"a\"\n-- \xc3\xa9t\xe9\n"),
            "line 2, column 6: the byte 0xE9 is not UTF-8; save the file as UTF-8 text"
        );
        assert_eq!(
            said(b"\xef\xbb\xbfa\xff"),
            "line 1, column 2: the byte 0xFF is not UTF-8; save the file as UTF-8 text"
        );
        assert_eq!(said(b"ab\0"), "line 1, column 3: a NUL byte; this is not a text file");
    }

    #[test]
    fn a_file_beyond_the_limit_is_not_read_to_its_end() {
        assert_eq!(read_from(io::repeat(b' ')), Err(ReadError::TooLarge));
        assert_eq!(
            read_from(io::repeat(b' ').take(MOST_BYTES as u64)).map(|text| text.len()),
            Ok(MOST_BYTES)
        );
    }

    #[test]
    fn the_mark_and_the_line_ends_are_kept() {
        assert_eq!(&*read_from("\u{feff}a\r\nb".as_bytes()).unwrap(), "\u{feff}a\r\nb");
    }

    #[test]
    fn what_the_system_refuses_is_reported_in_words() {
        let folder = tempfile::tempdir().unwrap();
        assert_eq!(read_text(folder.path()), Err(ReadError::Folder));
        assert_eq!(read_text(&folder.path().join("none.knot")), Err(ReadError::Missing));
    }
}
