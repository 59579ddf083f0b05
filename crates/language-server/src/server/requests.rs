//! How a request is answered: from a snapshot, beside everything else.

use super::Server;
use crate::documents::Snapshot;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::ls_types::Uri;

/// The document was changed while the answer was looked for.
const CONTENT_MODIFIED: i64 = -32801;

/// Says that the answer is wanted no more, as soon as nobody waits for it.
struct Waiting(Arc<AtomicBool>);

impl Drop for Waiting {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

impl Server {
    /// Answers a question about a document as it is now; `None` if it is not known. If the document changes meanwhile
    /// the answer is of no use to anybody, and that is the answer.
    pub(crate) async fn ask<T, A>(&self, uri: &Uri, answer: A) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> T + Send + 'static,
    {
        let Some(snapshot) = self.state().snapshot(uri) else { return Ok(None) };
        let version = snapshot.version;
        let found = self.aside(move || answer(&snapshot)).await?;
        let now = self.state().documents.get(uri).map(|document| document.version);
        if version.is_some() && now != version {
            return Err(modified());
        }
        Ok(found)
    }

    /// Does something beside the arrival of messages; `None` if nobody waits for it when its turn comes.
    pub(crate) async fn aside<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let waiting = Waiting(Arc::default());
        let given_up = Arc::clone(&waiting.0);
        let task =
            tokio::task::spawn_blocking(
                move || {
                    if given_up.load(Ordering::Relaxed) { None } else { Some(work()) }
                },
            );
        let done = task.await.map_err(|_panic| crate::failed());
        drop(waiting);
        done
    }
}

fn modified() -> Error {
    let message = "The document was changed meanwhile.".into();
    Error { code: ErrorCode::ServerError(CONTENT_MODIFIED), message, data: None }
}
