//! Hello: who the client is, what it can do, where it works.

use super::Server;
use super::capabilities::initialize_result;
use crate::client::{ClientFeatures, Options};
use crate::documents::Index;
use crate::wire::Parent;
use std::sync::Arc;
use tower_lsp::ls_types::{InitializeParams, InitializeResult, ProgressToken, Uri};

impl Server {
    pub(crate) fn initialize_session(&self, params: InitializeParams) -> InitializeResult {
        let mut facts = ClientFeatures::of(&params.capabilities);
        facts.initial_options = params.initialization_options.clone().unwrap_or_default();
        facts.options = Options::read(facts.initial_options.clone());
        let answer = initialize_result(&facts);
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
    pub(crate) fn start_session(&self) {
        let facts = Arc::clone(&self.state().facts);
        if facts.configuration {
            self.request_settings();
        }
        if facts.watches {
            self.register_file_watchers();
        }
        self.register_formatting();
        if facts.progress {
            self.index_workspace();
        }
    }

    /// Reads the files of the workspace before anybody asks, and shows that it does.
    fn index_workspace(&self) {
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
            let read = server.run_blocking(move || setting.index.files(&setting.homes).len()).await;
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
