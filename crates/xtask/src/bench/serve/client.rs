//! A client that is as quick as it can be.

use super::texts::{EditKind, EditPlace, Sample, SampleLanguage};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};

/// A server with one document open.
pub(super) struct Session {
    child: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
    version: i32,
    requests: i32,
    uri: String,
    /// What it says of the colors of words, and the name of those that it sent last.
    tokens: Value,
    tokens_sent: Option<Value>,
    /// By kind of edit, where it may be made.
    places: Vec<(EditKind, Vec<EditPlace>)>,
}

/// What is asked right after an edit.
#[derive(Debug, Clone, Copy)]
pub(super) enum Question {
    /// Something about the place of the edit, by this method.
    There(&'static str),
    /// The colors of all words; only what has changed in them, if the server knows how to say that.
    Colors,
    /// The colors of the words on a screen around the edit.
    ColorsInView,
}

/// How many lines are on a screen.
const SCREEN: usize = 50;

impl Drop for Session {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn said(error: std::io::Error) -> String {
    error.to_string()
}

impl Session {
    /// Starts a server; its hello has been read.
    pub(super) fn start(line: &[String]) -> Result<Self, String> {
        let [program, arguments @ ..] = line else { return Err("no server".to_owned()) };
        let mut command = Command::new(program);
        command.args(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null());
        let mut child = command.spawn().map_err(|error| format!("{program}: {error}"))?;
        let (input, output) = (child.stdin.take(), child.stdout.take());
        let (Some(input), Some(output)) = (input, output) else { return Err("no pipes".to_owned()) };
        let output = BufReader::with_capacity(1 << 20, output);
        let (version, requests, uri) = (0, 1, String::new());
        let (tokens, tokens_sent, places) = (Value::Null, None, Vec::new());
        let mut session = Self { child, input, output, version, requests, uri, tokens, tokens_sent, places };
        let kinds = json!({ "valueSet": ["quickfix", "refactor"] });
        let can = json!({ "textDocument": {
            "publishDiagnostics": { "versionSupport": true }, "completion": {}, "hover": {},
            "codeAction": { "codeActionLiteralSupport": { "codeActionKind": kinds } },
            "documentSymbol": { "hierarchicalDocumentSymbolSupport": true },
            "semanticTokens": {
                "requests": { "range": true, "full": { "delta": true } },
                "tokenTypes": [], "tokenModifiers": [], "formats": ["relative"],
            },
        } });
        let params = json!({ "processId": null, "rootUri": null, "capabilities": can });
        session.send(&json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": params }))?;
        loop {
            let message = session.receive()?;
            if message.get("id") == Some(&json!(1)) {
                session.tokens = message["result"]["capabilities"]["semanticTokensProvider"].clone();
                return Ok(session);
            }
        }
    }

    /// Opens a document; what is found in it has been read.
    pub(super) fn open(&mut self, language: SampleLanguage, lines: usize) -> Result<(), String> {
        let sample = Sample::new(language, lines);
        self.notify("initialized", &json!({}))?;
        self.uri = format!("file:///bench/sample.{}", language.ending());
        self.places = EditKind::ALL.map(|kind| (kind, sample.places(kind))).into();
        let document =
            json!({ "uri": self.uri, "languageId": language.id(), "version": 0, "text": sample.text });
        self.notify("textDocument/didOpen", &json!({ "textDocument": document }))?;
        self.found()
    }

    /// Edits the text somewhere, and waits for what is found then. How long that took. Every edit of an odd number takes
    /// back the one before.
    pub(super) fn edit(&mut self, kind: EditKind, number: usize) -> Result<Duration, String> {
        let begun = Instant::now();
        self.change(kind, number)?;
        self.found()?;
        Ok(begun.elapsed())
    }

    /// Makes this many edits at once, and waits for what is found after the last. How long that took.
    pub(super) fn burst(
        &mut self,
        kind: EditKind,
        numbers: std::ops::Range<usize>,
    ) -> Result<Duration, String> {
        let begun = Instant::now();
        for number in numbers {
            self.change(kind, number)?;
        }
        self.found()?;
        Ok(begun.elapsed())
    }

    /// Edits the text somewhere and asks something at once. How long the answer took; `None` if the server answers no
    /// such question. What is found has been read.
    pub(super) fn edit_and_ask(
        &mut self,
        kind: EditKind,
        number: usize,
        question: Question,
    ) -> Result<Option<Duration>, String> {
        let begun = Instant::now();
        let place = self.change(kind, number)?;
        let Some(method) = self.method(question) else {
            self.found()?;
            return Ok(None);
        };
        self.requests += 1;
        let (id, params) = (self.requests, self.params(question, place));
        self.send(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params }))?;
        let (mut is_found, mut answered) = (false, None);
        while !is_found || answered.is_none() {
            let message = self.next()?;
            if message.get("id") == Some(&json!(id)) {
                answered = Some(message.get("error").is_none().then(|| begun.elapsed()));
                if matches!(question, Question::Colors) {
                    self.tokens_sent = message["result"].get("resultId").cloned();
                }
            }
            is_found |= self.is_about_now(&message);
        }
        Ok(answered.flatten())
    }

