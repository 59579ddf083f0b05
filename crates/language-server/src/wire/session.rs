//! One client, from its first message to the end.

use super::frames::{Frames, WireFrame};
use super::message::{Message, read};
use super::outbox::{Outbox, Queue, write};
use super::parent::Parent;
use futures_util::{SinkExt, StreamExt};
use std::future::poll_fn;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::pin::Pin;
use std::task::Poll;
use std::time::Duration;
use tokio::io::{AsyncBufRead, AsyncWrite};
use tokio::sync::watch;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};
use tower_lsp::{ClientSocket, ExitedError, LanguageServer, LspService};
use tower_service::Service;

/// How long a client that is leaving has to read what was answered before the end.
const LAST_WORDS: Duration = Duration::from_millis(500);

type PendingAnswer = Pin<Box<dyn Future<Output = Result<Option<Response>, ExitedError>> + Send>>;

/// How a session ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SessionEnd {
    /// As the protocol wants it: `shutdown`, then `exit` or the end of the input.
    Orderly,
    /// Without `shutdown`.
    Sudden,
}

/// What a session runs on.
pub(crate) struct Connection<S: LanguageServer> {
    pub(crate) service: LspService<S>,
    pub(crate) socket: ClientSocket,
    pub(crate) outbox: Outbox,
    pub(crate) queue: Queue,
    pub(crate) parent: watch::Receiver<Option<Parent>>,
}

/// Serves one client until `exit`, the end of `input`, the end of `output`, or the death of the parent.
pub(crate) async fn session<S, R, W>(ends: Connection<S>, input: R, output: W) -> SessionEnd
where
    S: LanguageServer,
    R: AsyncBufRead + Unpin,
    W: AsyncWrite + Unpin + Send + 'static,
{
    let Connection { service, socket, outbox, queue, parent } = ends;
    let (mut requests, responses) = socket.split();
    let ours = outbox.clone();
    let asking = tokio::spawn(async move {
        while let Some(request) = requests.next().await {
            ours.send(&request);
        }
    });
    let mut writing = tokio::spawn(write(queue, output));
    let mut dispatcher = Dispatcher { service, responses, outbox, was_shut_down: false };
    let client_reads = tokio::select! {
        () = dispatcher.serve(Frames::new(input)) => true,
        _ = &mut writing => false,
        () = gone(parent) => true,
    };
    asking.abort();
    if client_reads {
        // What was answered before the end is still written, if the other side reads it.
        dispatcher.outbox.end();
        let _ = tokio::time::timeout(LAST_WORDS, writing).await;
    }
    if dispatcher.was_shut_down { SessionEnd::Orderly } else { SessionEnd::Sudden }
}

async fn gone(mut parent: watch::Receiver<Option<Parent>>) {
    let known = parent.wait_for(Option::is_some).await.ok().and_then(|known| *known);
    match known {
        Some(parent) => parent.gone().await,
        None => std::future::pending().await,
    }
}

/// Where messages arrive.
struct Dispatcher<S: LanguageServer, A> {
    service: LspService<S>,
    responses: A,
    outbox: Outbox,
    was_shut_down: bool,
}

impl<S, A> Dispatcher<S, A>
where
    S: LanguageServer,
    A: futures_util::Sink<Response> + Unpin,
{
    async fn serve<R: AsyncBufRead + Unpin>(&mut self, mut frames: Frames<R>) {
        while let Ok(Some(frame)) = frames.next().await {
            let body = match frame {
                WireFrame::Body(body) => body,
                WireFrame::Garbage(why) => {
                    self.outbox.send(&Response::from_error(Id::Null, unreadable(why)));
                    continue;
                }
            };
            match read(&body) {
                Ok(Message::Request(request)) if request.method() == "exit" => return,
                Ok(Message::Request(request)) => self.take(request).await,
                Ok(Message::Response(response)) => _ = self.responses.send(response).await,
                Err(refusal) => self.outbox.send(&refusal),
            }
        }
    }

    /// Begins at once. What is not done at once, only requests are, goes on while the next is done.
    async fn take(&mut self, request: Request) {
        self.was_shut_down |= request.method() == "shutdown";
        let id = request.id().cloned();
        let mut answer: PendingAnswer = self.service.call(request);
        let begun = poll_fn(|context| {
            let poll = catch_unwind(AssertUnwindSafe(|| answer.as_mut().poll(context)));
            Poll::Ready(poll)
        });
        match begun.await {
            Ok(Poll::Ready(done)) => deliver(&self.outbox, done),
            Ok(Poll::Pending) => self.leave(answer, id),
            Err(_panic) => fail(&self.outbox, id),
        }
    }

    fn leave(&self, answer: PendingAnswer, id: Option<Id>) {
        let outbox = self.outbox.clone();
        tokio::spawn(async move {
            match tokio::spawn(answer).await {
                Ok(done) => deliver(&outbox, done),
                Err(_panic) => fail(&outbox, id),
            }
        });
    }
}

fn deliver(outbox: &Outbox, done: Result<Option<Response>, ExitedError>) {
    if let Ok(Some(response)) = done {
        outbox.send(&response);
    }
}

fn fail(outbox: &Outbox, id: Option<Id>) {
    if let Some(id) = id {
        outbox.send(&Response::from_error(id, crate::failed()));
    }
}

fn unreadable(why: &'static str) -> Error {
    Error { message: format!("This is not a message: {why}.").into(), ..Error::parse_error() }
}
