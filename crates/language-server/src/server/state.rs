//! What the server holds.

use super::publishing::DueDiagnostics;
use crate::client::ClientFeatures;
use crate::documents::{Documents, Index, SearchView, Setting, Snapshot};
use crate::preview::Live;
use crate::serve::STACK;
use crate::wire::{Outbox, Parent};
use knotwright_workspace::Homes;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError, Weak, mpsc};
use std::thread;
use tokio::sync::watch;
use tower_lsp::Client;
use tower_lsp::ls_types::{ProgressToken, Uri};

/// The server; clones are the same one.
#[derive(Clone)]
pub(crate) struct Server {
    held: Arc<Held>,
}

/// The server, for those that it holds itself.
#[derive(Clone)]
pub(crate) struct ServerRef(Weak<Held>);

impl ServerRef {
    /// The server, if it is still there.
    pub(crate) fn get(&self) -> Option<Server> {
        self.0.upgrade().map(|held| Server { held })
    }
}

struct Held {
    state: Mutex<ServerState>,
    outbox: Outbox,
    client: Client,
    parent: watch::Sender<Option<Parent>>,
    /// What is to be looked through; the hand that does it begins with the first.
    diagnosing: OnceLock<Option<mpsc::Sender<DueDiagnostics>>>,
}

/// What changes while it runs.
#[derive(Debug, Default)]
pub(crate) struct ServerState {
    pub(crate) facts: Arc<ClientFeatures>,
    pub(crate) documents: Documents,
    pub(crate) homes: Arc<Homes>,
    /// The folders the client has open.
    pub(crate) folders: Vec<Uri>,
    pub(crate) index: Arc<Index>,
    /// Whether what is known of the files in the index may depend on what has changed since.
    pub(crate) is_index_stale: bool,
    /// How many times the client was asked for its settings.
    pub(crate) settings_requests: u64,
    /// How many times what it shows of documents that it did not edit has changed.
    pub(crate) refreshes: u64,
    /// How many lists of semantic tokens were sent.
    pub(crate) token_results: u64,
    /// How many times the client was offered to have Markdown formatted, or no longer.
    pub(crate) formatting_offers: u64,
    /// The searches that somebody sees, by the token of their progress.
    pub(crate) searches: Vec<(ProgressToken, Arc<SearchView>)>,
    /// How many of them had a token of ours.
    pub(crate) search_tokens: u64,
    /// The live pictures, by document. One that is taken out ends.
    pub(crate) previews: HashMap<Uri, Live>,
}

impl ServerState {
    /// Everything around the documents as it is now.
    pub(crate) fn setting(&self) -> Setting {
        Setting {
            facts: Arc::clone(&self.facts),
            homes: Arc::clone(&self.homes),
            open: Arc::clone(self.documents.open_versions()),
            index: Arc::clone(&self.index),
            given_up: Arc::default(),
            search: Arc::default(),
            fenced: None,
        }
    }

    /// A document as it is now.
    pub(crate) fn snapshot(&self, uri: &Uri) -> Option<Snapshot> {
        self.documents.snapshot(uri, self.setting())
    }

    /// A document as it is now, for whoever looks through it unasked, as long as it is open.
    pub(crate) fn unasked_snapshot(&mut self, uri: &Uri) -> Option<Snapshot> {
        let setting = self.setting();
        self.documents.unasked_snapshot(uri, setting)
    }

    /// A token for the progress of a search.
    pub(crate) fn next_search_token(&mut self) -> ProgressToken {
        self.search_tokens += 1;
        ProgressToken::String(format!("knotwright/face/{}", self.search_tokens))
    }
}

impl Server {
    pub(crate) fn new(client: Client, outbox: Outbox, parent: watch::Sender<Option<Parent>>) -> Self {
        let (state, diagnosing) = (Mutex::default(), OnceLock::new());
        Self { held: Arc::new(Held { state, outbox, client, parent, diagnosing }) }
    }

    /// Held for moments only, never while something is computed. What a panic left behind is still sound: every change
    /// is one assignment.
    pub(crate) fn state(&self) -> MutexGuard<'_, ServerState> {
        self.held.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What does not keep the server from ending.
    pub(crate) fn weakly(&self) -> ServerRef {
        ServerRef(Arc::downgrade(&self.held))
    }

    /// Has a document looked through, after those that wait already.
    pub(super) fn queue_diagnostics(&self, due: DueDiagnostics) {
        let diagnosing = self.held.diagnosing.get_or_init(|| {
            let (sender, documents) = mpsc::channel();
            // Whoever looks does not keep the server alive.
            let held = Arc::downgrade(&self.held);
            let look = move || Self::run_diagnostics(documents, || held.upgrade().map(|held| Self { held }));
            thread::Builder::new().stack_size(STACK).spawn(look).ok().map(|_| sender)
        });
        if let Some(diagnosing) = diagnosing {
            let _ = diagnosing.send(due);
        }
    }

    pub(crate) fn outbox(&self) -> &Outbox {
        &self.held.outbox
    }

    pub(crate) fn client(&self) -> &Client {
        &self.held.client
    }

    /// From now on the end of this process is the end of the session.
    pub(crate) fn follow(&self, parent: Parent) {
        self.held.parent.send_replace(Some(parent));
    }
}
