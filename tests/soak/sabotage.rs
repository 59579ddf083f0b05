//! Runs that are interrupted, and a client that stops reading. What comes of them depends on the moment, so they are no
//! cases that could be replayed.

use crate::chance::Rng;
use crate::program::path;
use knotwright_formatter::format_text;
use rustix::process::{Pid, Signal, kill_process};
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const FILES: usize = 60;
const BEFORE: &str = "pattern \"Pier\"\nthread kelp green\nthread foam white\nstrands 2 kelp 2 foam\nset {\n     take left 1: forward 3\n}\n";

/// Files that are rewritten while the program is killed, or asked to end: each is as it was or as it is to be, and what
/// was left lying is swept by the next run.
pub(crate) fn interrupted(rng: &mut Rng) -> Result<(), String> {
    let after = format_text(BEFORE);
    let folder = tempfile::tempdir().map_err(|error| error.to_string())?;
    let names: Vec<_> = (0..FILES).map(|number| folder.path().join(format!("{number}.knot"))).collect();
    names.iter().try_for_each(|name| std::fs::write(name, BEFORE)).map_err(|error| error.to_string())?;
    let mut format = Command::new(path());
    format.args(["format", "."]).current_dir(folder.path()).stdin(Stdio::null());
    let mut child =
        format.stdout(Stdio::null()).stderr(Stdio::null()).spawn().map_err(|error| error.to_string())?;
    std::thread::sleep(Duration::from_micros(rng.u64(..40_000)));
    let signal = *rng.choice(&[Signal::KILL, Signal::TERM, Signal::INT]).unwrap_or(&Signal::KILL);
    let _ = kill_process(Pid::from_child(&child), signal);
    child.wait().map_err(|error| error.to_string())?;
    for name in &names {
        let text = std::fs::read_to_string(name).map_err(|error| format!("a file is lost: {error}"))?;
        if text != BEFORE && text != after {
            return Err(format!("after {signal:?} a file is half written: {text:?}"));
        }
    }
    let again = format.status().map_err(|error| error.to_string())?;
    let left = std::fs::read_dir(folder.path()).map_err(|error| error.to_string())?.count();
    let is_done = |name| std::fs::read_to_string(name).is_ok_and(|text| text == after);
    match again.success() && names.iter().all(is_done) {
        true if left == FILES => Ok(()),
        true => Err(format!("after {signal:?} and another run {left} files lie where {FILES} lay")),
        false => Err(format!("after {signal:?} the next run did not finish: {again}")),
    }
}

/// A client that asks and asks, reads nothing, and goes: the server ends, and quietly.
pub(crate) fn unread(rng: &mut Rng) -> Result<(), String> {
    let mut serve = Command::new(path());
    serve.arg("serve").stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = serve.spawn().map_err(|error| error.to_string())?;
    let mut input = child.stdin.take().ok_or("no input")?;
    let frame = |body: &str| format!("Content-Length: {}\r\n\r\n{body}", body.len());
    let hello = r#"{"jsonrpc":"2.0","id":0,"method":"initialize","params":{"capabilities":{}}}"#;
    let open = format!(
        r#"{{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{{"textDocument":{{"uri":"a:b","languageId":"knotwright","version":1,"text":{:?}}}}}}}"#,
        BEFORE
    );
    let asked = rng.usize(..4000);
    let writing = std::thread::spawn(move || {
        // The pipe may be full for good: then the server has stopped reading, as nobody reads what it says.
        let mut send = |body: &str| input.write_all(frame(body).as_bytes()).is_ok();
        let _ = send(hello) && send(&open);
        for id in 1..=asked {
            let ask = format!(
                r#"{{"jsonrpc":"2.0","id":{id},"method":"textDocument/semanticTokens/full","params":{{"textDocument":{{"uri":"a:b"}}}}}}"#
            );
            if !send(&ask) {
                break;
            }
        }
    });
    std::thread::sleep(Duration::from_millis(rng.u64(..300)));
    // It closes its end of what it never read.
    drop(child.stdout.take());
    let begun = Instant::now();
    let status = loop {
        if let Some(status) = child.try_wait().map_err(|error| error.to_string())? {
            break status;
        }
        if begun.elapsed() > Duration::from_secs(30) {
            let _ = child.kill();
            let _ = child.wait();
            return Err("a server whose client reads nothing does not end".to_owned());
        }
        std::thread::sleep(Duration::from_millis(2));
    };
    let _ = writing.join();
    let mut said = String::new();
    let _ = child.stderr.take().map(|mut err| std::io::Read::read_to_string(&mut err, &mut said));
    match status.code() {
        Some(0 | 1) if !said.contains("panicked") => Ok(()),
        _ => Err(format!("the server of a client that reads nothing ended with {status}: {said:.2000}")),
    }
}
