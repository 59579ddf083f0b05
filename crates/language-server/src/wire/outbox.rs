//! What is to be sent, in the order in which it was put in.

use serde::Serialize;
use std::io;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::io::{AsyncWrite, AsyncWriteExt};
use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tower_lsp::ls_types::notification::Notification;

/// An output that takes what it has room for, and never waits.
pub(crate) type ReadyOutput = Box<dyn io::Write + Send>;

/// Takes messages from any thread, at once and in order.
#[derive(Clone)]
pub(crate) struct Outbox(Arc<Mutex<Outgoing>>);

/// What is on its way out. A message before which nothing waits is written by whoever sends it, as far as there is room:
/// that is sooner than to wake the task that writes what waits.
struct Outgoing {
    ready: Option<ReadyOutput>,
    queue: UnboundedSender<Vec<u8>>,
    waiting: Arc<AtomicUsize>,
}

/// What waits to be written.
pub(crate) struct Queue {
    messages: UnboundedReceiver<Vec<u8>>,
    waiting: Arc<AtomicUsize>,
}

#[derive(Serialize)]
struct Notice<P> {
    jsonrpc: &'static str,
    method: &'static str,
    params: P,
}

impl Outbox {
    /// `ready`: the output itself, if it can be had without waiting.
    pub(crate) fn new(ready: Option<ReadyOutput>) -> (Self, Queue) {
        let (queue, messages) = unbounded_channel();
        let waiting = Arc::new(AtomicUsize::new(0));
        let outgoing = Outgoing { ready, queue, waiting: Arc::clone(&waiting) };
        (Self(Arc::new(Mutex::new(outgoing))), Queue { messages, waiting })
    }

    /// Notifies the client: it need not answer.
    pub(crate) fn notify<N: Notification>(&self, params: N::Params) {
        self.send(&Notice { jsonrpc: "2.0", method: N::METHOD, params });
    }

    /// Sends a message. After the end of the session it goes nowhere.
    pub(crate) fn send(&self, message: &impl Serialize) {
        if let Ok(body) = serde_json::to_vec(message) {
            let mut frame = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
            frame.extend_from_slice(&body);
            self.outgoing().put(frame);
        }
    }

    /// Nothing put in after this is sent.
    pub(crate) fn end(&self) {
        let mut outgoing = self.outgoing();
        outgoing.ready = None;
        outgoing.queue(Vec::new());
    }

    fn outgoing(&self) -> MutexGuard<'_, Outgoing> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Outgoing {
    fn put(&mut self, mut frame: Vec<u8>) {
        if let Some(output) = self.ready.as_mut().filter(|_| self.waiting.load(Ordering::Acquire) == 0) {
            // What fails here fails again where it is waited for, and ends the session there.
            let written = output.write(&frame).unwrap_or(0);
            frame.drain(..written);
        }
        if !frame.is_empty() {
            self.queue(frame);
        }
    }

    fn queue(&mut self, bytes: Vec<u8>) {
        self.waiting.fetch_add(1, Ordering::Release);
        let _ = self.queue.send(bytes);
    }
}

/// Writes all that waits, until an [`Outbox`] says that this was the end, none is left, or the output is closed.
pub(crate) async fn write(mut queue: Queue, mut output: impl AsyncWrite + Unpin) -> io::Result<()> {
    while let Some(mut bytes) = queue.messages.recv().await {
        let (mut count, mut is_over) = (1, bytes.is_empty());
        while let Some(more) = queue.messages.try_recv().ok().filter(|_| !is_over) {
            count += 1;
            is_over = more.is_empty();
            bytes.extend_from_slice(&more);
        }
        output.write_all(&bytes).await?;
        output.flush().await?;
        queue.waiting.fetch_sub(count, Ordering::Release);
        if is_over {
            break;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use tokio::io::AsyncReadExt;

    /// How many bytes there is room for, and what was written there.
    #[derive(Clone)]
    struct Room(Arc<Mutex<(usize, Vec<u8>)>>);

    impl Room {
        fn of(bytes: usize) -> Self {
            Self(Arc::new(Mutex::new((bytes, Vec::new()))))
        }

        fn written(&self) -> String {
            String::from_utf8(self.0.lock().unwrap().1.clone()).unwrap()
        }
    }

    impl io::Write for Room {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let (room, written) = &mut *self.0.lock().unwrap();
            let some = bytes.len().min(*room);
            if some == 0 {
                return Err(io::ErrorKind::WouldBlock.into());
            }
            *room -= some;
            written.extend_from_slice(&bytes[..some]);
            Ok(some)
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    fn frame(number: u32) -> String {
        format!("Content-Length: 1\r\n\r\n{number}")
    }

    #[tokio::test]
    async fn what_there_is_room_for_is_written_by_the_sender_and_the_rest_follows_in_order() {
        for room in [0, 10, frame(1).len(), 1000] {
            let ready = Room::of(room);
            let (outbox, queue) = Outbox::new(Some(Box::new(ready.clone())));
            (1..=3).for_each(|number| outbox.send(&number));
            outbox.end();
            outbox.send(&4);
            let (output, mut client) = tokio::io::duplex(1000);
            write(queue, output).await.unwrap();
            let mut rest = String::new();
            client.read_to_string(&mut rest).await.unwrap();
            let at_once = ready.written();
            assert_eq!(at_once.len(), room.min(3 * frame(1).len()));
            assert_eq!(at_once + &rest, frame(1) + &frame(2) + &frame(3), "{room}");
        }
    }

    #[tokio::test]
    async fn once_all_is_written_the_sender_writes_again() {
        let ready = Room::of(0);
        let (outbox, queue) = Outbox::new(Some(Box::new(ready.clone())));
        outbox.send(&1);
        let (output, mut client) = tokio::io::duplex(1000);
        let writing = tokio::spawn(write(queue, output));
        let mut first = vec![0; frame(1).len()];
        client.read_exact(&mut first).await.unwrap();
        tokio::task::yield_now().await;
        ready.0.lock().unwrap().0 = 1000;
        outbox.send(&2);
        assert_eq!((String::from_utf8(first).unwrap(), ready.written()), (frame(1), frame(2)));
        writing.abort();
    }
}
