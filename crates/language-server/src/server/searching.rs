//! A search that somebody asked for: they see how far it is, and may say that what was found is enough.

use super::Server;
use crate::answers;
use crate::documents::SearchView;
use std::sync::Arc;
use std::time::Duration;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    CodeActionParams, CodeActionResponse, CodeActionTriggerKind, ProgressToken, WorkDoneProgressCancelParams,
};

/// A search that ends sooner is not shown: what comes and goes at once only disturbs.
const SHOWN_AFTER: Duration = Duration::from_millis(500);

/// Ends the view of a search as soon as nobody waits for it.
struct Viewed(Arc<SearchView>);

impl Drop for Viewed {
    fn drop(&mut self) {
        self.0.end();
    }
}

impl Server {
    pub(super) async fn code_actions(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let (range, only) = (params.range, params.context.only);
        // Whoever does not say why it asks, asks wherever the cursor goes.
        let is_asked = params.context.trigger_kind == Some(CodeActionTriggerKind::INVOKED);
        let token = params.work_done_progress_params.work_done_token;
        let can_be_seen = token.is_some() || self.state().facts.progress;
        let search = Arc::new(SearchView::new(is_asked && can_be_seen));
        let viewed = Viewed(Arc::clone(&search));
        if is_asked && can_be_seen {
            self.show_search(token, &search);
        }
        let found = self.ask_seen(&params.text_document.uri, search, move |snapshot| {
            answers::code_actions(snapshot, range, only.as_deref())
        });
        let found = found.await;
        drop(viewed);
        found
    }

    /// Shows how far a search is, under the token of the client or, without one, under our own.
    fn show_search(&self, token: Option<ProgressToken>, search: &Arc<SearchView>) {
        let (server, search) = (self.clone(), Arc::clone(search));
        tokio::spawn(async move {
            let mut found = search.follow();
            if found.changed().await.is_err() {
                return;
            }
            let ends_soon = found.wait_for(Option::is_none);
            if tokio::time::timeout(SHOWN_AFTER, ends_soon).await.is_ok() {
                return;
            }
            let client = server.client();
            let token = match token {
                Some(token) => token,
                None => {
                    let ours = server.state().next_search_token();
                    if client.create_work_done_progress(ours.clone()).await.is_err() {
                        return;
                    }
                    ours
                }
            };
            server.state().searches.push((token.clone(), Arc::clone(&search)));
            let now = |found: &Option<String>| found.clone().unwrap_or_default();
            let first = now(&found.borrow_and_update());
            let progress = client.progress(token.clone(), "Tying this face");
            let progress = progress.with_message(first).with_cancel_button().begin().await;
            while found.borrow().is_some() && found.changed().await.is_ok() {
                let said = found.borrow_and_update().clone();
                if let Some(said) = said {
                    progress.report_with_message(said, None).await;
                }
            }
            progress.finish().await;
            server.state().searches.retain(|(other, _)| *other != token);
        });
    }

    /// The client wants no more of a search: what was found so far is enough.
    pub(crate) async fn progress_cancelled(&self, params: WorkDoneProgressCancelParams) {
        let state = self.state();
        let meant = state.searches.iter().filter(|(token, _)| *token == params.token);
        meant.for_each(|(_, search)| search.settle());
    }
}
