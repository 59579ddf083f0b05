//! A client that reads every message.

use knotwright_language_server::{SessionEnd, serve};
use serde_json::{Value, json};
use std::collections::VecDeque;
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt, DuplexStream, ReadHalf, WriteHalf, duplex, split};
use tokio::task::JoinHandle;

/// Far more than anything takes; only a server that hangs makes a test wait so long.
const PATIENCE: Duration = Duration::from_secs(60);

pub(crate) struct Client {
    input: ReadHalf<DuplexStream>,
    output: WriteHalf<DuplexStream>,
    received: Vec<u8>,
    unread: VecDeque<Value>,
    server: JoinHandle<SessionEnd>,
    last_id: i64,
    is_done: bool,
}

impl Client {
    /// A client before it has said anything.
    pub(crate) fn silent() -> Self {
        let (ours, theirs) = duplex(1 << 16);
        let ((input, output), (from, to)) = (split(ours), split(theirs));
        let server = tokio::spawn(serve(from, to));
        let (received, unread) = (Vec::new(), VecDeque::new());
        Self { input, output, received, unread, server, last_id: 0, is_done: false }
    }

    /// A client that has said hello.
    pub(crate) async fn with(capabilities: Value) -> Self {
        let mut client = Self::silent();
        client.hello(json!({ "capabilities": capabilities })).await;
        client
    }

    /// Says hello; what the server can do.
    pub(crate) async fn hello(&mut self, params: Value) -> Value {
        let hello = self.ask("initialize", params).await;
        self.tell("initialized", json!({})).await;
        hello["capabilities"].clone()
    }

    pub(crate) async fn send_bytes(&mut self, bytes: &[u8]) {
        self.output.write_all(bytes).await.unwrap();
    }

    pub(crate) async fn send(&mut self, message: &Value) {
        self.send_text(&message.to_string()).await;
    }

    /// Sends a body as it is, be it JSON or not.
    pub(crate) async fn send_text(&mut self, body: &str) {
        self.send_bytes(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes()).await;
    }

    pub(crate) async fn tell(&mut self, method: &str, params: Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params })).await;
    }

    /// Sends a request without waiting for its answer. Its id.
    pub(crate) async fn begin(&mut self, method: &str, params: Value) -> i64 {
        self.last_id += 1;
        let id = self.last_id;
        self.send(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params })).await;
        id
    }

    /// The answer to a request, error or not.
    pub(crate) async fn answer(&mut self, id: impl Into<Value>) -> Value {
        let id = id.into();
        self.first(|message| message.get("method").is_none() && message["id"] == id).await
    }

    /// The result of a request, which must not be an error.
    pub(crate) async fn ask(&mut self, method: &str, params: Value) -> Value {
        let id = self.begin(method, params).await;
        let answer = self.answer(id).await;
        assert_eq!(answer.get("error"), None, "{method}: {answer}");
        answer["result"].clone()
    }

    /// The id of the next request of this method; it is answered later.
    pub(crate) async fn next_request(&mut self, method: &str) -> Value {
        self.first(|message| message["method"] == method).await["id"].clone()
    }

    /// Answers a request of the server.
    pub(crate) async fn answer_with(&mut self, id: Value, result: Value) {
        self.send(&json!({ "jsonrpc": "2.0", "id": id, "result": result })).await;
    }

    /// The params of the next message of this method; a request is answered with `null`.
    pub(crate) async fn next(&mut self, method: &str) -> Value {
        let message = self.first(|message| message["method"] == method).await;
        if let Some(id) = message.get("id") {
            self.answer_with(id.clone(), Value::Null).await;
        }
        message["params"].clone()
    }

    /// The first message that fits. Others are kept, and must be asked for.
    async fn first(&mut self, fits: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.unread.iter().position(&fits) {
            return self.unread.remove(at).unwrap();
        }
        loop {
            let message = self.receive().await.expect("the server ended the session");
            if fits(&message) {
                return message;
            }
            self.unread.push_back(message);
        }
    }

    /// The next message; `None` at the end of the session.
    async fn receive(&mut self) -> Option<Value> {
        loop {
            if let Some(message) = self.cut() {
                return Some(message);
            }
            let read = self.input.read_buf(&mut self.received);
            let read = tokio::time::timeout(PATIENCE, read).await;
            if read.expect("the server says nothing").unwrap() == 0 {
                return None;
            }
        }
    }

    fn cut(&mut self) -> Option<Value> {
        let end = self.received.windows(4).position(|four| four == b"\r\n\r\n")? + 4;
        let head = str::from_utf8(&self.received[..end]).unwrap();
        let length: usize = head.trim().strip_prefix("Content-Length: ").unwrap().parse().unwrap();
        let body = self.received.get(end..end + length)?;
        let message = serde_json::from_slice(body).unwrap();
        self.received.drain(..end + length);
        Some(message)
    }

    /// Ends the session as the protocol wants it. Nothing may be left unread.
    pub(crate) async fn goodbye(mut self) {
        let id = self.begin("shutdown", Value::Null).await;
        assert_eq!(self.answer(id).await["result"], Value::Null);
        self.tell("exit", Value::Null).await;
        assert_eq!(self.end().await, SessionEnd::Orderly);
    }

    /// How the session ends. Nothing may be left unread.
    pub(crate) async fn end(&mut self) -> SessionEnd {
        self.is_done = true;
        let end = tokio::time::timeout(PATIENCE, &mut self.server).await;
        let end = end.expect("the server does not end").unwrap();
        while let Some(message) = self.receive().await {
            self.unread.push_back(message);
        }
        assert!(self.unread.is_empty(), "nobody has read {:#?}", self.unread);
        end
    }

    /// Closes the client's side of the stream.
    pub(crate) async fn close(&mut self) {
        self.output.shutdown().await.unwrap();
    }
}

impl Drop for Client {
    fn drop(&mut self) {
        assert!(self.is_done || std::thread::panicking(), "the session was not ended");
    }
}

/// What the client says when a document is opened.
pub(crate) fn opened(uri: &str, text: &str) -> Value {
    json!({ "textDocument": { "uri": uri, "languageId": "knotwright", "version": 1, "text": text } })
}

/// What it says when the whole text is another.
pub(crate) fn replaced(uri: &str, version: i32, text: &str) -> Value {
    json!({ "textDocument": { "uri": uri, "version": version }, "contentChanges": [{ "text": text }] })
}

/// What it says when one range of the text is another, `(line, column, line, column)`.
pub(crate) fn edited(uri: &str, version: i32, range: (u32, u32, u32, u32), text: &str) -> Value {
    let (line, column, end_line, end_column) = range;
    let start = json!({ "line": line, "character": column });
    let end = json!({ "line": end_line, "character": end_column });
    json!({
        "textDocument": { "uri": uri, "version": version },
        "contentChanges": [{ "range": { "start": start, "end": end }, "text": text }],
    })
}
