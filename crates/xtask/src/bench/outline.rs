//! How long a language server takes from its start to the outline of a document.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// How many blocks lie in one another.
const DEPTH: usize = 20;

fn said(error: std::io::Error) -> String {
    error.to_string()
}

/// The time for a document of about `size` blocks.
pub(super) fn time(program: &str, size: usize) -> Result<Duration, String> {
    let mut command = Command::new(program);
    command.arg("serve").stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null());
    let begun = Instant::now();
    let mut child = command.spawn().map_err(said)?;
    let (Some(mut input), Some(output)) = (child.stdin.take(), child.stdout.take()) else {
        return Err("no pipes".to_owned());
    };
    for message in messages(size) {
        let body = message.to_string();
        write!(input, "Content-Length: {}\r\n\r\n{body}", body.len()).map_err(said)?;
    }
    input.flush().map_err(said)?;
    let mut output = BufReader::new(output);
    while receive(&mut output)?["id"] != 2 {}
    let took = begun.elapsed();
    child.kill().and_then(|()| child.wait()).map_err(said)?;
    Ok(took)
}

fn messages(size: usize) -> [Value; 4] {
    let tower = format!("{}{}\n", "on left 2 {\n".repeat(DEPTH), "}\n".repeat(DEPTH));
    let head = "pattern \"Pier\"\nthread kelp green\nstrands 4 kelp\n";
    let text = format!("{head}set {{\n{}}}\n", tower.repeat(size / DEPTH));
    let uri = "untitled:Pier";
    let document = json!({ "uri": uri, "languageId": "knotwright", "version": 1, "text": text });
    let can = json!({ "textDocument": {
        "diagnostic": {}, "documentSymbol": { "hierarchicalDocumentSymbolSupport": true }
    } });
    [
        json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": can } }),
        json!({ "jsonrpc": "2.0", "method": "initialized", "params": {} }),
        json!({ "jsonrpc": "2.0", "method": "textDocument/didOpen", "params": { "textDocument": document } }),
        json!({ "jsonrpc": "2.0", "id": 2, "method": "textDocument/documentSymbol",
            "params": { "textDocument": { "uri": uri } } }),
    ]
}

fn receive(output: &mut impl BufRead) -> Result<Value, String> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if output.read_line(&mut line).map_err(said)? == 0 {
            return Err("the server has ended".to_owned());
        }
        match line.trim_end().split_once(": ") {
            Some((name, value)) if name.eq_ignore_ascii_case("content-length") => {
                length = value.parse().map_err(|_| format!("no length: {value}"))?;
            }
            Some(_) => {}
            None => break,
        }
    }
    let mut body = vec![0; length];
    output.read_exact(&mut body).map_err(said)?;
    serde_json::from_slice(&body).map_err(|error| error.to_string())
}
