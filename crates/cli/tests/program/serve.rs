//! `knotwright serve` over real pipes, beside `knotwright check`: an editor and a build must never disagree.

use crate::stage::{BROKEN, Stage};
use knotwright_numbers::ToNumber;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Stdio};
use std::thread;
use std::time::Duration;

/// An editor that knows the least.
struct Editor {
    child: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
}

impl Editor {
    fn start(stage: &Stage, arguments: &[&str]) -> Self {
        let mut command = stage.command(arguments);
        let mut child =
            command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let (input, output) = (child.stdin.take().unwrap(), child.stdout.take().unwrap());
        let mut editor = Self { child, input, output: BufReader::new(output) };
        let can = json!({
            "general": { "positionEncodings": ["utf-32"] },
            "textDocument": {
                "codeAction": { "codeActionLiteralSupport": { "codeActionKind": { "valueSet": ["quickfix"] } } },
                // Findings are asked for: an answer is whole, while what is sent unasked may come in two parts.
                "diagnostic": {},
                "publishDiagnostics": { "relatedInformation": true },
            },
        });
        editor.send(&json!({
            "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": can },
        }));
        assert_eq!(editor.receive()["result"]["capabilities"]["positionEncoding"], "utf-32");
        editor.tell("initialized", &json!({}));
        editor
    }

    fn send(&mut self, message: &Value) {
        let body = message.to_string();
        write!(self.input, "Content-Length: {}\r\n\r\n{body}", body.len()).unwrap();
    }

    fn tell(&mut self, method: &str, params: &Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params }));
    }

    fn receive(&mut self) -> Value {
        let (mut head, mut empty) = (String::new(), String::new());
        self.output.read_line(&mut head).unwrap();
        self.output.read_line(&mut empty).unwrap();
        let length = head.trim().strip_prefix("Content-Length: ").unwrap_or_else(|| panic!("{head:?}"));
        let mut body = vec![0; length.parse().unwrap()];
        self.output.read_exact(&mut body).unwrap();
        serde_json::from_slice(&body).unwrap()
    }

    /// What is found in a file, one line a finding and its mends; then the file is closed.
    fn found(&mut self, path: &Path) -> Vec<String> {
        let text = std::fs::read_to_string(path).unwrap();
        let uri = format!("file://{}", path.display());
        let text = text.trim_start_matches('\u{feff}');
        let document = json!({ "uri": uri, "languageId": "knotwright", "version": 7, "text": text });
        self.tell("textDocument/didOpen", &json!({ "textDocument": document }));
        let found = self.findings(&uri);
        let lines =
            found.iter().map(|found| format!("{} {:?}", served(found), self.mends(&uri, found))).collect();
        self.tell("textDocument/didClose", &json!({ "textDocument": { "uri": uri } }));
        lines
    }

    /// All that is found in an open document.
    fn findings(&mut self, uri: &str) -> Vec<Value> {
        let params = json!({ "textDocument": { "uri": uri } });
        self.send(
            &json!({ "jsonrpc": "2.0", "id": 4, "method": "textDocument/diagnostic", "params": params }),
        );
        let answer = self.receive();
        answer["result"]["items"].as_array().unwrap_or_else(|| panic!("{answer}")).clone()
    }

    /// What is found in Markdown, one line a finding.
    fn found_in_page(&mut self, path: &Path) -> Vec<String> {
        let uri = format!("file://{}", path.display());
        let text = std::fs::read_to_string(path).unwrap();
        let document = json!({ "uri": uri, "languageId": "markdown", "version": 1, "text": text });
        self.tell("textDocument/didOpen", &json!({ "textDocument": document }));
        self.findings(&uri).iter().map(served).collect()
    }

    /// The mends of a finding, in their order.
    fn mends(&mut self, uri: &str, found: &Value) -> Vec<String> {
        let context = json!({ "diagnostics": [found], "only": ["quickfix"] });
        let params = json!({ "textDocument": { "uri": uri }, "range": found["range"], "context": context });
        self.send(&json!({
            "jsonrpc": "2.0", "id": 3, "method": "textDocument/codeAction", "params": params,
        }));
        let answer = self.receive();
        let actions = answer["result"].as_array().unwrap_or_else(|| panic!("{answer}"));
        let is_mend = |action: &&Value| {
            // A comment that allows a warning is no mend; only an editor offers it.
            action["diagnostics"][0] == *found && !action["title"].as_str().unwrap().starts_with("Allow ")
        };
        actions.iter().filter(is_mend).map(served_mend).collect()
    }

    fn end(mut self) -> i32 {
        self.send(&json!({ "jsonrpc": "2.0", "id": 2, "method": "shutdown" }));
        assert_eq!(self.receive()["id"], 2);
        self.tell("exit", &json!(null));
        self.child.wait().unwrap().code().unwrap()
    }
}

