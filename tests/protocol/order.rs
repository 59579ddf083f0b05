//! Edits are done in their order, whatever else is going on.

use crate::client::{Client, edited, opened};
use crate::findings::{HEAD, rules};
use serde_json::json;

const URI: &str = "untitled:Pier";

#[tokio::test]
async fn after_a_burst_of_edits_the_last_one_counts() {
    let mut client = Client::with(json!({})).await;
    let text = format!("{HEAD}set {{\n  take left 1: forward 3\n}}\n");
    client.tell("textDocument/didOpen", opened(URI, &text)).await;
    for version in 2..=301 {
        // In the end 300 letters are in one comment that was begun with the first of them.
        let sign = if version == 2 { " -- " } else { "x" };
        let column = if version == 2 { 24 } else { 28 };
        client.tell("textDocument/didChange", edited(URI, version, (5, column, 5, column), sign)).await;
    }
    let mut last = 0;
    while last < 301 {
        let (found, version) = rules(&mut client).await;
        let version = version.as_i64().unwrap();
        assert!(version > last, "version {version} after {last}");
        assert!(!found.iter().any(|rule| rule == "not-understood"), "{version}: {found:?}");
        last = version;
    }
    client.goodbye().await;
}

#[tokio::test]
async fn a_question_is_about_the_text_as_it_was_asked_or_there_is_no_answer() {
    let mut client = Client::with(json!({ "textDocument": { "diagnostic": {} } })).await;
    let text = format!("{HEAD}set {{\n  take left 1: forward 3\n}}\n");
    client.tell("textDocument/didOpen", opened(URI, &text)).await;
    for version in 2..=60 {
        let is_broken = version % 2 == 0;
        let (old, new) = if is_broken { (4, "lost") } else { (4, "left") };
        let asked = json!({ "textDocument": { "uri": URI } });
        client.tell("textDocument/didChange", edited(URI, version, (5, 7, 5, 7 + old), new)).await;
        let id = client.begin("textDocument/diagnostic", asked).await;
        if version % 3 == 0 {
            let answer = client.answer(id).await;
            let found = answer["result"]["items"].to_string();
            assert_eq!(found.contains("\"not-understood\""), is_broken, "{version}: {answer}");
            continue;
        }
        client.tell("textDocument/didChange", edited(URI, version, (0, 0, 0, 0), "")).await;
        let answer = client.answer(id).await;
        let found = answer["result"]["items"].to_string();
        let is_modified = answer["error"]["code"] == -32801;
        assert!(is_modified || found.contains("\"not-understood\"") == is_broken, "{version}: {answer}");
    }
    client.goodbye().await;
}

#[tokio::test]
async fn proposals_come_also_to_whoever_types_on() {
    let mut client = Client::with(json!({ "textDocument": { "diagnostic": {} } })).await;
    let text = format!("{HEAD}set {{\n  take left 1: \n}}\n");
    client.tell("textDocument/didOpen", opened(URI, &text)).await;
    for (number, letter) in "forward".char_indices() {
        let column = 15 + number as u32;
        let at = json!({ "line": 5, "character": column });
        let asked = json!({ "textDocument": { "uri": URI }, "position": at });
        let id = client.begin("textDocument/completion", asked).await;
        let edit = edited(URI, number as i32 + 2, (5, column, 5, column), &letter.to_string());
        client.tell("textDocument/didChange", edit).await;
        let answer = client.answer(id).await;
        let items = answer["result"].as_array().unwrap_or_else(|| panic!("{answer}"));
        let forward = items.iter().find(|item| item["label"] == "forward").expect("`forward`");
        let range = &forward["textEdit"]["range"];
        assert_eq!(
            (&range["start"]["character"], &range["end"]),
            (&json!(15), &at),
            "as it was asked: {forward}"
        );
    }
    client.goodbye().await;
}

#[tokio::test]
async fn a_cancelled_question_is_answered_as_such() {
    let mut client = Client::with(json!({ "textDocument": { "diagnostic": {} } })).await;
    // Enough knots that the answer takes a while.
    let body = "  repeat 2000 {\n    take left 1: forward 3\n    take right 1: backward 3\n  }\n";
    client.tell("textDocument/didOpen", opened(URI, &format!("{HEAD}set {{\n{body}}}\n"))).await;
    let id = client.begin("textDocument/diagnostic", json!({ "textDocument": { "uri": URI } })).await;
    client.tell("$/cancelRequest", json!({ "id": id })).await;
    assert_eq!(client.answer(id).await["error"]["code"], -32800);
    client.goodbye().await;
}