    /// The method that answers a question best; `None` if the server has none.
    fn method(&self, question: Question) -> Option<&'static str> {
        let is_offered = |what: &Value| !what.is_null() && *what != false;
        let (full, ranges) = (&self.tokens["full"], &self.tokens["range"]);
        match question {
            Question::There(method) => Some(method),
            Question::Colors if full["delta"] == true && self.tokens_sent.is_some() => {
                Some("textDocument/semanticTokens/full/delta")
            }
            Question::Colors => is_offered(full).then_some("textDocument/semanticTokens/full"),
            Question::ColorsInView => is_offered(ranges).then_some("textDocument/semanticTokens/range"),
        }
    }

    fn params(&self, question: Question, EditPlace { line, column, .. }: EditPlace) -> Value {
        let position = json!({ "line": line, "character": column });
        let from = |line: usize, end: Value| json!({ "start": { "line": line, "character": 0 }, "end": end });
        let range = match question {
            Question::There(_) | Question::Colors => from(line, position.clone()),
            Question::ColorsInView => from(line, json!({ "line": line + SCREEN, "character": 0 })),
        };
        json!({
            "textDocument": { "uri": self.uri }, "position": position, "range": range, "query": "",
            "previousResultId": self.tokens_sent, "context": { "diagnostics": [], "triggerKind": 1 },
        })
    }

    fn change(&mut self, kind: EditKind, number: usize) -> Result<EditPlace, String> {
        self.version += 1;
        let places = self.places.iter().find(|places| places.0 == kind).map(|places| &places.1[..]);
        // Steps of 0.618 go everywhere.
        let places = places.unwrap_or_default();
        let place = *places.get(places.len() * (number / 2 * 618 % 1000) / 1000).ok_or("nothing to edit")?;
        let EditPlace { line, column, words: (one, other) } = place;
        let (old, new) = if number.is_multiple_of(2) { (one, other) } else { (other, one) };
        let start = json!({ "line": line, "character": column });
        let end = json!({ "line": line, "character": column + old.len() });
        let change = json!({ "range": { "start": start, "end": end }, "text": new });
        let document = json!({ "uri": self.uri, "version": self.version });
        let message = json!({ "textDocument": document, "contentChanges": [change] });
        self.notify("textDocument/didChange", &message)?;
        Ok(place)
    }

    /// Reads until there is something about the present version.
    fn found(&mut self) -> Result<(), String> {
        loop {
            let message = self.next()?;
            if self.is_about_now(&message) {
                return Ok(());
            }
        }
    }

    fn is_about_now(&self, message: &Value) -> bool {
        let version = &message["params"]["version"];
        message["method"] == "textDocument/publishDiagnostics"
            && (version.is_null() || *version == self.version)
    }

    /// The next message, after an answer to the server if it is a question: there is nothing to say.
    fn next(&mut self) -> Result<Value, String> {
        let message = self.receive()?;
        if let (Some(id), Some(method)) = (message.get("id"), message.get("method")) {
            let empty = if *method == "workspace/configuration" { json!([null]) } else { Value::Null };
            self.send(&json!({ "jsonrpc": "2.0", "id": id, "result": empty }))?;
        }
        Ok(message)
    }

    /// What the server holds in memory, in MiB.
    pub(super) fn memory(&self) -> Result<f64, String> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).map_err(said)?;
        let line = status.lines().find(|line| line.starts_with("VmRSS:")).unwrap_or_default();
        let kib: f64 = line.split_whitespace().nth(1).and_then(|kib| kib.parse().ok()).unwrap_or_default();
        Ok(kib / 1024.0)
    }

    fn notify(&mut self, method: &str, params: &Value) -> Result<(), String> {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params }))
    }

    fn send(&mut self, message: &Value) -> Result<(), String> {
        let body = message.to_string();
        let frame = format!("Content-Length: {}\r\n\r\n{body}", body.len());
        self.input.write_all(frame.as_bytes()).map_err(said)
    }

    fn receive(&mut self) -> Result<Value, String> {
        serde_json::from_slice(&frame(&mut self.output)?).map_err(|error| error.to_string())
    }
}

/// Reads one frame.
pub(super) fn frame(input: &mut impl BufRead) -> Result<Vec<u8>, String> {
    let (mut length, mut line) = (0, String::new());
    loop {
        line.clear();
        if input.read_line(&mut line).map_err(said)? == 0 {
            return Err("the other side is gone".to_owned());
        }
        match line.trim().split_once(": ") {
            Some((name, value)) if name.eq_ignore_ascii_case("content-length") => {
                length = value.parse().unwrap_or_default();
            }
            Some(_) => {}
            None => break,
        }
    }
    let mut body = vec![0; length];
    input.read_exact(&mut body).map_err(said)?;
    Ok(body)
}