fn line(number: &Value) -> u64 {
    number.as_u64().unwrap()
}

/// From place to place, from 0, as the protocol counts. An empty one is one sign wide, to be seen.
fn from_report(place: &Value) -> [u64; 4] {
    let of = |name: &str| line(&place[name]) - 1;
    match [of("line"), of("column"), of("end_line"), of("end_column")] {
        [a, b, c, d] if (a, b) != (c, d) => [a, b, c, d],
        [a, 0, c, _] => [a, 0, c, 1],
        [a, b, c, d] => [a, b - 1, c, d],
    }
}

fn from_editor(range: &Value) -> [u64; 4] {
    let of = |end: &str, name: &str| line(&range[end][name]);
    [of("start", "line"), of("start", "character"), of("end", "line"), of("end", "character")]
}

/// Where a finding is shown. On an empty line there is no sign that could be.
fn shown(range: &Value) -> [u64; 4] {
    match from_editor(range) {
        [a, 0, c, 0] if a == c => [a, 0, c, 1],
        range => range,
    }
}

/// A place as it is, in whichever file.
fn exactly(place: &Value) -> String {
    let of = |name: &str| line(&place[name]) - 1;
    let at = [of("line"), of("column"), of("end_line"), of("end_column")];
    format!("{} {at:?}", place["path"].as_str().unwrap())
}

fn located(uri: &str, range: &Value) -> String {
    format!("{} {:?}", uri.strip_prefix("file://").unwrap(), from_editor(range))
}

/// A mend, from a report of `check`.
fn reported_mend(mend: &Value) -> String {
    let edits = mend["edits"].as_array().unwrap().iter();
    let mut edits: Vec<_> =
        edits.map(|edit| (exactly(&edit["place"]), edit["text"].as_str().unwrap())).collect();
    edits.sort();
    // What is a clause in a report is the whole line in an editor's list.
    let title = knotwright_wording::sentence(mend["title"].as_str().unwrap());
    format!("{title} {} {edits:?}", mend["certain"])
}

/// A mend, from a message of the server.
fn served_mend(action: &Value) -> String {
    let files = action["edit"]["changes"].as_object().unwrap().iter();
    let edit = |uri: &str, edit: &Value| {
        (located(uri, &edit["range"]), edit["newText"].as_str().unwrap().to_owned())
    };
    let mut edits: Vec<_> = files
        .flat_map(|(uri, edits)| edits.as_array().unwrap().iter().map(move |one| edit(uri, one)))
        .collect();
    edits.sort();
    let is_certain = action["isPreferred"].as_bool().unwrap_or(false);
    format!("{} {is_certain} {edits:?}", action["title"].as_str().unwrap())
}

/// One line a finding and its mends, from a report of `check`.
fn reported(finding: &Value, path: &str) -> String {
    let mends: Vec<String> = finding["mends"].as_array().unwrap().iter().map(reported_mend).collect();
    format!("{} {mends:?}", phrases(finding, path))
}

/// One line a finding.
fn phrases(finding: &Value, path: &str) -> String {
    let place = &finding["place"];
    let message = finding["message"].as_str().unwrap();
    let help = finding["help"].as_str().map(|help| format!("\n{help}")).unwrap_or_default();
    let notes = finding["notes"].as_array().unwrap().iter();
    let notes = notes.map(|note| format!("{} {}", note["text"].as_str().unwrap(), exactly(&note["place"])));
    let elsewhere = place["path"] != path;
    let itself = elsewhere.then(|| format!("it is here {}", exactly(place)));
    let notes: Vec<String> = itself.into_iter().chain(notes).collect();
    let at = if elsewhere { [0; 4] } else { from_report(place) };
    let (severity, rule) = (finding["severity"].as_str().unwrap(), finding["rule"].as_str().unwrap());
    format!("{at:?} {severity} {rule} {message}{help} {notes:?}")
}

