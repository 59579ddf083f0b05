//! Whatever is typed, wherever: the server has the text that the editor has. What it says of a document that was edited
//! step by step is what it says of the same text opened afresh.

use crate::client::{Client, opened};
use proptest::prelude::*;
use serde_json::{Value, json};

const TYPED: &str = "untitled:Typed";
const FRESH: &str = "untitled:Fresh";

/// Stands for half of a surrogate pair, which JSON can spell and no text can hold.
const HALF: char = '\u{e000}';

const START: &str = "pattern \"Pier \u{1f600}\"\r\nthread kelp #1f5d50\r\nthread foam white -- e\u{301}\r\n\
    strands 2 kelp 2 foam\r\nmotif turn(size) {\r\n  take left 1: forward size\r\n}\r\nset {\r\n  work turn(3)\r\n  \
    repeat 2 { take left 1: forward 3 }\r\n  take left 1 as last: forward 3\r\n  expect start\r\n}\r\n";

/// What people type and paste, and what only careless programs do.
const PIECES: [&str; 24] = [
    "",
    "",
    "\n",
    "\r\n",
    "\r",
    " ",
    "1",
    "left",
    "forward ",
    "}",
    "{",
    "\"",
    "-- ",
    "\u{1f600}",
    "e\u{301}",
    "\u{e000}",
    "\u{2028}",
    "\t",
    "\nset {\n",
    "\n  take right 1 (kelp): backward to edge\n",
    "expect start\n",
    "motif fan {\n",
    "#1f5d5",
    "\r\n  repeat 3 {\r\n    take left 1: forward 2\r\n  }\r\n",
];

/// A change: from one character to another, of all there are then, stands another text.
#[derive(Debug, Clone)]
struct Change {
    from: prop::sample::Index,
    length: usize,
    text: &'static str,
}

fn changes() -> impl Strategy<Value = Vec<Vec<Change>>> {
    let length = prop_oneof![4 => 0..3usize, 1 => 0..60usize];
    let change = (any::<prop::sample::Index>(), length, prop::sample::select(&PIECES[..]));
    let change = change.prop_map(|(from, length, text)| Change { from, length, text });
    prop::collection::vec(prop::collection::vec(change, 1..4), 1..8)
}

/// The text as the editor has it.
struct Model {
    text: Vec<char>,
    encoding: &'static str,
}

impl Model {
    /// Does a change, and says it as the protocol does.
    fn change(&mut self, change: &Change) -> Value {
        let from = self.clear_of_a_line_break(change.from.index(self.text.len() + 1));
        let to = self.clear_of_a_line_break((from + change.length).min(self.text.len())).max(from);
        let range = json!({ "start": self.position(from), "end": self.position(to) });
        self.text.splice(from..to, change.text.chars());
        json!({ "range": range, "text": change.text })
    }

    /// No editor has its cursor between the two characters of one line break.
    fn clear_of_a_line_break(&self, at: usize) -> usize {
        let is_within = at > 0 && self.text[at - 1] == '\r' && self.text.get(at) == Some(&'\n');
        at - usize::from(is_within)
    }

    fn position(&self, at: usize) -> Value {
        let (mut line, mut start) = (0, 0);
        for nth in 0..at {
            let is_pair = self.text[nth] == '\r' && self.text.get(nth + 1) == Some(&'\n');
            if matches!(self.text[nth], '\r' | '\n') && !is_pair {
                (line, start) = (line + 1, nth + 1);
            }
        }
        let width = |sign: &char| match self.encoding {
            // Half a pair is read as U+FFFD, which is as long as what stands for it here.
            "utf-8" => sign.len_utf8(),
            "utf-16" => sign.len_utf16(),
            _ => 1,
        };
        let column: usize = self.text[start..at].iter().map(width).sum();
        json!({ "line": line, "character": column })
    }
}

async fn tell(client: &mut Client, method: &str, params: Value) {
    let message = json!({ "jsonrpc": "2.0", "method": method, "params": params }).to_string();
    client.send_text(&message.replace(HALF, "\\ud83d")).await;
}

/// All that the server says of a document which shows how it has read it.
async fn said(client: &mut Client, uri: &str) -> Vec<String> {
    let mut said = Vec::new();
    for method in
        ["diagnostic", "semanticTokens/full", "documentSymbol", "foldingRange", "inlayHint", "formatting"]
    {
        let params = json!({
            "textDocument": { "uri": uri },
            "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 999, "character": 0 } },
            "options": { "tabSize": 2, "insertSpaces": true },
        });
        let mut answer = client.ask(&format!("textDocument/{method}"), params).await;
        if let Some(answer) = answer.as_object_mut() {
            answer.remove("resultId");
        }
        said.push(format!("{method}: {answer}").replace(uri, ""));
    }
    said
}

async fn session(encoding: &'static str, start: &str, changes: &[Vec<Change>]) {
    let can = json!({
        "general": { "positionEncodings": [encoding] },
        "textDocument": { "diagnostic": { "relatedInformation": true } },
    });
    let mut client = Client::with(can).await;
    let mut model = Model { text: start.chars().collect(), encoding };
    tell(&mut client, "textDocument/didOpen", opened(TYPED, start)).await;
    for (version, together) in (2..).zip(changes) {
        let changes: Vec<Value> = together.iter().map(|change| model.change(change)).collect();
        let document = json!({ "uri": TYPED, "version": version });
        let params = json!({ "textDocument": document, "contentChanges": changes });
        tell(&mut client, "textDocument/didChange", params).await;
        let text: String = model.text.iter().collect();
        tell(&mut client, "textDocument/didOpen", opened(FRESH, &text)).await;
        let (typed, fresh) = (said(&mut client, TYPED).await, said(&mut client, FRESH).await);
        assert_eq!(typed, fresh, "{encoding}, version {version}: {text:?}");
        tell(&mut client, "textDocument/didClose", json!({ "textDocument": { "uri": FRESH } })).await;
    }
    client.goodbye().await;
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn what_is_typed_and_what_is_opened_are_one_text(changes in changes(), unix in any::<bool>()) {
        let start = if unix { START.replace("\r\n", "\n") } else { START.to_owned() };
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        for encoding in ["utf-8", "utf-16", "utf-32"] {
            runtime.block_on(session(encoding, &start, &changes));
        }
    }
}
