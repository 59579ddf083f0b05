//! Hello: who the client is, what it can do, where it works.

use super::Server;
use super::capabilities::hello;
use crate::client::{Facts, Options};
use crate::documents::Index;
use crate::wire::Parent;
use std::sync::Arc;
use tower_lsp::ls_types::{InitializeParams, InitializeResult, ProgressToken, Uri};

impl Server {
    pub(crate) fn hello(&self, params: InitializeParams) -> InitializeResult {
        let mut facts = Facts::of(&params.capabilities);
        facts.options = params.initialization_options.clone().map(Options::read).unwrap_or_default();
        let answer = hello(&facts);
        if let Some(parent) = params.process_id.and_then(Parent::seen) {
            self.follow(parent);
        }
        let mut state = self.state();
        state.facts = Arc::new(facts);
        state.folders = folders(params);
        state.index = Arc::new(Index::of_uris(&state.folders));
        answer
    }

    /// The client has read our hello.
    pub(crate) fn greeted(&self) {
        let facts = Arc::clone(&self.state().facts);
        if facts.configuration {
            self.ask_for_settings();
        }
        if facts.watches {
            self.ask_to_watch();
        }
        self.offer_formatting();
        if facts.progress {
            self.read_ahead();
        }
    }

    /// Reads the files of the workspace before anybody asks, and shows that it does.
    fn read_ahead(&self) {
        let setting = self.state().setting();
        if setting.index.folders().is_empty() {
            return;
        }
        let server = self.clone();
        tokio::spawn(async move {
            let token = ProgressToken::String("knotwright/reading".to_owned());
            let client = server.client();
            if client.create_work_done_progress(token.clone()).await.is_err() {
                return;
            }
            let progress = client.progress(token, "Reading patterns").begin().await;
            let read = server.aside(move || setting.index.files(&setting.homes).len()).await;
            let files = read.ok().flatten().unwrap_or_default();
            progress.finish_with_message(format!("{files} patterns")).await;
        });
    }
}

#[allow(deprecated, reason = "older clients name their folder in older ways")]
fn folders(params: InitializeParams) -> Vec<Uri> {
    let folders = params.workspace_folders.unwrap_or_default();
    if !folders.is_empty() {
        return folders.into_iter().map(|folder| folder.uri).collect();
    }
    let by_path = || Uri::from_file_path(params.root_path.filter(|path| path.starts_with('/'))?);
    params.root_uri.or_else(by_path).into_iter().collect()
}
