//! Names, over several files.

use crate::stage::{BAND, LIBRARY, Stage, applied};
use serde_json::{Value, json};

#[tokio::test]
async fn a_motif_is_found_where_it_is_given_and_wherever_it_stands() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let given = client.ask("textDocument/definition", stage.at(6, 8)).await;
    assert_eq!(given["uri"], stage.uri("lib/fans.knot"));
    assert_eq!(given["range"]["start"], json!({ "line": 3, "character": 6 }));
    let mut asked = stage.at(6, 8);
    asked["context"] = json!({ "includeDeclaration": true });
    let all = client.ask("textDocument/references", asked).await;
    let of =
        |place: &Value| format!("{}:{}", place["uri"].as_str().unwrap(), place["range"]["start"]["line"]);
    let all: Vec<String> = all.as_array().unwrap().iter().map(of).collect();
    let (band, library) = (stage.uri("band.knot"), stage.uri("lib/fans.knot"));
    assert_eq!(all, [format!("{band}:4"), format!("{band}:6"), format!("{band}:7"), format!("{library}:3")]);
    let marks = client.ask("textDocument/documentHighlight", stage.at(6, 8)).await;
    assert_eq!(marks.as_array().unwrap().len(), 3, "{marks}");
    let link = client.ask("textDocument/documentLink", stage.band()).await;
    assert_eq!(link[0]["target"], library);
    client.goodbye().await;
}

#[tokio::test]
async fn a_new_name_reaches_files_that_are_not_open() {
    let stage = Stage::new();
    for versions in [false, true] {
        let can = json!({ "workspace": { "workspaceEdit": { "documentChanges": versions } } });
        let mut client = stage.client(can).await;
        let word = client.ask("textDocument/prepareRename", stage.at(6, 8)).await;
        assert_eq!(word["placeholder"], "turn");
        let mut asked = stage.at(6, 8);
        asked["newName"] = json!("wave");
        let edit = client.ask("textDocument/rename", asked).await;
        let (band, library) = if versions {
            let changes = &edit["documentChanges"];
            assert_eq!(changes[0]["textDocument"]["version"], 1, "the open one");
            assert_eq!(changes[1]["textDocument"]["version"], Value::Null, "the other");
            (changes[0]["edits"].clone(), changes[1]["edits"].clone())
        } else {
            let of = |name: &str| edit["changes"][stage.uri(name)].clone();
            (of("band.knot"), of("lib/fans.knot"))
        };
        assert_eq!(applied(BAND, &band), BAND.replace("turn", "wave"));
        assert_eq!(applied(LIBRARY, &library), LIBRARY.replace("turn", "wave"));
        client.goodbye().await;
    }
}

#[tokio::test]
async fn a_name_that_cannot_be_given_is_refused_in_words() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let mut asked = stage.at(6, 8);
    asked["newName"] = json!("forward");
    let id = client.begin("textDocument/rename", asked).await;
    let refused = client.answer(id).await["error"].clone();
    assert_eq!(refused["code"], -32803);
    assert!(
        refused["message"].as_str().unwrap().contains("`forward` is a word of the notation"),
        "{refused}"
    );
    client.goodbye().await;
}

#[tokio::test]
async fn paths_follow_files_and_folders_that_get_other_names() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    for (old, new, path) in
        [("lib/fans.knot", "lib/wheels.knot", "lib/wheels.knot"), ("lib", "motifs", "motifs/fans.knot")]
    {
        let rename = json!({ "files": [{ "oldUri": stage.uri(old), "newUri": stage.uri(new) }] });
        let edit = client.ask("workspace/willRenameFiles", rename).await;
        let text = applied(BAND, &edit["changes"][stage.uri("band.knot")]);
        assert_eq!(text, BAND.replace("lib/fans.knot", path));
    }
    client.goodbye().await;
}

#[tokio::test]
async fn who_works_a_motif_and_what_it_works() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let item = client.ask("textDocument/prepareCallHierarchy", stage.at(6, 8)).await[0].clone();
    assert_eq!((&item["name"], &item["uri"]), (&json!("turn"), &json!(stage.uri("lib/fans.knot"))));
    let callers = client.ask("callHierarchy/incomingCalls", json!({ "item": item })).await;
    assert_eq!(callers[0]["from"]["name"], "set");
    assert_eq!(callers[0]["fromRanges"].as_array().unwrap().len(), 2);
    let set = json!({ "item": callers[0]["from"] });
    let called = client.ask("callHierarchy/outgoingCalls", set).await;
    assert_eq!(called[0]["to"]["name"], "turn");
    client.goodbye().await;
}

#[tokio::test]
async fn what_is_to_be_edited_as_one() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let linked = client.ask("textDocument/linkedEditingRange", stage.at(9, 18)).await;
    assert_eq!(linked["ranges"][0]["start"], json!({ "line": 9, "character": 17 }), "{linked}");
    assert_eq!(client.ask("textDocument/linkedEditingRange", stage.at(6, 3)).await, Value::Null);
    client.goodbye().await;
}
