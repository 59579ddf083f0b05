//! A document at one moment, with all that can be asked about it.

use super::fenced::Block;
use super::{Around, Everywhere, Index, Open, Text};
use crate::client::Facts;
use crate::encoding::Encoding;
use knotwright_checker::{Kept, Report, Settings, Source};
use knotwright_editor::{Checked, World};
use knotwright_grammar::Span;
use knotwright_workspace::Homes;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use tower_lsp::ls_types::{Position, Range};

/// Everything around a document at one moment.
#[derive(Debug, Clone, Default)]
pub(crate) struct Setting {
    pub(crate) facts: Arc<Facts>,
    pub(crate) homes: Arc<Homes>,
    pub(crate) open: Open,
    pub(crate) index: Arc<Index>,
    /// Set as soon as nobody waits for the answer any more.
    pub(crate) given_up: Arc<AtomicBool>,
    /// The pattern that is asked about, if it stands in Markdown: its places are told by itself.
    pub(crate) fenced: Option<Arc<Text>>,
}

/// A document at one moment. Whoever holds one is not disturbed by what happens meanwhile.
#[derive(Debug, Clone)]
pub(crate) struct Snapshot {
    pub(crate) text: Arc<Text>,
    pub(crate) known: Arc<Known>,
    pub(crate) setting: Setting,
}

/// What is known about a text; found out once, by whoever needs it first.
#[derive(Debug, Default)]
pub(crate) struct Known {
    looked: OnceLock<Looked>,
    /// The patterns in it, if it is Markdown.
    pub(super) blocks: OnceLock<Vec<Block>>,
    /// What was known before, until somebody looks at this.
    before: Mutex<Option<Before>>,
}

/// What was known of the version before.
#[derive(Debug)]
pub(super) struct Before {
    pub(super) known: Arc<Known>,
    pub(super) since: Since,
}

/// What has changed since something was known, each with all that stand above it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Since {
    /// The text.
    Text,
    /// Files that it may use.
    Files,
    /// The settings that hold.
    Settings,
}

/// A document after somebody looked at it.
#[derive(Debug)]
pub(crate) struct Looked {
    /// Why its settings do not hold, in words.
    pub(crate) trouble: Option<String>,
    /// The settings that hold.
    pub(crate) settings: Settings,
    /// What the checker says, and what an editor may ask.
    pub(crate) checked: Checked,
}

impl Known {
    /// After something has changed, for what this was known of.
    pub(crate) fn after(known: Arc<Self>, since: Since) -> Self {
        // If nobody has looked, it is as good as never there.
        let before = match known.before() {
            Some(before) => Before { since: since.max(before.since), ..before },
            None => Before { known, since },
        };
        Self { before: Mutex::new(Some(before)), ..Self::default() }
    }

    pub(super) fn before(&self) -> Option<Before> {
        self.before.lock().unwrap_or_else(PoisonError::into_inner).take()
    }

    /// What helps to look at the next version. Whoever else needs it has it still.
    fn keep(known: Arc<Self>) -> Option<Kept> {
        match Arc::try_unwrap(known) {
            Ok(known) => known.looked.into_inner()?.checked.keep(),
            Err(known) => known.looked.get()?.checked.report().clone().keep(),
        }
    }
}

impl Snapshot {
    /// What is known about the document.
    pub(crate) fn looked(&self) -> &Looked {
        self.known.looked.get_or_init(|| {
            let Setting { homes, open, .. } = &self.setting;
            let (around, trouble) = Around::of(&self.text.path, homes, Arc::clone(open));
            // First this, as it lets go of the source before, which then need not be copied.
            let kept = self.known.before().and_then(|before| Known::keep(before.known));
            let source = Arc::clone(self.text.source());
            let checked = Checked::again(source, &around, around.settings(), kept);
            Looked { trouble, settings: around.settings().clone(), checked }
        })
    }

    /// What an editor may ask.
    pub(crate) fn checked(&self) -> &Checked {
        &self.looked().checked
    }

    /// What the checker says of it.
    pub(crate) fn report(&self) -> &Report {
        self.checked().report()
    }

    /// The document, parsed.
    pub(crate) fn source(&self) -> &Source {
        self.text.source()
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

    /// The span of a range in this text.
    pub(crate) fn span(&self, range: Range) -> Span {
        self.text.span(self.encoding(), range)
    }

    /// Asks something that other files have a say in.
    pub(crate) fn in_world<T>(&self, ask: impl FnOnce(&Checked, &World) -> T) -> T {
        self.setting.in_world(|world| ask(self.checked(), world))
    }
}

impl Setting {
    /// Asks something about all files at once.
    pub(crate) fn in_world<T>(&self, ask: impl FnOnce(&World) -> T) -> T {
        let library = Everywhere::new(&self.homes, &self.open);
        let files = self.index.sources(self);
        let is_wanted = || !self.given_up.load(Ordering::Relaxed);
        ask(&World { files: &files, library: &library, is_wanted: &is_wanted })
    }

    /// A file by its path, as a text. Of a page it is the pattern that is asked about, if one is.
    pub(crate) fn file(&self, path: &str) -> Option<Arc<Text>> {
        if let Some(text) =
            self.fenced.as_ref().filter(|text| text.path == path).or_else(|| self.open.get(path))
        {
            return Some(Arc::clone(text));
        }
        // A file that `use` leads to may lie beside all folders; then it was read already, and is read again.
        let indexed = self.index.read_already().iter().find(|file| file.text.path == path);
        match indexed {
            Some(file) => Some(Arc::clone(&file.text)),
            None => Some(Arc::new(Text::saved(path, &knotwright_workspace::read(path.as_ref()).ok()?)?)),
        }
    }
}
