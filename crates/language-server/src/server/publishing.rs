//! Findings, unasked: of every open document, always of its newest version.

use super::Server;
use crate::answers::{DocumentFindings, diagnostics, first_diagnostics};
use crate::documents::{KnownText, Snapshot, Version};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::Receiver;
use std::sync::{Arc, Weak};
use tower_lsp::ls_types::notification::PublishDiagnostics;
use tower_lsp::ls_types::{Diagnostic, PublishDiagnosticsParams, Uri};

/// What is to be looked through.
pub(crate) enum DueDiagnostics {
    /// A document, in its newest version, for what is found at once.
    First(Uri),
    /// The rest of what was found in a version, which may be gone by now.
    Rest(Uri, Weak<KnownText>),
}

/// What was found in a version of a document.
struct FoundDiagnostics {
    /// The version, which may be gone by now.
    known: Weak<KnownText>,
    /// `None` if we made a mistake.
    diagnostics: Option<Vec<Diagnostic>>,
    /// What is wrong besides, unless it follows from those.
    doubtful: Vec<Diagnostic>,
    is_all: bool,
    /// Whether a pattern stands in it.
    is_ours: bool,
}

/// Whether that is what is known of the version.
fn is_about(known: &Weak<KnownText>, version: &Version) -> bool {
    Weak::ptr_eq(known, &Arc::downgrade(&version.known))
}

impl Server {
    /// Looks through a document and says what was found. If somebody is at it, they will see that it has changed.
    pub(crate) fn schedule_diagnostics(&self, uri: &Uri) {
        let mut state = self.state();
        if let Some(preview) = state.previews.get(uri) {
            preview.changed();
        }
        if state.facts.pulls {
            return;
        }
        let Some(document) = state.documents.get_mut(uri) else { return };
        // A watcher that was at work already may have said it before we came here.
        if document.is_published || std::mem::replace(&mut document.is_scheduled, true) {
            return;
        }
        drop(state);
        self.queue_diagnostics(DueDiagnostics::First(uri.clone()));
    }

    /// Works off what is to be looked through, one document after another, until the server is gone. One hand does it
    /// all: memory that a look has freed is at hand for the next one, and not kept by whoever looked last.
    ///
    /// What is found at once is said at once. If more may be found, which takes long, that is said later, after what is
    /// found at once in other documents: nothing that was said is taken back then. The search for it is given up when the
    /// document changes.
    pub(super) fn run_diagnostics(documents: Receiver<DueDiagnostics>, server: impl Fn() -> Option<Self>) {
        while let Ok(due) = documents.recv() {
            match due {
                DueDiagnostics::First(uri) => {
                    while server().is_some_and(|server| server.publish_first(&uri)) {}
                }
                DueDiagnostics::Rest(uri, known) => {
                    server().into_iter().for_each(|server| server.publish_rest(&uri, &known));
                }
            }
        }
    }

    /// Says what is found at once in the present version. Whether there is a newer one by then.
    fn publish_first(&self, uri: &Uri) -> bool {
        let Some(snapshot) = self.state().unasked_snapshot(uri) else { return false };
        let said_rules = self.said_rules(uri);
        let found = find_diagnostics(snapshot, |snapshot| first_diagnostics(snapshot, &said_rules));
        let (is_all, known) = (found.is_all, Weak::clone(&found.known));
        let is_newer = self.publish(uri, found);
        if !is_all && !is_newer {
            self.queue_diagnostics(DueDiagnostics::Rest(uri.clone(), known));
        }
        is_newer
    }

    /// Says all that is found in a version, if it is still the present one.
    fn publish_rest(&self, uri: &Uri, known: &Weak<KnownText>) {
        let snapshot = self.state().unasked_snapshot(uri);
        let Some(snapshot) = snapshot.filter(|now| Weak::ptr_eq(known, &Arc::downgrade(&now.known))) else {
            return;
        };
        let all = |snapshot: &Snapshot| DocumentFindings::whole(diagnostics(snapshot));
        self.publish(uri, find_diagnostics(snapshot, all));
    }

    /// Says what was found in a version, if it is still the present one. Whether there is a newer one.
    fn publish(&self, uri: &Uri, found: FoundDiagnostics) -> bool {
        let mut state = self.state();
        let Some(document) = state.documents.get_mut(uri) else { return false };
        if !is_about(&found.known, &document.version) {
            return true;
        }
        document.is_scheduled = false;
        document.is_published = true;
        // Markdown without a pattern is none of ours, once nothing of ours is shown there.
        let is_shown = found.is_ours || document.has_diagnostics();
        let Some(diagnostics) = found.diagnostics.filter(|_| is_shown) else { return false };
        let diagnostics = document.say(diagnostics, found.doubtful);
        let version = document.version.text.version;
        // Sent while nothing can change, so that nothing older is ever sent after it.
        self.outbox().notify::<PublishDiagnostics>(PublishDiagnosticsParams {
            uri: uri.clone(),
            diagnostics,
            version,
        });
        false
    }

    /// Takes back what was said of a document.
    pub(crate) fn clear_diagnostics(&self, uri: &Uri) {
        let params = PublishDiagnosticsParams { uri: uri.clone(), diagnostics: Vec::new(), version: None };
        self.outbox().notify::<PublishDiagnostics>(params);
    }
}

/// Looks through a version. Nothing of it is held afterwards.
fn find_diagnostics(snapshot: Snapshot, find: impl Fn(&Snapshot) -> DocumentFindings) -> FoundDiagnostics {
    let found = || (find(&snapshot), snapshot.nth(0).is_some());
    let known = Arc::downgrade(&snapshot.known);
    // A panic is a mistake of ours; the next edit is looked through again all the same.
    match catch_unwind(AssertUnwindSafe(found)) {
        Ok((DocumentFindings { diagnostics, is_all, doubtful }, is_ours)) => {
            FoundDiagnostics { known, diagnostics: Some(diagnostics), doubtful, is_all, is_ours }
        }
        Err(_) => {
            let (diagnostics, doubtful) = (None, Vec::new());
            FoundDiagnostics { known, diagnostics, doubtful, is_all: true, is_ours: false }
        }
    }
}
