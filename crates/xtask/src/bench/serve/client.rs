//! A client that is as quick as it can be.

use super::texts::{Language, Sample};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};

pub(super) struct Session {
    child: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
    version: i32,
    uri: String,
    language: Language,
    places: Vec<(u32, u32)>,
}

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
        let (version, uri, language) = (0, String::new(), Language::Knot);
        let mut session = Self { child, input, output, version, uri, language, places: Vec::new() };
        let can = json!({ "textDocument": { "publishDiagnostics": { "versionSupport": true } } });
        let params = json!({ "processId": null, "rootUri": null, "capabilities": can });
        session.send(&json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": params }))?;
        while session.receive()?.get("id") != Some(&json!(1)) {}
        Ok(session)
    }

    /// Opens a document; what is found in it has been read.
    pub(super) fn open(&mut self, sample: &Sample) -> Result<(), String> {
        self.tell("initialized", &json!({}))?;
        self.uri = format!("file:///bench/sample.{}", sample.language.ending());
        (self.language, self.places) = (sample.language, sample.places.clone());
        let id = if sample.language == Language::Knot { "knotwright" } else { sample.language.ending() };
        let id = if id == "py" { "python" } else { id };
        let document = json!({ "uri": self.uri, "languageId": id, "version": 0, "text": sample.text });
        self.tell("textDocument/didOpen", &json!({ "textDocument": document }))?;
        self.found()
    }

    /// Changes one word somewhere, and waits for what is found then. How long that took.
    pub(super) fn edit(&mut self, number: usize) -> Result<Duration, String> {
        self.version += 1;
        // Each word is changed, and the next time around changed back; steps of 0.618 go everywhere.
        let pair = number / 2;
        let place = self.places.len() * (pair * 618 % 1000) / 1000;
        let (line, column) = *self.places.get(place).ok_or("nothing to edit")?;
        let (one, other) = self.language.words();
        let (old, new) = if number.is_multiple_of(2) { (one, other) } else { (other, one) };
        let start = json!({ "line": line, "character": column });
        let end = json!({ "line": line, "character": column as usize + old.len() });
        let change = json!({ "range": { "start": start, "end": end }, "text": new });
        let document = json!({ "uri": self.uri, "version": self.version });
        let message = json!({ "textDocument": document, "contentChanges": [change] });
        let begun = Instant::now();
        self.tell("textDocument/didChange", &message)?;
        self.found()?;
        Ok(begun.elapsed())
    }

    /// Reads until there is something about the present version.
    fn found(&mut self) -> Result<(), String> {
        loop {
            let message = self.receive()?;
            let method = message["method"].as_str().unwrap_or_default();
            if let (Some(id), false) = (message.get("id"), method.is_empty()) {
                // A question of the server's: there is nothing to say.
                let empty = if method == "workspace/configuration" { json!([null]) } else { Value::Null };
                self.send(&json!({ "jsonrpc": "2.0", "id": id, "result": empty }))?;
            }
            let version = &message["params"]["version"];
            if method == "textDocument/publishDiagnostics" && (version.is_null() || *version == self.version)
            {
                return Ok(());
            }
        }
    }

    /// What the server holds in memory, in MiB.
    pub(super) fn memory(&self) -> Result<f64, String> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).map_err(said)?;
        let line = status.lines().find(|line| line.starts_with("VmRSS:")).unwrap_or_default();
        let kib: f64 = line.split_whitespace().nth(1).and_then(|kib| kib.parse().ok()).unwrap_or_default();
        Ok(kib / 1024.0)
    }

    fn tell(&mut self, method: &str, params: &Value) -> Result<(), String> {
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
