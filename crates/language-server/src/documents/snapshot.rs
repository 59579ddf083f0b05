//! A document at one moment, with all that can be asked about it.

use super::{Around, Everywhere, Index, Open, Text, uri_of};
use crate::client::Facts;
use crate::encoding::Encoding;
use knotwright_checker::{Kept, Report, Settings, Source};
use knotwright_editor::{Checked, World};
use knotwright_grammar::Span;
use knotwright_workspace::Homes;
use ropey::Rope;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use tower_lsp::ls_types::{Position, Range, Uri};

/// Everything around a document at one moment.
#[derive(Debug, Clone)]
pub(crate) struct Setting {
    pub(crate) facts: Arc<Facts>,
    pub(crate) homes: Arc<Homes>,
    pub(crate) open: Open,
    pub(crate) index: Arc<Index>,
    /// Set as soon as nobody waits for the answer any more.
    pub(crate) given_up: Arc<AtomicBool>,
}

/// A document at one moment. Whoever holds one is not disturbed by what happens meanwhile.
#[derive(Debug)]
pub(crate) struct Snapshot {
    pub(crate) text: Arc<Text>,
    pub(crate) known: Arc<Known>,
    pub(crate) setting: Setting,
}

/// What is known about a text; found out once, by whoever needs it first.
#[derive(Debug, Default)]
pub(crate) struct Known {
    looked: OnceLock<Looked>,
    /// What was known of the version before, until somebody looks at this one.
    before: Mutex<Option<Arc<Self>>>,
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
    /// For the version after the one of which this is known.
    pub(crate) fn after(known: Arc<Self>) -> Self {
        // If nobody has looked, it is as good as never there.
        let before = known.before().or(Some(known));
        Self { looked: OnceLock::new(), before: Mutex::new(before) }
    }

    fn before(&self) -> Option<Arc<Self>> {
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
            let kept = self.known.before().and_then(Known::keep);
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

    /// The byte of a position in this document.
    pub(crate) fn offset(&self, position: Position) -> u32 {
        self.encoding().offset(&self.text.rope, position) as u32
    }

    /// The position of a byte in this document.
    pub(crate) fn position(&self, offset: u32) -> Position {
        self.encoding().position(&self.text.rope, offset as usize)
    }

    /// The range of a span in this document.
    pub(crate) fn range(&self, span: Span) -> Range {
        self.encoding().range(&self.text.rope, span)
    }

    /// The span of a range in this document.
    pub(crate) fn span(&self, range: Range) -> Span {
        self.encoding().span(&self.text.rope, range)
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

    /// A file by its path: what the client calls it, its version if it is open, and its text.
    pub(crate) fn file(&self, path: &str) -> Option<(Uri, Option<i32>, Rope)> {
        if let Some(text) = self.open.get(path) {
            return Some((text.uri.clone(), text.version, text.rope.clone()));
        }
        // A file that `use` leads to may lie beside all folders; then it was read already, and is read again.
        let indexed = self.index.read_already().iter().find(|file| file.text.path == path);
        let rope = match indexed {
            Some(file) => file.text.rope.clone(),
            None => Rope::from_str(&knotwright_workspace::read(path.as_ref()).ok()?),
        };
        Some((uri_of(path)?, None, rope))
    }
}
