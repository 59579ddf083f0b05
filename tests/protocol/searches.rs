//! A search that somebody asked for is seen while it goes on, and ends with what it has when they say so.

use crate::client::{Client, opened};
use serde_json::{Value, json};

const URI: &str = "file:///harbor/swell.knot";

/// A set of turning knots only, on strands that alternate: whatever it shows, the same face needs fewer, and how few is not
/// soon known.
fn swell() -> String {
    let row = |row: usize| -> String {
        let knots = (row % 2..23).step_by(2);
        let marks = knots.map(|gap| {
            if (gap * gap / 5 + row * row / 3 + gap * row).is_multiple_of(3) { "> " } else { "< " }
        });
        format!("    {}\n", marks.collect::<String>().trim_end())
    };
    let rows: String = (0..30).map(row).collect();
    format!(
        "pattern \"Swell\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nstrands {}\n\nset {{\n  rows {{\n{rows}  }}\n  expect start\n}}\n",
        "kelp foam ".repeat(12).trim_end()
    )
}

fn asked(trigger: u32) -> Value {
    let here = json!({ "line": 5, "character": 0 });
    json!({
        "textDocument": { "uri": URI },
        "range": { "start": here, "end": here },
        "context": { "diagnostics": [], "only": ["refactor.rewrite"], "triggerKind": trigger },
    })
}

async fn client() -> Client {
    let literals =
        json!({ "codeActionLiteralSupport": { "codeActionKind": { "valueSet": ["refactor.rewrite"] } } });
    let can = json!({
        "window": { "workDoneProgress": true },
        "textDocument": { "codeAction": literals, "diagnostic": {} },
    });
    let mut client = Client::with(can).await;
    client.tell("textDocument/didOpen", opened(URI, &swell())).await;
    client
}

fn titles(answer: &Value) -> Vec<&str> {
    answer.as_array().unwrap().iter().map(|action| action["title"].as_str().unwrap()).collect()
}

#[tokio::test]
async fn a_search_is_shown_and_gives_what_it_has_when_it_is_cancelled() {
    let mut client = client().await;
    let id = client.begin("textDocument/codeAction", asked(1)).await;
    let token = client.next("window/workDoneProgress/create").await["token"].clone();
    let begun = client.next("$/progress").await;
    assert_eq!((&begun["token"], &begun["value"]["kind"]), (&token, &json!("begin")));
    assert_eq!(begun["value"]["cancellable"], true);
    // A first band is soon there.
    let mut said = begun["value"]["message"].as_str().unwrap().to_owned();
    while !said.contains("turning knots; looking for fewer") {
        said = client.next("$/progress").await["value"]["message"].as_str().unwrap().to_owned();
    }
    client.tell("window/workDoneProgress/cancel", json!({ "token": token })).await;
    let answer = client.answer(id).await;
    let offered = titles(&answer["result"]);
    let fewer = offered.iter().find(|title| title.starts_with("Fewer turning knots for this face")).unwrap();
    assert!(fewer.ends_with("instead of 345 (fewer may be possible)"), "{fewer}");
    while client.next("$/progress").await["value"]["kind"] != "end" {}
    client.goodbye().await;
}

#[tokio::test]
async fn what_is_looked_up_wherever_the_cursor_goes_is_not_shown() {
    let mut client = client().await;
    let answer = client.ask("textDocument/codeAction", asked(2)).await;
    assert!(!titles(&answer).is_empty());
    client.goodbye().await;
}
