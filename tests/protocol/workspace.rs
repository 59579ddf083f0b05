//! Files that are not open, folders, settings of the editor.

use crate::client::{Client, edited, opened};
use crate::stage::{BAND, LIBRARY, Stage};
use serde_json::{Value, json};

/// For each file that something is said of, how much.
fn shown(report: &Value) -> Vec<(String, Option<usize>)> {
    let of = |item: &Value| {
        let name = item["uri"].as_str().unwrap().rsplit('/').next().unwrap().to_owned();
        (name, item["items"].as_array().map(Vec::len))
    };
    report["items"].as_array().unwrap().iter().map(of).collect()
}

#[tokio::test]
async fn files_that_are_not_open_are_looked_through_when_asked_for() {
    let stage = Stage::new();
    stage.write("draft.knot", "pattern \"Draft\"\nknot\n");
    stage.write("notes.txt", "knot\n");
    stage.write("notes.md", "# knot\n");
    stage.write("page.md", "# Pier\n\n```knot\npattern \"Pier\"\nknot\n```\n");
    stage.write("build/page.md", "```knot\nknot\n```\n");
    stage.write(".gitignore", "build/\n");
    stage.write("build/old.knot", "knot\n");
    let mut client = stage.client(json!({})).await;
    let first = client.ask("workspace/diagnostic", json!({ "previousResultIds": [] })).await;
    let files: Vec<String> = shown(&first).into_iter().map(|(name, _)| name).collect();
    assert_eq!(files, ["band.knot", "draft.knot", "fans.knot", "page.md"]);
    let page = first["items"].as_array().unwrap().last().unwrap();
    assert_eq!(page["items"][0]["range"]["start"], json!({ "line": 4, "character": 0 }), "{page}");
    let ids = |report: &Value| {
        let one = |item: &Value| json!({ "uri": item["uri"], "value": item["resultId"] });
        json!({ "previousResultIds": report["items"].as_array().unwrap().iter().map(one).collect::<Vec<_>>() })
    };
    let second = client.ask("workspace/diagnostic", ids(&first)).await;
    assert!(shown(&second).iter().all(|(_, items)| items.is_none()), "nothing has changed: {second}");
    std::fs::remove_file(stage.path("draft.knot")).unwrap();
    stage.write("lib/fans.knot", &LIBRARY.replace("turn", "wave"));
    let event = |name: &str, kind: u32| json!({ "uri": stage.uri(name), "type": kind });
    let changes = json!({ "changes": [event("draft.knot", 3), event("lib/fans.knot", 2)] });
    client.tell("workspace/didChangeWatchedFiles", changes).await;
    let third = client.ask("workspace/diagnostic", ids(&second)).await;
    let third = shown(&third);
    assert!(third.contains(&("draft.knot".to_owned(), Some(0))), "gone: {third:?}");
    let band = third.iter().find(|(name, _)| name == "band.knot").unwrap();
    assert!(band.1.is_some_and(|count| count > 0), "its motif is gone: {third:?}");
    stage.write("notes.md", "```knot\nknot\n```\n");
    stage.write("page.md", "# Pier\n");
    let changes = json!({ "changes": [event("notes.md", 2), event("page.md", 2)] });
    client.tell("workspace/didChangeWatchedFiles", changes).await;
    let fourth = shown(&client.ask("workspace/diagnostic", ids(&second)).await);
    assert!(fourth.contains(&("page.md".to_owned(), Some(0))), "it is a page no more: {fourth:?}");
    assert!(fourth.iter().any(|(name, items)| name == "notes.md" && *items > Some(0)), "{fourth:?}");
    client.goodbye().await;
}

#[tokio::test]
async fn a_client_is_asked_for_what_it_offers() {
    let stage = Stage::new();
    let can = json!({
        "workspace": { "configuration": true, "didChangeWatchedFiles": { "dynamicRegistration": true } },
        "window": { "workDoneProgress": true },
    });
    let mut client = Client::silent();
    let folder = json!({ "uri": stage.uri(""), "name": "stage" });
    client.hello(json!({ "capabilities": can, "workspaceFolders": [folder] })).await;
    let asked = client.next("workspace/configuration").await;
    assert_eq!(asked["items"][0]["section"], "knotwright");
    let watched = client.next("client/registerCapability").await;
    assert_eq!(watched["registrations"][0]["method"], "workspace/didChangeWatchedFiles");
    let token = client.next("window/workDoneProgress/create").await["token"].clone();
    for kind in ["begin", "end"] {
        let progress = client.next("$/progress").await;
        assert_eq!((&progress["token"], &progress["value"]["kind"]), (&token, &json!(kind)));
    }
    client.goodbye().await;
}

/// A client that has much to do answers late, and the answers may be read in any order.
#[tokio::test]
async fn an_old_answer_about_settings_does_not_replace_a_newer_one() {
    let mut client = Client::with(json!({ "workspace": { "configuration": true } })).await;
    let first = client.next_request("workspace/configuration").await;
    client.tell("workspace/didChangeConfiguration", json!({ "settings": null })).await;
    let second = client.next_request("workspace/configuration").await;
    client.answer_with(second, json!([{ "hints": { "orders": "chips" } }])).await;
    client.answer_with(first, json!([{ "hints": { "orders": "text" } }])).await;
    let uri = "file:///pier.knot";
    let text = "pattern \"Pier\"\nthread kelp #1f5d50\nthread foam white\nstrands kelp foam\nset { take left 1: forward 1 }\n";
    client.tell("textDocument/didOpen", opened(uri, text)).await;
    client.next("textDocument/publishDiagnostics").await;
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 5, "character": 0 } });
    let hints =
        client.ask("textDocument/inlayHint", json!({ "textDocument": { "uri": uri }, "range": all })).await;
    let words = hints.to_string();
    assert!(!words.contains("foam"), "the client paints the order itself: {words}");
    client.goodbye().await;
}

