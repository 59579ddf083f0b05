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
    words: RareWords,
}

/// Whether words stand somewhere in a text. What only few files have is not looked for in all others.
#[derive(Debug, Clone, Copy, PartialEq)]
struct RareWords {
    face: bool,
    join: bool,
}

impl RareWords {
    fn of(text: &str) -> Self {
        Self { face: text.contains("face"), join: text.contains("join") }
    }

    /// After an edit of these lines.
    fn after(self, lines: Splice, text: &str) -> Self {
        let now = Self::of(&text[lines.start..lines.new_end]);
        // Those that stood there before may be gone.
        let stands = |before: bool, now: bool, word: &str| now || (before && text.contains(word));
        Self { face: stands(self.face, now.face, "face"), join: stands(self.join, now.join, "join") }
    }
}

impl Source {
    /// Parses `text`.
    pub fn new(path: impl Into<String>, text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let parsed = knotwright_grammar::parse(&text);
        Self::read(path, text, parsed)
    }

    /// A text that was parsed already.
    pub fn read(path: impl Into<String>, text: impl Into<Arc<str>>, parsed: Parsed) -> Self {
        let text = text.into();
        Self { path: path.into(), words: RareWords::of(&text), text, parsed }
    }

    /// Whether the word `face` stands in it.
    pub(crate) fn says_face(&self) -> bool {
        self.words.face
    }

    /// Whether the word `join` stands in it.
    pub(crate) fn says_join(&self) -> bool {
        self.words.join
    }

    /// A pattern in a page, in which it stands behind that many bytes. Where the page has marks of a quote or a list, the
    /// pattern has as many spaces.
    pub(crate) fn in_page(self, page: Arc<str>, start: usize) -> Self {
        Self { text: page, parsed: self.parsed.behind(start), ..self }
    }

    /// The file after an edit, by which `text` came of its own text; what the edit does not touch is not read again. And
    /// the lines that were.
    pub(crate) fn edited(self, splice: Splice, text: Arc<str>) -> (Self, Splice) {
        let Reparsed { parsed, lines } = knotwright_grammar::reparse(self.parsed, splice, &text);
        (Self { words: self.words.after(lines, &text), path: self.path, text, parsed }, lines)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rare_words_are_known_after_every_edit() {
        let mut source = Source::new("a.knot", "set {\n  meet center\n}\n");
        for (from, to) in
            [("meet center", "expect face mirror"), ("face mirror", "start"), ("start", "joined face")]
        {
            let text = source.text.replace(from, to);
            let splice = Splice::between(from, to, source.text.find(from).unwrap()).unwrap();
            source = source.edited(splice, text.as_str().into()).0;
            assert_eq!(source, Source::new("a.knot", text.as_str()), "{text}");
            assert_eq!(
                (source.says_face(), source.says_join()),
                (text.contains("face"), text.contains("join"))
            );
        }
    }
}
