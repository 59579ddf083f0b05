//! What is to be sent, in the order in which it was put in.

use serde::Serialize;
use std::io;
use tokio::io::{AsyncWrite, AsyncWriteExt};
use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tower_lsp::ls_types::notification::Notification;

/// Takes messages from any thread, at once and in order.
#[derive(Debug, Clone)]
pub(crate) struct Outbox(UnboundedSender<Vec<u8>>);

/// The other end.
pub(crate) type Outgoing = UnboundedReceiver<Vec<u8>>;

#[derive(Serialize)]
struct Notice<P> {
    jsonrpc: &'static str,
    method: &'static str,
    params: P,
}

impl Outbox {
    pub(crate) fn new() -> (Self, Outgoing) {
        let (sender, receiver) = unbounded_channel();
        (Self(sender), receiver)
    }

    /// Notifies the client: it need not answer.
    pub(crate) fn notify<N: Notification>(&self, params: N::Params) {
        self.send(&Notice { jsonrpc: "2.0", method: N::METHOD, params });
    }

    /// Sends a message. After the end of the session it goes nowhere.
    pub(crate) fn send(&self, message: &impl Serialize) {
        if let Ok(body) = serde_json::to_vec(message) {
            let _ = self.0.send(body);
        }
    }

    /// Nothing put in after this is sent.
    pub(crate) fn end(&self) {
        let _ = self.0.send(Vec::new());
    }
}

/// Writes everything, until an [`Outbox`] says that this was the end, none is left, or the output is closed.
pub(crate) async fn write(mut outgoing: Outgoing, mut output: impl AsyncWrite + Unpin) -> io::Result<()> {
    let mut bytes = Vec::new();
    while let Some(body) = outgoing.recv().await {
        bytes.clear();
        let mut is_over = frame(&mut bytes, &body);
        while let Some(body) = outgoing.try_recv().ok().filter(|_| !is_over) {
            is_over = frame(&mut bytes, &body);
        }
        output.write_all(&bytes).await?;
        output.flush().await?;
        if is_over {
            break;
        }
    }
    Ok(())
}

/// Whether this was the end.
fn frame(bytes: &mut Vec<u8>, body: &[u8]) -> bool {
    if body.is_empty() {
        return true;
    }
    bytes.extend_from_slice(format!("Content-Length: {}\r\n\r\n", body.len()).as_bytes());
    bytes.extend_from_slice(body);
    false
}
