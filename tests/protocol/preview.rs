//! The live picture, as an editor asks for it. What the page does is under test in a browser.

use crate::client::Client;
use crate::stage::Stage;
use serde_json::{Value, json};
use std::net::TcpStream;

async fn asked(client: &mut Client, command: &str, argument: Value) -> Value {
    client.ask("workspace/executeCommand", json!({ "command": command, "arguments": [argument] })).await
}

fn is_served(address: &str) -> bool {
    let host = address.strip_prefix("http://").and_then(|rest| rest.split('/').next()).unwrap();
    assert!(host.starts_with("127.0.0.1:"), "on this machine only: {address}");
    TcpStream::connect(host).is_ok()
}

#[tokio::test]
async fn a_document_has_one_page_until_it_is_closed() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let band = json!({ "uri": stage.uri("band.knot") });
    let address =
        asked(&mut client, "knotwright.preview", band.clone()).await["url"].as_str().unwrap().to_owned();
    assert!(is_served(&address));
    let again =
        asked(&mut client, "knotwright.preview", json!({ "uri": stage.uri("band.knot"), "open": true }))
            .await;
    assert_eq!(again["url"], address.as_str(), "and a client that shows no pages is asked for none");
    let at = json!({ "uri": stage.uri("band.knot"), "position": { "line": 6, "character": 3 } });
    assert_eq!(asked(&mut client, "knotwright.previewCursor", at).await, Value::Null);
    client.tell("textDocument/didClose", stage.band()).await;
    // Its thread needs a moment to see that.
    for _ in 0..500 {
        if !is_served(&address) {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(10)).await;
    }
    assert!(!is_served(&address));
    client.goodbye().await;
}

#[tokio::test]
async fn where_the_client_can_it_opens_the_page_for_the_person() {
    let stage = Stage::new();
    let mut client = stage.client(json!({ "window": { "showDocument": { "support": true } } })).await;
    let params = json!({ "command": "knotwright.preview", "arguments": [{ "uri": stage.uri("band.knot"), "open": true }] });
    let id = client.begin("workspace/executeCommand", params).await;
    let shown = client.next("window/showDocument").await;
    assert_eq!(shown["external"], true);
    assert_eq!(client.answer(id).await["result"]["url"], shown["uri"]);
    client.goodbye().await;
}

#[tokio::test]
async fn of_what_is_nowhere_there_is_no_page() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let params =
        json!({ "command": "knotwright.preview", "arguments": [{ "uri": stage.uri("nowhere.knot") }] });
    let id = client.begin("workspace/executeCommand", params).await;
    let error = client.answer(id).await["error"].clone();
    assert_eq!(error["code"], -32803);
    assert!(error["message"].as_str().unwrap().starts_with("There is no such document"), "{error}");
    client.goodbye().await;
}
