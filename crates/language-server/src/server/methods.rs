//! The methods of the protocol. What changes something is done at once, without waiting for anything; what asks
//! something is answered beside it.

use super::Server;
use super::capabilities::hello;
use crate::client::Facts;
use crate::wire::Parent;
use std::sync::Arc;
use tower_lsp::LanguageServer;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::*;

impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        let facts = Arc::new(Facts::of(&params.capabilities));
        self.state().facts = Arc::clone(&facts);
        if let Some(parent) = params.process_id.and_then(Parent::seen) {
            self.follow(parent);
        }
        Ok(hello(&facts))
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let TextDocumentItem { uri, version, text, .. } = params.text_document;
        self.state().documents.open(uri.clone(), version, &text);
        self.changed(&uri);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let VersionedTextDocumentIdentifier { uri, version } = params.text_document;
        let mut state = self.state();
        let encoding = state.facts.encoding;
        let done = state.documents.change((&uri, version), params.content_changes, encoding);
        drop(state);
        if done.is_some() {
            self.changed(&uri);
        }
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        let uri = params.text_document.uri;
        let mut state = self.state();
        let (was_open, pulls) = (state.documents.close(&uri).is_some(), state.facts.pulls);
        drop(state);
        if was_open && !pulls {
            self.unsay(&uri);
        }
        self.changed(&uri);
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        self.pull(params).await
    }
}

impl Server {
    /// A document has changed: it and those that may depend on it are looked through again.
    fn changed(&self, uri: &Uri) {
        self.watch(uri);
        let others = self.state().documents.forget(Some(uri), false);
        others.iter().for_each(|other| self.watch(other));
        if !others.is_empty() {
            self.pull_again();
        }
    }
}
