//! Findings, unasked: of every open document, always of its newest version.

use super::Server;
use crate::answers::diagnostics;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::mpsc::Receiver;
use tower_lsp::ls_types::notification::PublishDiagnostics;
use tower_lsp::ls_types::{PublishDiagnosticsParams, Uri};

impl Server {
    /// Looks through a document and says what was found. If somebody is at it, they will see that it has changed.
    pub(crate) fn watch(&self, uri: &Uri) {
        let mut state = self.state();
        if let Some(preview) = state.previews.get(uri) {
            preview.changed();
        }
        if state.facts.pulls {
            return;
        }
        let Some(document) = state.documents.get_mut(uri) else { return };
        // A watcher that was at work already may have said it before we came here.
        if document.is_told || std::mem::replace(&mut document.is_watched, true) {
            return;
        }
        drop(state);
        self.look_through(uri.clone());
    }

    /// Works off what is to be looked through, one document after another, until the server is gone. One hand does it
    /// all: memory that a look has freed is at hand for the next one, and not kept by whoever looked last.
    pub(super) fn look_on(documents: Receiver<Uri>, server: impl Fn() -> Option<Self>) {
        while let Ok(uri) = documents.recv() {
            while server().is_some_and(|server| server.watch_once(&uri)) {}
        }
    }

    /// Says what is found in the present version. Whether there is a newer one by then.
    fn watch_once(&self, uri: &Uri) -> bool {
        let Some(snapshot) = self.state().snapshot(uri) else { return false };
        // A panic is a mistake of ours; the next edit is looked through again all the same.
        let found = catch_unwind(AssertUnwindSafe(|| (diagnostics(&snapshot), snapshot.nth(0).is_some())));
        let mut state = self.state();
        let Some(document) = state.documents.get_mut(uri) else { return false };
        if !Arc::ptr_eq(&document.known, &snapshot.known) {
            return true;
        }
        document.is_watched = false;
        document.is_told = true;
        let version = snapshot.text.version;
        // Let go before it is said: the next edit often comes at once, and is read soonest if nobody holds this one.
        drop(snapshot);
        // Sent while nothing can change, so that nothing older is ever sent after it.
        if let Ok((diagnostics, is_ours)) = found {
            // Markdown without a pattern is none of ours, once nothing of ours is shown there.
            if !is_ours && !document.is_marked {
                return false;
            }
            document.is_marked = !diagnostics.is_empty();
            let uri = uri.clone();
            self.outbox().notify::<PublishDiagnostics>(PublishDiagnosticsParams {
                uri,
                diagnostics,
                version,
            });
        }
        false
    }

    /// Takes back what was said of a document.
    pub(crate) fn unsay(&self, uri: &Uri) {
        let params = PublishDiagnosticsParams { uri: uri.clone(), diagnostics: Vec::new(), version: None };
        self.outbox().notify::<PublishDiagnostics>(params);
    }
}
