//! The live picture, as an editor asks for it. What the page does is under test in a browser.

use crate::client::Client;
use crate::stage::Stage;
use serde_json::{Value, json};
use std::io::{self, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

async fn asked(client: &mut Client, command: &str, argument: Value) -> Value {
    client.ask("workspace/executeCommand", json!({ "command": command, "arguments": [argument] })).await
}

/// Whether the page of this address, with its secret, is still there. That its port answers says nothing: the
/// page of another test may have been given the same port since.
fn is_served(address: &str) -> bool {
    let (host, path) = address.strip_prefix("http://").and_then(|rest| rest.split_once('/')).unwrap();
    assert!(host.starts_with("127.0.0.1:"), "on this machine only: {address}");
    let asked = || -> io::Result<String> {
        let mut stream = TcpStream::connect(host)?;
        stream.set_read_timeout(Some(Duration::from_secs(20)))?;
        write!(stream, "GET /{path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n")?;
        let mut answer = String::new();
        stream.read_to_string(&mut answer)?;
        Ok(answer)
    };
    asked().is_ok_and(|answer| answer.starts_with("HTTP/1.1 200"))
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
    // Its thread needs a moment to see that, on a busy machine a long one.
    for _ in 0..6000 {
        if !is_served(&address) {
            break;
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
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
    assert!(error["message"].as_str().unwrap().starts_with("This document is not open"), "{error}");
    client.goodbye().await;
}
