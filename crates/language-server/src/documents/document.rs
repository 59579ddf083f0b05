//! A document that is open, and all of them.

use super::library::Open;
use super::version::{KnownText, Since, Version};
use super::word_colors::WordColors;
use super::{DocumentText, Setting, Snapshot, path_of};
use crate::encoding::Encoding;
use knotwright_checker::Source;
use knotwright_grammar::tree::Import;
use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Weak};
use tower_lsp::ls_types::{
    Diagnostic, DidChangeTextDocumentParams, NumberOrString, TextDocumentItem, Uri,
    VersionedTextDocumentIdentifier,
};

/// An open document.
#[derive(Debug)]
pub(crate) struct OpenDocument {
    /// As it is now.
    pub(crate) version: Version,
    /// Whether somebody is looking through it, to say what was found.
    pub(crate) is_scheduled: bool,
    /// Whether what is known was said.
    pub(crate) is_published: bool,
    /// What the client shows, and what is known of the version of which it was said.
    said: Vec<Diagnostic>,
    said_of: Weak<KnownText>,
    /// Set when whoever looks through it unasked does so for nobody.
    looked_for_nobody: Arc<AtomicBool>,
    /// The colors of its words that the client has, and their name.
    pub(crate) tokens_sent: Option<(String, WordColors)>,
}

impl OpenDocument {
    /// Whether the client shows something.
    pub(crate) fn has_diagnostics(&self) -> bool {
        !self.said.is_empty()
    }

    /// The rules of what the client shows.
    pub(crate) fn said_rules(&self) -> Vec<String> {
        let mut rules: Vec<String> = Vec::new();
        for diagnostic in &self.said {
            if let Some(NumberOrString::String(rule)) = &diagnostic.code
                && !rules.contains(rule)
            {
                rules.push(rule.clone());
            }
        }
        rules
    }

    /// Adds to what is sure what the client shows already and is still likely, so that nothing goes and comes back while
    /// somebody types. The client shows that from now on. Whether it was not told the same of this version already.
    pub(crate) fn say(&mut self, mut sure: Vec<Diagnostic>, doubtful: Vec<Diagnostic>) -> bool {
        let says_the_same =
            |one: &Diagnostic, other: &Diagnostic| (&one.code, &one.message) == (&other.code, &other.message);
        let is_shown = |doubtful: &Diagnostic| self.said.iter().any(|shown| says_the_same(shown, doubtful));
        sure.extend(doubtful.into_iter().filter(is_shown));
        sure.sort_by_key(|diagnostic| (diagnostic.range.start.line, diagnostic.range.start.character));
        let is_said = is_about(&self.said_of, &self.version) && self.said == sure;
        self.said_of = Arc::downgrade(&self.version.known);
        self.said = sure;
        !is_said
    }

    /// What the client shows.
    pub(crate) fn said(&self) -> &[Diagnostic] {
        &self.said
    }

    /// The document is closed, or has got another text altogether.
    fn leave(&self) {
        self.looked_for_nobody.store(true, Ordering::Relaxed);
    }
}

/// Whether that is what is known of the version.
pub(crate) fn is_about(known: &Weak<KnownText>, version: &Version) -> bool {
    Weak::ptr_eq(known, &Arc::downgrade(&version.known))
}

/// All open documents.
#[derive(Debug, Default)]
pub(crate) struct Documents {
    by_uri: HashMap<Uri, OpenDocument>,
    open: Open,
}

impl Documents {
    /// Opens a document, or gives it another text.
    pub(crate) fn open(&mut self, document: TextDocumentItem) {
        let uri = document.uri.clone();
        let version = Version::new(DocumentText::opened(document));
        self.place(&version);
        let before = self.by_uri.get(&uri);
        before.inspect(|before| before.leave());
        let document = OpenDocument {
            version,
            is_scheduled: before.is_some_and(|before| before.is_scheduled),
            is_published: false,
            said: before.map(|before| before.said.clone()).unwrap_or_default(),
            said_of: Weak::new(),
            looked_for_nobody: Arc::default(),
            tokens_sent: None,
        };
        self.by_uri.insert(uri, document);
    }

    /// Changes a document. Whether it is open.
    pub(crate) fn change(&mut self, params: DidChangeTextDocumentParams, encoding: Encoding) -> bool {
        let VersionedTextDocumentIdentifier { uri, version } = params.text_document;
        let Some(document) = self.by_uri.get_mut(&uri) else { return false };
        let (text, edit) = document.version.text.changed(version, params.content_changes, encoding);
        document.version = document.version.edited(text, edit);
        document.is_published = false;
        let version = document.version.clone();
        self.place(&version);
        true
    }

    /// Closes a document. Whether it was open.
    pub(crate) fn close(&mut self, uri: &Uri) -> bool {
        let Some(document) = self.by_uri.remove(uri) else { return false };
        document.leave();
        Arc::make_mut(&mut self.open).remove(&document.version.text.path);
        true
    }

    /// Forgets what is known about the documents that depend on other files than `changed`; about all, if `settings` may
    /// have changed. Their names.
    pub(crate) fn forget(&mut self, changed: Option<&Uri>, settings: bool) -> Vec<Uri> {
        let since = if settings { Since::Settings } else { Since::Files };
        let mut forgotten = Vec::new();
        for (uri, document) in &mut self.by_uri {
            if changed != Some(uri) && (settings || document.version.depends()) {
                document.version = document.version.renewed(since);
                document.is_published = false;
                let path = document.version.text.path.clone();
                Arc::make_mut(&mut self.open).insert(path, document.version.clone());
                forgotten.push(uri.clone());
            }
        }
        forgotten.sort();
        forgotten
    }

    /// The document of that name, be it spelled as it was opened or otherwise.
    pub(crate) fn get(&self, uri: &Uri) -> Option<&OpenDocument> {
        self.by_uri.get(uri).or_else(|| self.by_uri.get(&self.open.get(&path_of(uri))?.text.uri))
    }

    pub(crate) fn get_mut(&mut self, uri: &Uri) -> Option<&mut OpenDocument> {
        self.by_uri.get_mut(uri)
    }

    /// The open documents by path.
    pub(crate) fn open_versions(&self) -> &Open {
        &self.open
    }

    /// A document as it is now.
    pub(crate) fn snapshot(&self, uri: &Uri, setting: Setting) -> Option<Snapshot> {
        Some(Snapshot::new(self.get(uri)?.version.clone(), setting))
    }

    /// A document as it is now, for whoever looks through it unasked, as long as it is open.
    pub(crate) fn unasked_snapshot(&mut self, uri: &Uri, setting: Setting) -> Option<Snapshot> {
        let document = self.by_uri.get_mut(uri)?;
        document.looked_for_nobody = Arc::clone(&setting.given_up);
        Some(Snapshot::new(document.version.clone(), setting))
    }

    fn place(&mut self, version: &Version) {
        Arc::make_mut(&mut self.open).insert(version.text.path.clone(), version.clone());
    }
}

/// Whether what is said of a file depends on other files.
pub(super) fn uses_others(source: &Source) -> bool {
    source.parsed.tree.statements.iter().any(|statement| statement.is::<Import>())
}
