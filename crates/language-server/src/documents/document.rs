//! A document that is open, and all of them.

use super::library::Open;
use super::snapshot::{Known, Snapshot};
use super::{Around, Text, path_of};
use crate::client::Facts;
use crate::encoding::Encoding;
use knotwright_grammar::tree::Node;
use knotwright_workspace::Homes;
use ropey::Rope;
use std::collections::HashMap;
use std::sync::Arc;
use tower_lsp::ls_types::{TextDocumentContentChangeEvent, Uri};

/// An open document.
#[derive(Debug)]
pub(crate) struct Document {
    /// The version as the client counts.
    pub(crate) version: i32,
    pub(crate) text: Arc<Text>,
    /// What is known about this version; another one whenever something around it changes.
    pub(crate) known: Arc<Known>,
    /// Whether somebody is looking through it, to say what was found.
    pub(crate) is_watched: bool,
    /// Whether what is known was said.
    pub(crate) is_told: bool,
}

impl Document {
    /// What is known holds no more.
    fn renew(&mut self) {
        self.known = Arc::default();
        self.is_told = false;
    }

    /// Whether what is said of it depends on other files. While it is not known, it may.
    fn uses_others(&self) -> bool {
        let is_use = |node: &Node| matches!(node, Node::Use { .. });
        let mut statements = self.text.source().parsed.tree.statements.iter();
        statements.any(|statement| is_use(&statement.node))
    }
}

/// All open documents.
#[derive(Debug, Default)]
pub(crate) struct Documents {
    by_uri: HashMap<Uri, Document>,
    open: Open,
}

impl Documents {
    /// Opens a document, or gives it another text.
    pub(crate) fn open(&mut self, uri: Uri, version: i32, text: &str) {
        let text = Arc::new(Text::new(path_of(&uri), Rope::from_str(text)));
        self.place(&text);
        let is_watched = self.by_uri.get(&uri).is_some_and(|known| known.is_watched);
        let known = Arc::default();
        self.by_uri.insert(uri, Document { version, text, known, is_watched, is_told: false });
    }

    /// Changes a document; `None` if it is not open.
    pub(crate) fn change(
        &mut self,
        (uri, version): (&Uri, i32),
        changes: Vec<TextDocumentContentChangeEvent>,
        encoding: Encoding,
    ) -> Option<()> {
        let document = self.by_uri.get_mut(uri)?;
        document.text = Arc::new(document.text.changed(changes, encoding));
        document.version = version;
        document.renew();
        let text = Arc::clone(&document.text);
        self.place(&text);
        Some(())
    }

    /// Closes a document.
    pub(crate) fn close(&mut self, uri: &Uri) -> Option<Document> {
        let document = self.by_uri.remove(uri)?;
        Arc::make_mut(&mut self.open).remove(&document.text.path);
        Some(document)
    }

    /// Forgets what is known about the documents that depend on other files than `changed`; about all, if `settings` may
    /// have changed. Their names.
    pub(crate) fn forget(&mut self, changed: Option<&Uri>, settings: bool) -> Vec<Uri> {
        let mut forgotten = Vec::new();
        for (uri, document) in &mut self.by_uri {
            if changed != Some(uri) && (settings || document.uses_others()) {
                document.renew();
                forgotten.push(uri.clone());
            }
        }
        forgotten
    }

    pub(crate) fn get(&self, uri: &Uri) -> Option<&Document> {
        self.by_uri.get(uri)
    }

    pub(crate) fn get_mut(&mut self, uri: &Uri) -> Option<&mut Document> {
        self.by_uri.get_mut(uri)
    }

    /// A document as it is now.
    pub(crate) fn snapshot(&self, uri: &Uri, homes: &Arc<Homes>, facts: &Arc<Facts>) -> Option<Snapshot> {
        let document = self.by_uri.get(uri)?;
        Some(Snapshot {
            uri: uri.clone(),
            version: Some(document.version),
            text: Arc::clone(&document.text),
            facts: Arc::clone(facts),
            known: Arc::clone(&document.known),
            homes: Arc::clone(homes),
            open: Arc::clone(&self.open),
        })
    }

    fn place(&mut self, text: &Arc<Text>) {
        Arc::make_mut(&mut self.open).insert(text.path.clone(), Arc::clone(text));
    }
}

impl Snapshot {
    /// What is around the document, looked up anew.
    pub(super) fn look_around(&self) -> (Around, Option<String>) {
        Around::of(&self.text.path, &self.homes, Arc::clone(&self.open))
    }
}