/// A finding, from a message of the server.
fn served(found: &Value) -> String {
    let notes = found["relatedInformation"].as_array().cloned().unwrap_or_default();
    let note = |note: &Value| {
        let (text, place) = (note["message"].as_str().unwrap(), &note["location"]);
        format!("{text} {}", located(place["uri"].as_str().unwrap(), &place["range"]))
    };
    let notes: Vec<String> = notes.iter().map(note).collect();
    let elsewhere = notes.first().is_some_and(|note| note.starts_with("it is here"));
    let at = if elsewhere { [0; 4] } else { shown(&found["range"]) };
    // An error about what is only not there yet is a hint to an editor.
    let severity = ["error", "warning", "", "error"][line(&found["severity"]).to_usize() - 1];
    let (rule, message) = (found["code"].as_str().unwrap(), found["message"].as_str().unwrap());
    format!("{at:?} {severity} {rule} {message} {notes:?}")
}

/// All samples there are, right and wrong ones.
fn samples() -> Vec<PathBuf> {
    let shared = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared").canonicalize().unwrap();
    let folders = ["patterns", "corpus/accepted", "corpus/refused"];
    let mut paths: Vec<PathBuf> = folders
        .iter()
        .flat_map(|folder| std::fs::read_dir(shared.join(folder)).unwrap())
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "knot"))
        .collect();
    paths.sort();
    assert!(paths.len() > 100);
    paths
}

#[test]
fn an_editor_is_told_what_check_tells() {
    let stage = Stage::with(&[]);
    let mut editor = Editor::start(&stage, &["serve", "--stdio"]);
    let mut total = 0;
    for path in samples() {
        let name = path.to_str().unwrap();
        let said = stage.run(&["check", "--format", "json", name]);
        if said.code == 2 {
            continue;
        }
        let report: Value = serde_json::from_str(&said.out).unwrap();
        let findings = report["files"][0]["findings"].as_array().cloned().unwrap_or_default();
        let reported: Vec<String> = findings.iter().map(|finding| reported(finding, name)).collect();
        let served: Vec<String> = editor.found(&path);
        assert_eq!(served, reported, "{name}");
        total += served.len();
    }
    assert!(total > 200, "only {total} findings were compared");
    assert_eq!(editor.end(), 0);
}

/// Every line after the marks of a quote or a list.
fn after(marks: &str, text: &str) -> String {
    text.lines().map(|line| format!("{marks}{line}")).collect::<Vec<_>>().join("\n")
}

/// All samples fenced on one page, plainly, in quotes and in lists; those that a fence of their own or a first sign would make
/// ambiguous are left out.
fn page() -> String {
    let texts = samples().into_iter().filter_map(|path| std::fs::read_to_string(path).ok());
    let fit = texts.filter(|text| !text.contains("```") && !text.contains(['\r', '\t', '\0', '\u{feff}']));
    let fenced = |(number, text): (usize, String)| match number % 3 {
        0 => format!("Sample {number}\n\n```knot\n{text}\n```\n\n"),
        1 => format!("> Sample {number}\n>\n> ```knot\n{}\n> ```\n\n", after("> ", &text)),
        _ => format!("1. Sample {number}\n\n   ```knot\n{}\n   ```\n\n", after("   ", &text)),
    };
    fit.enumerate().map(fenced).collect()
}

#[test]
fn an_editor_is_told_what_check_tells_of_markdown() {
    let stage = Stage::with(&[("page.md", &page())]);
    let path = stage.path("page.md").canonicalize().unwrap();
    let name = path.to_str().unwrap();
    let said = stage.run(&["check", "--format", "json", name]);
    let report: Value = serde_json::from_str(&said.out).unwrap();
    let findings = report["files"][0]["findings"].as_array().unwrap();
    let reported: Vec<String> = findings.iter().map(|finding| phrases(finding, name)).collect();
    let mut editor = Editor::start(&stage, &["serve", "--stdio"]);
    let served = editor.found_in_page(&path);
    assert!(served.len() > 100, "only {} findings were compared", served.len());
    assert_eq!(served, reported);
    assert_eq!(editor.end(), 0);
}

