//! Files as the checker sees them: already read, already parsed.

use knotwright_grammar::{Parsed, Reparsed, Span, Splice};
use std::sync::Arc;

/// One file.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// Its name as shown to people; two sources are one file if their paths are equal.
    pub path: String,
    /// Its text.
    pub text: Arc<str>,
    /// What was read from it.
    pub parsed: Parsed,
}

impl Source {
    /// Parses `text`.
    pub fn new(path: impl Into<String>, text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let parsed = knotwright_grammar::parse(&text);
        Self { path: path.into(), text, parsed }
    }

    /// A pattern in a page, in which it stands behind that many bytes. Where the page has marks of a quote or a list, the
    /// pattern has as many spaces.
    pub(crate) fn in_page(self, page: Arc<str>, start: usize) -> Self {
        Self { path: self.path, text: page, parsed: self.parsed.behind(start) }
    }

    /// The file after an edit, by which `text` came of its own text; what the edit does not touch is not read again. And
    /// the lines that were.
    pub(crate) fn edited(self, splice: Splice, text: Arc<str>) -> (Self, Splice) {
        let Reparsed { parsed, lines } = knotwright_grammar::reparse(self.parsed, splice, &text);
        (Self { path: self.path, text, parsed }, lines)
    }
}

/// Which file of a [`Report`](crate::Report): an index into its `files`. The checked file is 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct FileId(pub u32);

impl FileId {
    /// The checked file.
    pub const CHECKED: Self = Self(0);
}

/// A place in one of the files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Place {
    /// The file.
    pub file: FileId,
    /// The bytes.
    pub span: Span,
}

/// Where the files named by `use` come from. The command line and the language server answer; the
/// checker itself reads nothing.
pub trait Library {
    /// The file that `path`, written in the file `from`, means.
    ///
    /// # Errors
    /// Why it cannot be had.
    fn open(&self, from: &str, path: &str) -> Result<Arc<Source>, OpenError>;
}

/// Why a file named by `use` cannot be had.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum OpenError {
    /// There is none.
    Missing,
    /// It lies outside the workspace, or its path is absolute.
    Outside,
    /// It is there but cannot be read, for this reason.
    Unreadable(String),
}

/// A library without files: every `use` is missing.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoLibrary;

impl Library for NoLibrary {
    fn open(&self, _from: &str, _path: &str) -> Result<Arc<Source>, OpenError> {
        Err(OpenError::Missing)
    }
}
