//! A document at one moment, with all that can be asked about it.

use super::search::SearchView;
use super::version::{KnownText, Looked, Version};
use super::{Around, DocumentText, EarlierColors, Everywhere, Index, Open, WordColors};
use crate::client::ClientFeatures;
use crate::encoding::Encoding;
use knotwright_checker::{Finding, Library, OpenError, Report, Source};
use knotwright_editor::{Checked, World};
use knotwright_grammar::Span;
use knotwright_workspace::Homes;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use tower_lsp::ls_types::{Position, Range};

/// Everything around a document at one moment.
#[derive(Debug, Clone, Default)]
pub(crate) struct Setting {
    pub(crate) facts: Arc<ClientFeatures>,
    pub(crate) homes: Arc<Homes>,
    pub(crate) open: Open,
    pub(crate) index: Arc<Index>,
    /// Set as soon as nobody waits for the answer any more.
    pub(crate) given_up: Arc<AtomicBool>,
    /// Who looks on while something is searched for.
    pub(crate) search: Arc<SearchView>,
    /// The pattern that is asked about, if it is in Markdown: its places count within itself.
    pub(crate) fenced: Option<Arc<DocumentText>>,
}

/// A document at one moment. Whoever holds one is not disturbed by what happens meanwhile.
#[derive(Debug, Clone)]
pub(crate) struct Snapshot {
    pub(crate) text: Arc<DocumentText>,
    pub(crate) known: Arc<KnownText>,
    pub(crate) setting: Setting,
}

impl Snapshot {
    pub(crate) fn new(version: Version, setting: Setting) -> Self {
        let Version { text, known } = version;
        known.askers.join(&setting.given_up);
        Self { text, known, setting }
    }

    /// How the document ties. This does not wait for findings.
    pub(crate) fn looked(&self) -> &Looked {
        self.known.looked(&self.text, &self.setting)
    }

    /// Finds out how the document ties, if nobody has yet. `hear` hears at once what is wrong first.
    pub(crate) fn look_telling(&self, hear: &dyn Fn(Vec<Finding>)) {
        self.known.looked_telling(&self.text, &self.setting, Some(hear));
    }

    /// What an editor may ask.
    pub(crate) fn checked(&self) -> &Checked {
        &self.looked().checked
    }

    /// What was found in it; some mends may be missing, if they would have to be searched for.
    pub(crate) fn findings(&self) -> &[Finding] {
        self.checked().findings(self)
    }

    /// What was found in it, with all mends, which may have to be searched for.
    pub(crate) fn findings_with_mends(&self) -> &[Finding] {
        self.checked().findings_with_mends(self)
    }

    /// All that the checker says of it.
    pub(crate) fn report(&self) -> Report {
        let checked = self.checked();
        let (files, findings) = (checked.files().to_vec(), self.findings_with_mends().to_vec());
        Report { files, findings, pattern: checked.pattern().cloned() }
    }

    /// The document, parsed.
    pub(crate) fn source(&self) -> &Arc<Source> {
        self.known.source(&self.text)
    }

    /// The colors of its words; see [`KnownText::colors`].
    pub(crate) fn colors(&self, find: impl FnOnce(Option<&EarlierColors>) -> WordColors) -> &WordColors {
        self.known.colors(&self.text, find)
    }

    pub(crate) fn encoding(&self) -> Encoding {
        self.setting.facts.encoding
    }

    /// The byte of a position in this text.
    pub(crate) fn offset(&self, position: Position) -> u32 {
        self.text.offset(self.encoding(), position)
    }

    /// The position of a byte of this text in the document.
    pub(crate) fn position(&self, offset: u32) -> Position {
        self.text.position(self.encoding(), offset)
    }

    /// The range of a span of this text in the document.
    pub(crate) fn range(&self, span: Span) -> Range {
        self.text.range(self.encoding(), span)
    }

    /// The range of a span in the document; if the span is empty, with the character before it on its line, or else the one
    /// behind it. Of a pattern in Markdown without a word, its fence.
    pub(crate) fn wide_range(&self, span: Span) -> Range {
        let fence = self.text.fence_range(self.encoding());
        fence.unwrap_or_else(|| self.range(self.text.widened(span)))
    }

    /// The span of a range in this text.
    pub(crate) fn span(&self, range: Range) -> Span {
        self.text.span(self.encoding(), range)
    }

    /// Asks something that other files have a say in.
    pub(crate) fn with_world<T>(&self, ask: impl FnOnce(&Checked, &World) -> T) -> T {
        self.setting.with_world(|world| ask(self.checked(), world))
    }
}

/// The files that the document uses.
impl Library for Snapshot {
    fn open(&self, from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        let Setting { homes, open, .. } = &self.setting;
        Around::of(&self.text.path, homes, Arc::clone(open)).0.open(from, path)
    }
}

impl Setting {
    /// Asks something about all files at once.
    pub(crate) fn with_world<T>(&self, ask: impl FnOnce(&World) -> T) -> T {
        let library = Everywhere::new(&self.homes, &self.open);
        let files = self.index.sources(self);
        let is_wanted = || !self.given_up.load(Ordering::Relaxed);
        ask(&World { files: &files, library: &library, is_wanted: &is_wanted, onlooker: &*self.search })
    }

    /// The pages, each as one source with the statements of all its patterns.
    pub(crate) fn pages(&self) -> Vec<Arc<Source>> {
        self.index.pages(self)
    }

    /// A file by its path, as a text. Of a page it is the pattern that is asked about, if one is.
    pub(crate) fn file(&self, path: &str) -> Option<Arc<DocumentText>> {
        if let Some(text) =
            self.fenced.as_ref().filter(|text| text.path == path).or_else(|| Some(&self.open.get(path)?.text))
        {
            return Some(Arc::clone(text));
        }
        // A file that `use` leads to may be outside all folders; then it was read already, and is read again.
        let indexed = self.index.read_already().iter().find(|file| file.version.text.path == path);
        match indexed {
            Some(file) => Some(Arc::clone(&file.version.text)),
            None => Some(Arc::new(DocumentText::saved(
                path,
                &knotwright_workspace::read_text(path.as_ref()).ok()?,
            )?)),
        }
    }
}