#[test]
fn settings_hold_in_the_editor_too() {
    let stage = Stage::with(&[
        ("knotwright.toml", "[rules]\nset-does-not-close = \"off\"\nunused-thread = \"error\"\n"),
        ("bands/a.knot", &BROKEN.replace("strands", "thread coral #e2725b\nstrands")),
    ]);
    let path = stage.path("bands/a.knot").canonicalize().unwrap();
    let said = stage.run(&["check", "--format", "json", path.to_str().unwrap()]);
    let report: Value = serde_json::from_str(&said.out).unwrap();
    let findings = report["files"][0]["findings"].as_array().unwrap().clone();
    let reported: Vec<String> =
        findings.iter().map(|finding| reported(finding, path.to_str().unwrap())).collect();
    assert!(reported.iter().any(|line| line.contains("error unused-thread")), "{reported:?}");
    let mut editor = Editor::start(&stage, &["serve"]);
    assert_eq!(editor.found(&path), reported);
    assert_eq!(editor.end(), 0);
}

#[test]
fn an_editor_that_just_goes_leaves_no_server_behind() {
    let stage = Stage::with(&[]);
    let Editor { mut child, input, output } = Editor::start(&stage, &["serve"]);
    drop(input);
    assert_eq!(child.wait().unwrap().code(), Some(1));
    drop(output);
}

/// A server that takes memory in pages of 2 MiB holds twice what it needs. Those can be forbidden to a process on Linux.
#[cfg(target_os = "linux")]
#[test]
fn the_server_takes_no_huge_pages() {
    let editor = Editor::start(&Stage::with(&[]), &["serve"]);
    let status = std::fs::read_to_string(format!("/proc/{}/status", editor.child.id())).unwrap();
    assert!(status.lines().any(|line| line == "THP_enabled:\t0"), "{status}");
    assert_eq!(editor.end(), 0);
}

/// One talk, begun and ended as the protocol wants it.
#[cfg(unix)]
fn talk() -> String {
    let messages = [
        json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": {} } }),
        json!({ "jsonrpc": "2.0", "id": 2, "method": "shutdown" }),
        json!({ "jsonrpc": "2.0", "method": "exit" }),
    ];
    let frame = |message: &Value| format!("Content-Length: {}\r\n\r\n{message}", message.to_string().len());
    messages.iter().map(frame).collect()
}

#[cfg(unix)]
#[test]
fn it_serves_over_sockets_and_files_as_over_pipes() {
    use std::fs::File;
    use std::os::{fd::OwnedFd, unix::net::UnixStream};

    let stage = Stage::with(&[("talk", &talk()), ("said", "")]);
    let serve = |input: OwnedFd, output: OwnedFd| {
        let mut child = stage.command(&["serve"]).stdin(input).stdout(output).spawn().unwrap();
        move || assert_eq!(child.wait().unwrap().code(), Some(0))
    };
    let (mut ours, theirs) = UnixStream::pair().unwrap();
    let mut ended = serve(theirs.try_clone().unwrap().into(), theirs.into());
    ours.write_all(talk().as_bytes()).unwrap();
    let mut heard = String::new();
    ours.read_to_string(&mut heard).unwrap();
    ended();
    assert!(heard.contains("\"id\":1") && heard.contains("\"id\":2"), "{heard}");

    let (file, said) = (File::open(stage.path("talk")).unwrap(), File::create(stage.path("said")).unwrap());
    serve(file.into(), said.into())();
    assert_eq!(stage.read("said"), heard);
}

/// An editor that crashes closes both ends, one that is half gone only the one it reads from.
#[test]
fn the_server_ends_quietly_when_nobody_reads_what_it_says() {
    let stage = Stage::with(&[]);
    for (was_shut_down, expected) in [(false, 1), (true, 0)] {
        let mut editor = Editor::start(&stage, &["serve"]);
        if was_shut_down {
            editor.send(&json!({ "jsonrpc": "2.0", "id": 2, "method": "shutdown" }));
            assert_eq!(editor.receive()["id"], 2);
        }
        let Editor { mut child, mut input, output } = editor;
        drop(output);
        let body = "{\"jsonrpc\":\"2.0\",\"id\":3,\"method\":\"textDocument/hover\"}";
        // A process that another test is just starting may hold the closed end for a moment: then an answer goes nowhere,
        // and the next one tells.
        while child.try_wait().unwrap().is_none() {
            let _ = write!(input, "Content-Length: {}\r\n\r\n{body}", body.len());
            thread::sleep(Duration::from_millis(20));
        }
        let mut said = String::new();
        child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
        assert_eq!((child.wait().unwrap().code(), said.as_str()), (Some(expected), ""));
    }
}
