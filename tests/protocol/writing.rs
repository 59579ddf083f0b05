//! Help while a pattern is being written: proposals, forms, mends.

use crate::client::replaced;
use crate::stage::{BAND, Stage, applied};
use serde_json::{Value, json};

fn labels(items: &Value) -> Vec<&str> {
    items.as_array().unwrap().iter().map(|item| item["label"].as_str().unwrap()).collect()
}

#[tokio::test]
async fn proposals_know_the_strands_that_hang_there() {
    let stage = Stage::new();
    for snippets in [false, true] {
        let can =
            json!({ "textDocument": { "completion": { "completionItem": { "snippetSupport": snippets } } } });
        let mut client = stage.client(can).await;
        let uri = stage.uri("band.knot");
        let text = BAND.replace("  expect start\n", "  expect start\n  \n  take left 1 \n");
        client.tell("textDocument/didChange", replaced(&uri, 2, &text)).await;
        let items = client.ask("textDocument/completion", stage.at(11, 2)).await;
        let take = items.as_array().unwrap().iter().find(|item| item["label"] == "take").expect("`take`");
        let new = take["textEdit"]["newText"].as_str().unwrap();
        assert_eq!(new.contains('$'), snippets, "{take}");
        assert_eq!(take["insertTextFormat"] == 2, snippets, "{take}");
        let order: Vec<&Value> = items.as_array().unwrap().iter().map(|item| &item["sortText"]).collect();
        assert!(order.is_sorted_by_key(|sort| sort.as_str()));
        let work = client.ask("textDocument/completion", stage.at(6, 7)).await;
        assert!(labels(&work).iter().any(|label| label.starts_with("turn")), "{work}");
        client.goodbye().await;
    }
}

#[tokio::test]
async fn the_form_of_a_motif_is_shown_while_it_is_worked() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let help = client.ask("textDocument/signatureHelp", stage.at(6, 12)).await;
    let form = &help["signatures"][0];
    assert_eq!((&form["label"], &form["parameters"][0]["label"]), (&json!("turn(size)"), &json!("size")));
    assert_eq!(help["activeParameter"], 0);
    client.goodbye().await;
}

/// Titles of the actions of one kind at a line, and the edits of the first that has such a title.
async fn offered(stage: &Stage, text: &str, (line, only): (u32, &str)) -> Vec<(String, Value, Value)> {
    let can = json!({ "textDocument": { "codeAction": { "codeActionLiteralSupport": {
        "codeActionKind": { "valueSet": [] },
    } } } });
    let mut client = stage.client(can).await;
    let uri = stage.uri("band.knot");
    client.tell("textDocument/didChange", replaced(&uri, 2, text)).await;
    let mut asked = stage.band();
    asked["range"] =
        json!({ "start": { "line": line, "character": 3 }, "end": { "line": line, "character": 3 } });
    asked["context"] = json!({ "diagnostics": [], "only": [only] });
    let actions = client.ask("textDocument/codeAction", asked).await;
    client.goodbye().await;
    let one = |action: &Value| {
        assert!(action["kind"].as_str().unwrap().starts_with(only), "{action}");
        let title = action["title"].as_str().unwrap().to_owned();
        (title, action["edit"]["changes"][&uri].clone(), action["diagnostics"].clone())
    };
    actions.as_array().unwrap().iter().map(one).collect()
}

/// Four strands of four colors: each goes across once.
const ACROSS: &str = "pattern \"High tide\"\nthread kelp #1f5d50\nthread sand #f3e3b8\nthread coral #e2725b\n\
    thread night #0b1030\nstrands kelp coral sand night\nset {\n  take left 1: forward 3\n  take left 1: forward 3\n  \
    take left 1: forward 3\n  take left 1: forward 3\n  expect start\n}\n";

#[tokio::test]
async fn a_slip_is_mended_at_the_press_of_a_button() {
    let stage = Stage::new();
    let slip = ACROSS.replacen("forward 3", "forwrad 3", 1);
    let all = offered(&stage, &slip, (0, "source.fixAll")).await;
    assert_eq!(applied(&slip, &all[0].1), ACROSS, "{all:?}");
    let slip = ACROSS.replacen("forward 3", "forward 2", 1);
    let mut fixes = Vec::new();
    for line in 7..12 {
        fixes.extend(offered(&stage, &slip, (line, "quickfix")).await);
    }
    let (title, _, answers) =
        fixes.iter().find(|(_, edits, _)| applied(&slip, edits) == ACROSS).expect("the mend");
    assert!(title.starts_with("Write `3`"), "{title}");
    assert!(answers[0]["code"].is_string(), "it says which finding it answers: {answers}");
}

#[tokio::test]
async fn a_client_that_can_is_told_to_ask_for_the_name_of_a_new_motif() {
    let stage = Stage::new();
    let actions =
        json!({ "codeAction": { "codeActionLiteralSupport": { "codeActionKind": { "valueSet": [] } } } });
    for can in [json!({ "knotwright": { "commands": ["knotwright.rename"] } }), json!({})] {
        let mut client =
            stage.client(json!({ "textDocument": actions.clone(), "experimental": can.clone() })).await;
        let uri = stage.uri("band.knot");
        client.tell("textDocument/didChange", replaced(&uri, 2, ACROSS)).await;
        let mut asked = stage.band();
        asked["range"] =
            json!({ "start": { "line": 7, "character": 2 }, "end": { "line": 8, "character": 9 } });
        asked["context"] = json!({ "diagnostics": [], "only": ["refactor.extract"] });
        let actions = client.ask("textDocument/codeAction", asked).await;
        let extract = &actions[0];
        let text = applied(ACROSS, &extract["edit"]["changes"][&uri]);
        if can.get("knotwright").is_some() {
            assert_eq!(extract["command"]["command"], "knotwright.rename", "{extract}");
            let argument = &extract["command"]["arguments"][0];
            assert_eq!(argument["uri"], uri.as_str());
            let at = |name: &str| {
                argument["position"][name].as_u64().and_then(|at| usize::try_from(at).ok()).unwrap()
            };
            let line = text.lines().nth(at("line")).unwrap();
            assert!(line[at("character")..].starts_with("piece("), "{line}");
        } else {
            assert!(extract["command"].is_null(), "{extract}");
        }
        client.goodbye().await;
    }
}

#[tokio::test]
async fn the_same_band_can_be_written_otherwise() {
    let stage = Stage::new();
    let ways = offered(&stage, BAND, (8, "refactor")).await;
    assert!(!ways.is_empty());
    for (title, edits, _) in &ways {
        assert_ne!(applied(BAND, edits), BAND, "{title}");
    }
    let none = offered(&stage, BAND, (8, "source.organizeImports")).await;
    assert!(none.is_empty(), "{none:?}");
}