/// An editor does not listen while it waits for hints.
#[tokio::test]
async fn a_client_is_told_more_than_once_to_ask_for_hints_again() {
    let mut client = Client::with(json!({ "workspace": { "inlayHint": { "refreshSupport": true } } })).await;
    let wish = json!({ "settings": { "knotwright": { "hints": { "orders": "chips" } } } });
    client.tell("workspace/didChangeConfiguration", wish).await;
    for _ in 0..3 {
        client.next("workspace/inlayHint/refresh").await;
    }
    client.goodbye().await;
}

#[tokio::test]
async fn what_another_open_document_changes_is_asked_for_again() {
    let refreshes = json!({ "refreshSupport": true });
    let mut client = Client::with(json!({
        "textDocument": { "diagnostic": {} },
        "workspace": { "inlayHint": refreshes, "codeLens": refreshes, "semanticTokens": refreshes },
    }))
    .await;
    let stage = Stage::new();
    let library = stage.uri("lib/fans.knot");
    client.tell("textDocument/didOpen", opened(&library, LIBRARY)).await;
    client.tell("textDocument/didOpen", opened(&stage.uri("band.knot"), BAND)).await;
    client.tell("textDocument/didChange", edited(&library, 2, (0, 0, 0, 0), "-- low tide\n")).await;
    for what in ["inlayHint", "semanticTokens", "codeLens", "inlayHint", "inlayHint"] {
        client.next(&format!("workspace/{what}/refresh")).await;
    }
    client.goodbye().await;
}

#[tokio::test]
async fn folders_come_and_go() {
    let (one, other) = (Stage::new(), Stage::new());
    other.write("other.knot", "pattern \"Quay\"\n");
    let mut client = one.client(json!({})).await;
    let find = json!({ "query": "quay" });
    assert_eq!(client.ask("workspace/symbol", find.clone()).await, json!([]));
    let folder = json!({ "uri": other.uri(""), "name": "other" });
    let event = json!({ "event": { "added": [folder], "removed": [] } });
    client.tell("workspace/didChangeWorkspaceFolders", event).await;
    assert_eq!(client.ask("workspace/symbol", find.clone()).await[0]["name"], "Quay");
    let event = json!({ "event": { "added": [], "removed": [folder] } });
    client.tell("workspace/didChangeWorkspaceFolders", event).await;
    assert_eq!(client.ask("workspace/symbol", find).await, json!([]));
    client.goodbye().await;
}

#[tokio::test]
async fn what_lies_outside_is_not_read_because_a_client_asks() {
    let (stage, outside) = (Stage::new(), Stage::new());
    let mut client = stage.client(json!({})).await;
    let ask = |uri: String| json!({ "textDocument": { "uri": uri } });
    let inside = client.ask("textDocument/documentSymbol", ask(stage.uri("lib/fans.knot"))).await;
    assert_eq!(inside[0]["name"], "Fans");
    let beyond = client.ask("textDocument/documentSymbol", ask(outside.uri("lib/fans.knot"))).await;
    assert_eq!(beyond, Value::Null);
    client.goodbye().await;
}

#[tokio::test]
async fn settings_add_up_from_the_root_to_the_file_as_they_do_for_a_check() {
    let stage = Stage::new();
    let doubtful = "pattern \"Pier\"\nthread kelp #1f5d50\nthread foam white\nstrands 4 kelp\nset { take left 1: forward 3 }\n";
    for name in ["pier.knot", "inner/pier.knot", "inner/old/pier.knot"] {
        stage.write(name, doubtful);
    }
    stage.write("knotwright.toml", "[rules]\nunused-thread = \"error\"\n");
    stage.write(
        "inner/knotwright.toml",
        "[[folder]]\npaths = [\"old/\"]\nrules = { unused-thread = \"off\" }\n",
    );
    let mut client = stage.client(json!({})).await;
    let mut severities = async |changed: Option<&str>| {
        if let Some(name) = changed {
            let changes = json!({ "changes": [{ "uri": stage.uri(name), "type": 2 }] });
            client.tell("workspace/didChangeWatchedFiles", changes).await;
        }
        let report = client.ask("workspace/diagnostic", json!({ "previousResultIds": [] })).await;
        let items = report["items"].as_array().unwrap().iter();
        let ours = items.filter(|item| item["uri"].as_str().unwrap().ends_with("pier.knot"));
        ours.map(|item| item["items"][0]["severity"].as_u64()).collect::<Vec<_>>()
    };
    assert_eq!(
        severities(None).await,
        [None, Some(1), Some(1)],
        "in order of names: inner/old, inner, and the root"
    );
    stage.write("inner/knotwright.toml", "root = true\n");
    assert_eq!(severities(Some("inner/knotwright.toml")).await, [Some(2), Some(2), Some(1)]);
    client.goodbye().await;
}
