//! How a request is answered: from a snapshot, while everything else goes on.

use super::Server;
use crate::documents::{DocumentText, Index, SearchView, Setting, Snapshot, Version, path_of};
use knotwright_workspace::{MARKDOWN_ENDING, PATTERN_ENDING};
use std::ffi::OsStr;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::ls_types::{TextDocumentPositionParams, Uri};

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
    /// Answers a question about a document as it is now; `None` if there is none. If the document changes meanwhile the
    /// answer is of no use to anybody, and that is the answer.
    pub(crate) async fn ask<T, A>(&self, uri: &Uri, answer: A) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> T + Send + 'static,
    {
        self.ask_seen(uri, Arc::default(), answer).await
    }

    /// Answers such a question; `search`: who looks on meanwhile.
    pub(super) async fn ask_seen<T, A>(
        &self,
        uri: &Uri,
        search: Arc<SearchView>,
        answer: A,
    ) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> T + Send + 'static,
    {
        let version = || self.state().documents.get(uri).and_then(|document| document.version.text.version);
        let asked = version();
        let found = self.ask_snapshot_seen(uri, search, answer).await?;
        if asked.is_some() && version() != asked {
            return Err(modified());
        }
        Ok(found)
    }

    /// Answers a question about a document whose answer is of use also if the document has changed since it was asked.
    pub(crate) async fn ask_snapshot<T, A>(&self, uri: &Uri, answer: A) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> T + Send + 'static,
    {
        self.ask_snapshot_seen(uri, Arc::default(), answer).await
    }

    async fn ask_snapshot_seen<T, A>(
        &self,
        uri: &Uri,
        search: Arc<SearchView>,
        answer: A,
    ) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> T + Send + 'static,
    {
        let (snapshot, setting) = {
            let state = self.state();
            let setting = Setting { search, ..state.setting() };
            (state.documents.snapshot(uri, setting.clone()), setting)
        };
        let (asked, given_up) = (uri.clone(), Arc::clone(&setting.given_up));
        let work = move || snapshot.or_else(|| saved(&asked, setting)).map(|it| answer(&it));
        let found = self.run_cancellable(given_up, work);
        Ok(found.await?.flatten())
    }

    /// Answers a question about a document that may have no answer.
    pub(crate) async fn ask_optional<T, A>(&self, uri: &Uri, answer: A) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> Option<T> + Send + 'static,
    {
        Ok(self.ask(uri, answer).await?.flatten())
    }

    /// Answers a question about the pattern at a position; `None` if there is none.
    pub(crate) async fn ask_at<T, A>(
        &self,
        place: &TextDocumentPositionParams,
        answer: A,
    ) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> T + Send + 'static,
    {
        let at = place.position;
        self.ask_optional(&place.text_document.uri, move |snapshot| {
            snapshot.at(at).map(|pattern| answer(&pattern))
        })
        .await
    }

    /// Answers a question about a position that may have no answer.
    pub(crate) async fn ask_optional_at<T, A>(
        &self,
        place: &TextDocumentPositionParams,
        answer: A,
    ) -> Result<Option<T>>
    where
        T: Send + 'static,
        A: FnOnce(&Snapshot) -> Option<T> + Send + 'static,
    {
        Ok(self.ask_at(place, answer).await?.flatten())
    }

    /// Does something while messages arrive; `None` if nobody waits for it when its turn comes.
    pub(crate) async fn run_blocking<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<Option<T>> {
        self.run_cancellable(Arc::default(), work).await
    }

    /// Does something while messages arrive; `given_up` is set as soon as nobody waits for it.
    pub(super) async fn run_cancellable<T: Send + 'static>(
        &self,
        given_up: Arc<AtomicBool>,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let waiting = Waiting(Arc::clone(&given_up));
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

/// A file that is not open, as it is saved: clients ask about such when an answer has led them there.
pub(crate) fn saved(uri: &Uri, setting: Setting) -> Option<Snapshot> {
    let path = path_of(uri);
    let place = Path::new(&path);
    let is_ours = |ending: &OsStr| [PATTERN_ENDING, MARKDOWN_ENDING].iter().any(|ours| ending == *ours);
    if !place.extension().is_some_and(is_ours) || !is_within(&setting.index, place) {
        return None;
    }
    let text = knotwright_workspace::read_text(place).ok()?;
    Some(Snapshot::new(Version::new(DocumentText::saved(&path, &text)?), setting))
}

/// Nothing outside the folders that the client has open is read because it asks.
fn is_within(index: &Index, place: &Path) -> bool {
    index.folders().iter().any(|folder| place.starts_with(folder))
}

fn modified() -> Error {
    let message = "The document has changed in the meantime.".into();
    Error { code: ErrorCode::ServerError(CONTENT_MODIFIED), message, data: None }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::Outbox;
    use std::future::poll_fn;
    use std::sync::mpsc;
    use std::task::Poll;
    use tokio::sync::watch;
    use tower_lsp::LspService;

    #[tokio::test]
    async fn a_mistake_of_ours_is_an_answer_and_nothing_stops() {
        let (service, _socket) =
            LspService::new(|client| Server::new(client, Outbox::new(None).0, watch::channel(None).0));
        let server = service.inner();
        let holding = server.clone();
        let slip = server
            .run_blocking(move || {
                let _held = holding.state();
                panic!("a slip, on purpose")
            })
            .await;
        assert_eq!(slip.map(|none: Option<()>| none).unwrap_err().code, ErrorCode::InternalError);
        assert_eq!(server.run_blocking(|| 3).await, Ok(Some(3)));
        assert_eq!(server.state().token_results, 0, "what was held is still to be had");
    }

    #[test]
    fn what_is_begun_learns_that_nobody_waits_for_it() {
        let runtime = tokio::runtime::Builder::new_current_thread().build().unwrap();
        runtime.block_on(async {
            let (service, _socket) =
                LspService::new(|client| Server::new(client, Outbox::new(None).0, watch::channel(None).0));
            let (given_up, ((tell, heard), (begin, begun))) =
                (Arc::default(), (mpsc::channel(), mpsc::channel()));
            let seen: Arc<AtomicBool> = Arc::clone(&given_up);
            let work = move || {
                begin.send(()).unwrap();
                while !seen.load(Ordering::Relaxed) {
                    std::thread::yield_now();
                }
                tell.send(()).unwrap();
            };
            let mut question = Box::pin(service.inner().run_cancellable(given_up, work));
            assert!(poll_fn(|context| Poll::Ready(question.as_mut().poll(context).is_pending())).await);
            begun.recv().unwrap();
            drop(question);
            assert!(heard.recv().is_ok());
        });
    }

    #[test]
    fn what_nobody_waits_for_is_not_begun() {
        let runtime = tokio::runtime::Builder::new_current_thread().max_blocking_threads(1).build().unwrap();
        runtime.block_on(async {
            let (service, _socket) =
                LspService::new(|client| Server::new(client, Outbox::new(None).0, watch::channel(None).0));
            let ((go, wait), (tell, heard)) = (mpsc::channel(), mpsc::channel());
            let busy = tokio::task::spawn_blocking(move || wait.recv());
            let mut question = Box::pin(service.inner().run_blocking(move || tell.send(())));
            let waits = poll_fn(|context| Poll::Ready(question.as_mut().poll(context).is_pending()));
            assert!(waits.await, "the only hand is busy");
            drop(question);
            go.send(()).unwrap();
            busy.await.unwrap().unwrap();
            assert!(heard.recv().is_err());
        });
    }
}
