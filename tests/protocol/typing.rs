//! Whatever is typed, wherever: the server has the text that the editor has. What it says of a document that was edited
//! step by step is what it says of the same text opened afresh.

use crate::client::{Client, opened};
use crate::model::{Model, said, tell};
use crate::stage::{BAND, LIBRARY, Stage};
use proptest::prelude::*;
use serde_json::{Value, json};

/// What a document is called that is typed, and one with the same text that is opened.
struct Names {
    typed: &'static str,
    fresh: &'static str,
}

const PATTERN: Names = Names { typed: "untitled:Typed", fresh: "untitled:Fresh" };
const PAGE: Names = Names { typed: "untitled:Typed.md", fresh: "untitled:Fresh.md" };

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

/// A page on which a pattern stands by itself, in a quote, in a list, and without an end.
const MARKDOWN: &str = "# Pier \u{1f600}\n\n```knot\npattern \"A\"\nthread kelp green\nstrands 2 kelp\nset {\n  take left 1: forward 1\n}\n\
    ```\n\n> ```knot\n> pattern \"B\"\n> thread e\u{301} white\n> strands 3 e\u{301}\n> set {\n>   take left 1: forward 2\n> }\n> ```\n\n\
    1. e\u{301}\n\n   ```knot\n   pattern \"C\"\n   thread foam ivory\n   thread shell white\n   strands foam shell\n   set {\n     \
    take left 1 (foam): forward 1\n     expect start\n   }\n   ```\n\n```knot\npattern \"D\"\nthread rope black\n";

/// What makes a page another one around its patterns.
const MARKS: [&str; 8] = ["```\n", "```knot\n", "\n> ", "\n- ", "\n   ", "\n1. ", "~~~\n", "<!--\n"];

/// A change: from one character to another, of all there are then, stands another text.
#[derive(Debug, Clone)]
struct Change {
    from: prop::sample::Index,
    length: usize,
    text: &'static str,
}

impl Change {
    fn done(&self, model: &mut Model) -> Value {
        model.change(self.from.index(model.text.len() + 1), self.length, self.text)
    }
}

fn change(pieces: Vec<&'static str>) -> impl Strategy<Value = Change> {
    let length = prop_oneof![4 => 0..3usize, 1 => 0..60usize];
    let change = (any::<prop::sample::Index>(), length, prop::sample::select(pieces));
    change.prop_map(|(from, length, text)| Change { from, length, text })
}

fn changes(pieces: Vec<&'static str>) -> impl Strategy<Value = Vec<Vec<Change>>> {
    prop::collection::vec(prop::collection::vec(change(pieces), 1..4), 1..8)
}

async fn session(names: &Names, encoding: &'static str, start: &str, changes: &[Vec<Change>]) {
    let Names { typed: typed_name, fresh: fresh_name } = names;
    let can = json!({
        "general": { "positionEncodings": [encoding] },
        "textDocument": { "diagnostic": { "relatedInformation": true } },
    });
    let mut client = Client::with(can).await;
    let mut model = Model { text: start.chars().collect(), encoding };
    tell(&mut client, "textDocument/didOpen", opened(typed_name, start)).await;
    for (version, together) in (2..).zip(changes) {
        let changes: Vec<Value> = together.iter().map(|change| change.done(&mut model)).collect();
        let document = json!({ "uri": typed_name, "version": version });
        let params = json!({ "textDocument": document, "contentChanges": changes });
        tell(&mut client, "textDocument/didChange", params).await;
        let text = model.text();
        tell(&mut client, "textDocument/didOpen", opened(fresh_name, &text)).await;
        let (typed, fresh) = (said(&mut client, typed_name).await, said(&mut client, fresh_name).await);
        assert_eq!(typed, fresh, "{encoding}, version {version}: {text:?}");
        tell(&mut client, "textDocument/didClose", json!({ "textDocument": { "uri": fresh_name } })).await;
    }
    client.goodbye().await;
}

fn run(session: impl Future<Output = ()>) {
    tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap().block_on(session);
}

/// What is said of two files of which one uses the other, while both are typed in, and when both are opened at once.
async fn session_of_two(changes: &[(bool, Change)]) {
    let stage = Stage::new();
    let mut typed = stage.client(json!({})).await;
    let names = ["band.knot", "lib/fans.knot"].map(|name| stage.uri(name));
    typed.tell("textDocument/didOpen", opened(&names[1], LIBRARY)).await;
    let model = |text: &str| Model { text: text.chars().collect(), encoding: "utf-16" };
    let mut models = [model(BAND), model(LIBRARY)];
    for (version, (is_used, change)) in (2..).zip(changes) {
        let (name, model) = (&names[usize::from(*is_used)], &mut models[usize::from(*is_used)]);
        let params = json!({
            "textDocument": { "uri": name, "version": version }, "contentChanges": [change.done(model)],
        });
        tell(&mut typed, "textDocument/didChange", params).await;
        let mut fresh = stage.client(json!({})).await;
        for (name, model) in names.iter().zip(&models) {
            let text = model.text();
            tell(&mut fresh, "textDocument/didClose", json!({ "textDocument": { "uri": name } })).await;
            tell(&mut fresh, "textDocument/didOpen", opened(name, &text)).await;
        }
        for name in &names {
            assert_eq!(
                said(&mut typed, name).await,
                said(&mut fresh, name).await,
                "{name}, version {version}"
            );
        }
        fresh.goodbye().await;
    }
    typed.goodbye().await;
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn what_is_typed_and_what_is_opened_are_one_text(changes in changes(PIECES.to_vec()), unix in any::<bool>()) {
        let start = if unix { START.replace("\r\n", "\n") } else { START.to_owned() };
        for encoding in ["utf-8", "utf-16", "utf-32"] {
            run(session(&PATTERN, encoding, &start, &changes));
        }
    }

    #[test]
    fn what_is_typed_and_what_is_opened_are_one_page(changes in changes([&PIECES[..], &MARKS[..]].concat())) {
        run(session(&PAGE, "utf-16", MARKDOWN, &changes));
    }

    #[test]
    fn what_is_typed_in_two_files_and_what_is_opened_are_the_same(
        changes in prop::collection::vec((any::<bool>(), change(PIECES.to_vec())), 1..8),
    ) {
        run(session_of_two(&changes));
    }
}
