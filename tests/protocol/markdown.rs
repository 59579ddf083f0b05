//! Patterns that are fenced in Markdown: known where they stand, and nothing else there is touched.

use crate::client::{Client, opened};
use crate::stage::{BAND, Stage, applied};
use serde_json::{Value, json};

/// Two patterns in a page, the second in a quote.
const PAGE: &str = "# Pier \u{1f600}\n\nA  page with   odd spaces.\n\n```knot\npattern \"Pier\"\nthread kelp #1f5d50\n\
    thread foam white\nstrands 2 kelp 2 foam\nset {\n  take left 9: forward 3\n}\n```\n\n> ```knot\n> pattern \"Quay\"\n\
    > thread rope #d98e4a\n> strands 3 rope\n> set { take left 1: forward 2 }\n> ```\n\n```knot fragment\ntake left 9\n```\n";

struct Page {
    stage: Stage,
    client: Client,
    uri: String,
}

impl Page {
    async fn open() -> Self {
        let stage = Stage::new();
        let can = json!({ "textDocument": { "codeAction": { "codeActionLiteralSupport": {
            "codeActionKind": { "valueSet": [] },
        } } } });
        let mut client = stage.client(can).await;
        let uri = stage.uri("page.md");
        client.tell("textDocument/didOpen", opened(&uri, PAGE)).await;
        Self { stage, client, uri }
    }

    async fn ask(&mut self, method: &str, more: Value) -> Value {
        let mut params = json!({ "textDocument": { "uri": self.uri } });
        more.as_object().unwrap().iter().for_each(|(key, value)| params[key] = value.clone());
        self.client.ask(method, params).await
    }

    async fn ask_at(&mut self, method: &str, line: u32, column: u32) -> Value {
        self.ask(method, json!({ "position": { "line": line, "character": column } })).await
    }
}

#[tokio::test]
async fn what_is_found_stands_where_it_is_and_only_in_whole_patterns() {
    let mut page = Page::open().await;
    let found = page.ask("textDocument/diagnostic", json!({})).await;
    let found: Vec<(&Value, &Value)> =
        found["items"].as_array().unwrap().iter().map(|one| (&one["code"], &one["range"]["start"])).collect();
    assert!(
        found.contains(&(&json!("place-not-there"), &json!({ "line": 10, "character": 12 }))),
        "{found:?}"
    );
    assert!(found.iter().all(|(_, start)| start["line"].as_u64() < Some(20)), "{found:?}");
    page.client.goodbye().await;
}

#[tokio::test]
async fn what_stands_beside_a_pattern_is_none_of_ours() {
    let mut page = Page::open().await;
    assert_eq!(page.ask_at("textDocument/hover", 2, 3).await, Value::Null);
    assert_eq!(page.ask_at("textDocument/completion", 2, 3).await, Value::Null);
    let options = json!({ "options": { "tabSize": 2, "insertSpaces": true } });
    assert_eq!(page.ask("textDocument/formatting", options).await, json!([]));
    assert_eq!(page.ask("textDocument/documentSymbol", json!({})).await, json!([]));
    let hover = page.ask_at("textDocument/hover", 16, 10).await;
    assert!(hover["contents"]["value"].as_str().unwrap().contains("rope"), "{hover}");
    assert_eq!(hover["range"]["start"], json!({ "line": 16, "character": 9 }));
    let proposals = page.ask_at("textDocument/completion", 10, 7).await;
    assert!(proposals.as_array().unwrap().iter().any(|item| item["label"] == "left 1"), "{proposals}");
    let whole =
        json!({ "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } } });
    let hints = page.ask("textDocument/inlayHint", whole).await;
    assert!(hints.as_array().unwrap().iter().any(|hint| hint["position"]["line"] == 18), "{hints}");
    let colors = page.ask("textDocument/documentColor", json!({})).await;
    assert_eq!(colors.as_array().unwrap().len(), 3, "{colors}");
    page.client.goodbye().await;
}

#[tokio::test]
async fn a_name_is_given_anew_in_its_pattern_and_the_page_stays() {
    let mut page = Page::open().await;
    let edits = page
        .ask("textDocument/rename", json!({ "position": { "line": 16, "character": 10 }, "newName": "line" }))
        .await;
    let renamed = applied(PAGE, &edits["changes"][&page.uri]);
    let wanted = PAGE.replace("thread rope", "thread line").replace("strands 3 rope", "strands 3 line");
    assert_eq!(renamed, wanted);
    let range = json!({ "start": { "line": 10, "character": 7 }, "end": { "line": 10, "character": 7 } });
    let actions = page
        .ask("textDocument/codeAction", json!({ "range": range, "context": { "diagnostics": [] } }))
        .await;
    for action in actions.as_array().unwrap() {
        for edit in action["edit"]["changes"][&page.uri].as_array().unwrap() {
            let (start, end) = (&edit["range"]["start"]["line"], &edit["range"]["end"]["line"]);
            assert!(start == end && !edit["newText"].as_str().unwrap().contains('\n'), "{action}");
        }
    }
    page.client.goodbye().await;
}

#[tokio::test]
async fn commands_are_about_the_pattern_that_is_meant() {
    let mut page = Page::open().await;
    let uri = page.uri.clone();
    for which in [json!({ "pattern": "Quay" }), json!({ "position": { "line": 17, "character": 4 } })] {
        let mut argument = which;
        argument["uri"] = json!(uri);
        let params = json!({ "command": "knotwright.words", "arguments": [argument] });
        assert_eq!(page.client.ask("workspace/executeCommand", params).await["title"], "Quay");
    }
    let first = json!({ "command": "knotwright.words", "arguments": [{ "uri": uri }] });
    let id = page.client.begin("workspace/executeCommand", first).await;
    let why = page.client.answer(id).await["error"]["message"].clone();
    assert!(why.as_str().unwrap().starts_with("This does not tie yet. Line 11: "), "{why}");
    // A file beside it is known as ever.
    let band =
        json!({ "command": "knotwright.words", "arguments": [{ "uri": page.stage.uri("band.knot") }] });
    assert_eq!(page.client.ask("workspace/executeCommand", band).await["title"], "Pier", "{BAND}");
    page.client.goodbye().await;
}
