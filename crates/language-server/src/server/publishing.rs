//! Findings, unasked: of every open document, always of its newest version.

use super::Server;
use crate::answers::{DocumentFindings, diagnostics, diagnostics_while_tied, first_diagnostics};
use crate::documents::{KnownText, OpenDocument, Snapshot, is_about};
use knotwright_checker::Finding;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::Receiver;
use std::sync::{Arc, Weak};
use std::thread;
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
    /// What is found at once is said at once; of a document in which nothing is shown yet, the first thing that is wrong even
    /// while the rest is being tied. If more may be found, which takes long, that is said later, after what is found at once in
    /// other documents: nothing that was said is taken back then. The search for it is given up when the document changes.
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
        let (said_rules, is_clean) = (self.said_rules(uri), !self.has_diagnostics(uri));
        let found = find_diagnostics(snapshot, |snapshot| {
            // What is shown already must be found again, or it would go and come back.
            if is_clean && !snapshot.text.is_page() {
                snapshot.look_telling(&|findings| self.publish_while_tied(uri, snapshot, &findings));
            }
            first_diagnostics(snapshot, &said_rules)
        });
        let (is_all, known) = (found.is_all, Weak::clone(&found.known));
        let is_newer = self.publish(uri, found);
        if !is_all && !is_newer {
            self.queue_diagnostics(DueDiagnostics::Rest(uri.clone(), known));
        }
        is_newer
    }

    /// Says what was found first in a version that is still being tied.
    fn publish_while_tied(&self, uri: &Uri, snapshot: &Snapshot, findings: &[Finding]) {
        let Some(diagnostics) = diagnostics_while_tied(snapshot, findings) else { return };
        let known = Arc::downgrade(&snapshot.known);
        let mut state = self.state();
        let document = state.documents.get_mut(uri);
        if let Some(document) = document.filter(|document| is_about(&known, &document.version)) {
            self.send_diagnostics(uri, document, diagnostics, Vec::new());
        }
        drop(state);
        give_way();
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
        if let Some(diagnostics) = found.diagnostics.filter(|_| is_shown) {
            self.send_diagnostics(uri, document, diagnostics, found.doubtful);
        }
        drop(state);
        give_way();
        false
    }

    /// Sent while nothing can change, so that nothing older is ever sent after it.
    fn send_diagnostics(
        &self,
        uri: &Uri,
        document: &mut OpenDocument,
        sure: Vec<Diagnostic>,
        doubtful: Vec<Diagnostic>,
    ) {
        if document.say(sure, doubtful) {
            let (diagnostics, version) = (document.said().to_vec(), document.version.text.version);
            let params = PublishDiagnosticsParams { uri: uri.clone(), diagnostics, version };
            self.outbox().notify::<PublishDiagnostics>(params);
        }
    }

    /// Takes back what was said of a document.
    pub(crate) fn clear_diagnostics(&self, uri: &Uri) {
        let params = PublishDiagnosticsParams { uri: uri.clone(), diagnostics: Vec::new(), version: None };
        self.outbox().notify::<PublishDiagnostics>(params);
    }
}

/// Whoever reads what was sent may have been woken on this processor, and would wait while more is looked for.
fn give_way() {
    thread::yield_now();
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
