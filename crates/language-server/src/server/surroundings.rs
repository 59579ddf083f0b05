//! What is around the documents changes: files, folders, settings.

use super::Server;
use crate::client::Options;
use crate::documents::{Index, file_of};
use knotwright_workspace::{MARKDOWN_ENDING, SETTINGS_FILE};
use std::collections::HashSet;
use std::path::PathBuf;
use std::sync::Arc;
use tower_lsp::ls_types::{ConfigurationItem, FileEvent, Uri, WorkspaceFoldersChangeEvent};

impl Server {
    /// A document was opened, edited or closed: it and those that may depend on it are looked through again.
    pub(crate) fn document_changed(&self, uri: &Uri) {
        self.schedule_diagnostics(uri);
        let mut state = self.state();
        state.is_index_stale = true;
        let others = state.documents.forget(Some(uri), false);
        drop(state);
        others.iter().for_each(|other| self.schedule_diagnostics(other));
        if !others.is_empty() {
            self.refresh_diagnostics();
            self.refresh_shown();
        }
    }

    /// Files on the disk have changed.
    pub(crate) fn files_changed(&self, events: &[FileEvent]) {
        let changed: HashSet<PathBuf> = events.iter().filter_map(|event| file_of(&event.uri)).collect();
        let is_settings = |file: &PathBuf| file.file_name().is_some_and(|name| name == SETTINGS_FILE);
        let is_page = |file: &PathBuf| file.extension().is_some_and(|ending| ending == MARKDOWN_ENDING);
        let settings = changed.iter().any(is_settings);
        let mut state = self.state();
        // Nothing uses Markdown.
        if changed.iter().all(is_page) {
            state.index = Arc::new(state.index.without(&changed));
            drop(state);
            return self.refresh_diagnostics();
        }
        state.homes = Arc::default();
        state.index = Arc::new(state.index.without(&changed));
        let forgotten = state.documents.forget(None, settings);
        drop(state);
        self.refresh_documents(&forgotten);
    }

    /// Folders were opened or closed.
    pub(crate) fn folders_changed(&self, event: WorkspaceFoldersChangeEvent) {
        let mut state = self.state();
        let gone = |folder: &Uri| event.removed.iter().any(|removed| removed.uri == *folder);
        state.folders.retain(|folder| !gone(folder));
        state.folders.extend(event.added.into_iter().map(|added| added.uri));
        state.index = Arc::new(Index::of_uris(&state.folders));
        drop(state);
        self.refresh_documents(&[]);
    }

    /// The client has other settings: it is asked for them, or has sent them along.
    pub(crate) fn settings_changed(&self, sent: serde_json::Value) {
        if !self.state().facts.configuration {
            return self.apply_options(sent);
        }
        self.request_settings();
    }

    /// Asks the client for its settings. If they change while it is asked, only the answer to the last question counts:
    /// answers may be read in any order.
    pub(crate) fn request_settings(&self) {
        let server = self.clone();
        let mut state = self.state();
        state.settings_requests += 1;
        let number = state.settings_requests;
        drop(state);
        tokio::spawn(async move {
            let item = ConfigurationItem { scope_uri: None, section: Some("knotwright".to_owned()) };
            if let Ok(answer) = server.client().configuration(vec![item]).await
                && let Some(settings) = answer.into_iter().next().filter(|settings| !settings.is_null())
                && server.state().settings_requests == number
            {
                server.apply_options(settings);
            }
        });
    }

    fn apply_options(&self, settings: serde_json::Value) {
        let mut state = self.state();
        let options = Options::read_over(&state.facts.initial_options, settings);
        if state.facts.options == options {
            return;
        }
        let before = std::mem::replace(&mut Arc::make_mut(&mut state.facts).options, options);
        drop(state);
        if before.format_markdown != options.format_markdown {
            self.register_formatting_again();
        }
        self.refresh_shown();
    }

    /// What was said of these documents may hold no more; nor what was said of files that are not open.
    fn refresh_documents(&self, documents: &[Uri]) {
        documents.iter().for_each(|uri| self.schedule_diagnostics(uri));
        self.refresh_diagnostics();
        self.refresh_shown();
    }
}
