//! A document that is open, and all of them.

use super::library::Open;
use super::snapshot::{Known, Setting, Since, Snapshot};
use super::{Text, path_of};
use crate::encoding::Encoding;
use knotwright_checker::Source;
use knotwright_grammar::tree::{Node, Statement};
use std::collections::HashMap;
use std::sync::Arc;
use tower_lsp::ls_types::{SemanticToken, TextDocumentContentChangeEvent, TextDocumentItem, Uri};

/// An open document.
#[derive(Debug)]
pub(crate) struct Document {
    pub(crate) text: Arc<Text>,
    /// What is known about this version; another one whenever something around it changes.
    pub(crate) known: Arc<Known>,
    /// Whether somebody is looking through it, to say what was found.
    pub(crate) is_watched: bool,
    /// Whether what is known was said.
    pub(crate) is_told: bool,
    /// Whether the client shows something that was said.
    pub(crate) is_marked: bool,
    /// The colors of its words that the client has, and their name.
    pub(crate) inked: Option<(String, Arc<Vec<SemanticToken>>)>,
}

impl Document {
    /// What is known holds no more.
    fn renew(&mut self, since: Since) {
        self.is_told = false;
        self.known = Arc::new(Known::after(std::mem::take(&mut self.known), since));
    }

    /// Whether what is said of it depends on other files.
    fn depends(&self) -> bool {
        if self.text.is_page() { self.known.depends() } else { uses_others(self.text.source()) }
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
    pub(crate) fn open(&mut self, document: TextDocumentItem) {
        let TextDocumentItem { uri, language_id, version, text } = document;
        let text = Arc::new(Text::opened(uri.clone(), version, (&language_id, &text)));
        self.place(&text);
        let before = self.by_uri.get(&uri);
        let is_watched = before.is_some_and(|before| before.is_watched);
        let is_marked = before.is_some_and(|before| before.is_marked);
        let known = Arc::default();
        self.by_uri.insert(uri, Document { text, known, is_watched, is_told: false, is_marked, inked: None });
    }

    /// Changes a document. Whether it is open.
    pub(crate) fn change(
        &mut self,
        (uri, version): (&Uri, i32),
        changes: Vec<TextDocumentContentChangeEvent>,
        encoding: Encoding,
    ) -> bool {
        let Some(document) = self.by_uri.get_mut(uri) else { return false };
        let text = Arc::new(document.text.changed(version, changes, encoding));
        let before = std::mem::replace(&mut document.text, Arc::clone(&text));
        document.renew(Since::Text);
        self.place(&text);
        Text::hand_on(before, &text);
        true
    }

    /// Closes a document. Whether it was open.
    pub(crate) fn close(&mut self, uri: &Uri) -> bool {
        let Some(document) = self.by_uri.remove(uri) else { return false };
        Arc::make_mut(&mut self.open).remove(&document.text.path);
        true
    }

    /// Forgets what is known about the documents that depend on other files than `changed`; about all, if `settings` may
    /// have changed. Their names.
    pub(crate) fn forget(&mut self, changed: Option<&Uri>, settings: bool) -> Vec<Uri> {
        let since = if settings { Since::Settings } else { Since::Files };
        let mut forgotten = Vec::new();
        for (uri, document) in &mut self.by_uri {
            if changed != Some(uri) && (settings || document.depends()) {
                document.renew(since);
                forgotten.push(uri.clone());
            }
        }
        forgotten.sort();
        forgotten
    }

    /// The document of that name, be it spelled as it was opened or otherwise.
    pub(crate) fn get(&self, uri: &Uri) -> Option<&Document> {
        self.by_uri.get(uri).or_else(|| self.by_uri.get(&self.open.get(&path_of(uri))?.uri))
    }

    pub(crate) fn get_mut(&mut self, uri: &Uri) -> Option<&mut Document> {
        self.by_uri.get_mut(uri)
    }

    /// The open texts by path.
    pub(crate) fn texts(&self) -> &Open {
        &self.open
    }

    /// A document as it is now.
    pub(crate) fn snapshot(&self, uri: &Uri, setting: Setting) -> Option<Snapshot> {
        let document = self.get(uri)?;
        let (text, known) = (Arc::clone(&document.text), Arc::clone(&document.known));
        Some(Snapshot { text, known, setting })
    }

    fn place(&mut self, text: &Arc<Text>) {
        Arc::make_mut(&mut self.open).insert(text.path.clone(), Arc::clone(text));
    }
}

/// Whether what is said of a file depends on other files.
pub(super) fn uses_others(source: &Source) -> bool {
    let is_use = |statement: &Statement| matches!(statement.node, Node::Use { .. });
    source.parsed.tree.statements.iter().any(is_use)
}
