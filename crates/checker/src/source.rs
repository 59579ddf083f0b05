//! Files as the checker sees them: already read, already parsed.

use knotwright_grammar::{Parsed, Span};
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

    /// The file with another text; what is the same in both is not read again. Soonest if `before` is nobody else's.
    pub fn edited(before: Arc<Self>, text: impl Into<Arc<str>>) -> Self {
        let (text, before) = (text.into(), Arc::unwrap_or_clone(before));
        let parsed = knotwright_grammar::reparse(before.parsed, &before.text, &text);
        Self { path: before.path, text, parsed }
    }
}

/// Which file of a [`Report`](crate::Report): an index into its `files`. The checked file is 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct FileId(pub u32);

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
