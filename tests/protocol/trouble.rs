//! Whatever a client sends, the session goes on; and it ends when it should.

use crate::client::{Client, opened};
use crate::findings::{HEAD, rules};
use knotwright_language_server::SessionEnd;
use serde_json::{Value, json};
use std::process::Command;

#[tokio::test]
async fn what_is_no_message_is_answered_and_the_next_one_is_read() {
    let mut client = Client::with(json!({})).await;
    let bodies = ["{", "[]", "{\"jsonrpc\":\"2.0\"}", "\u{0}", "", "{\"jsonrpc\":\"2.0\",\"method\":1}"];
    for body in bodies {
        client.send_text(body).await;
        let code = client.answer(Value::Null).await["error"]["code"].as_i64().unwrap();
        assert!([-32700, -32600].contains(&code), "{body}: {code}");
    }
    client.send_bytes(b"Content-Length: 3\r\n\r\n\xff\xff\xff").await;
    assert_eq!(client.answer(Value::Null).await["error"]["code"], -32700);
    client.send_bytes(b"good morning\r\n\r\nContent-Length: many\r\n").await;
    assert_eq!(client.answer(Value::Null).await["error"]["code"], -32700);
    assert_eq!(client.answer(Value::Null).await["error"]["code"], -32700);
    client.tell("textDocument/didOpen", opened("untitled:Pier", HEAD)).await;
    rules(&mut client).await;
    client.goodbye().await;
}

#[tokio::test]
async fn what_nobody_knows_is_refused_and_wrong_words_do_no_harm() {
    let mut client = Client::with(json!({})).await;
    let id = client.begin("knots/untie", json!({})).await;
    assert_eq!(client.answer(id).await["error"]["code"], -32601);
    client.tell("knots/untie", json!({})).await;
    client.tell("$/whatever", json!({})).await;
    client.tell("textDocument/didChange", json!({ "textDocument": 3 })).await;
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": "untitled:Never" } })).await;
    let id = client.begin("initialize", json!({ "capabilities": {} })).await;
    assert_eq!(client.answer(id).await["error"]["code"], -32600, "hello is said once");
    client.goodbye().await;
}

#[tokio::test]
async fn before_hello_nothing_is_answered() {
    let mut client = Client::silent();
    let id = client.begin("shutdown", Value::Null).await;
    assert_eq!(client.answer(id).await["error"]["code"], -32002);
    client.tell("exit", Value::Null).await;
    client.end().await;
}

#[tokio::test]
async fn half_a_surrogate_pair_keeps_every_place() {
    let mut client = Client::with(json!({})).await;
    let text =
        format!("{HEAD}about \\\"a\\ud83db\\\" x").replace('\n', "\\n").replace("\"Pier\"", "\\\"Pier\\\"");
    client
        .send_text(&format!(
            "{{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\",\"params\":{{\"textDocument\":{{\
             \"uri\":\"untitled:Pier\",\"languageId\":\"knotwright\",\"version\":1,\"text\":\"{text}\"}}}}}}"
        ))
        .await;
    let said = client.next("textDocument/publishDiagnostics").await;
    let starts: Vec<&Value> =
        said["diagnostics"].as_array().unwrap().iter().map(|found| &found["range"]["start"]).collect();
    assert!(starts.contains(&&json!({ "line": 4, "character": 12 })), "{said}");
    client.goodbye().await;
}

#[tokio::test]
async fn the_session_ends_with_exit_while_the_stream_stays_open() {
    let mut client = Client::with(json!({})).await;
    client.tell("exit", Value::Null).await;
    assert_eq!(client.end().await, SessionEnd::Sudden, "nobody asked it to shut down");
}

#[tokio::test]
async fn a_shutdown_without_an_id_is_one_all_the_same() {
    let mut client = Client::with(json!({})).await;
    client.tell("shutdown", Value::Null).await;
    client.tell("exit", Value::Null).await;
    assert_eq!(client.end().await, SessionEnd::Orderly);
}

#[tokio::test]
async fn the_session_ends_with_the_stream() {
    let mut client = Client::with(json!({})).await;
    client.close().await;
    assert_eq!(client.end().await, SessionEnd::Sudden);
}

#[cfg(unix)]
#[tokio::test]
async fn the_session_ends_with_the_editor_that_began_it() {
    let mut editor = Command::new("sleep").arg("600").spawn().unwrap();
    let mut client = Client::silent();
    client.hello(json!({ "capabilities": {}, "processId": editor.id() })).await;
    editor.kill().unwrap();
    editor.wait().unwrap();
    assert_eq!(client.end().await, SessionEnd::Sudden);
}
