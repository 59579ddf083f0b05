//! What is shown: words, pictures, colors, remarks, outlines.

use crate::client::edited;
use crate::stage::{BAND, Stage, applied};
use serde_json::{Value, json};

#[tokio::test]
async fn a_hover_is_in_the_form_the_editor_shows() {
    let stage = Stage::new();
    let hover = |formats: Value, parser: &str| {
        json!({
            "general": { "markdown": { "parser": parser } },
            "textDocument": { "hover": { "contentFormat": formats } },
        })
    };
    let mut client = stage.client(hover(json!(["plaintext"]), "marked")).await;
    let words = client.ask("textDocument/hover", stage.at(8, 15)).await;
    assert_eq!(words["contents"]["kind"], "plaintext");
    let text = words["contents"]["value"].as_str().unwrap();
    assert!(text.contains("foam") && !text.contains('`') && !text.contains("data:"), "{text}");
    client.goodbye().await;
    for (parser, shown) in [("marked", true), ("other", false)] {
        let mut client = stage.client(hover(json!(["markdown", "plaintext"]), parser)).await;
        let found = client.ask("textDocument/hover", stage.at(1, 13)).await;
        let text = found["contents"]["value"].as_str().unwrap();
        assert_eq!(found["contents"]["kind"], "markdown");
        assert_eq!(text.contains("](data:image/svg+xml;base64,"), shown, "{text}");
        assert_eq!(client.ask("textDocument/hover", stage.at(8, 1)).await, Value::Null, "between words");
        client.goodbye().await;
    }
}

/// Tokens as (line, column, length, type), unpacked.
pub(crate) fn unpacked(data: &Value) -> Vec<(u64, u64, u64, u64)> {
    let numbers: Vec<u64> = data.as_array().unwrap().iter().map(|number| number.as_u64().unwrap()).collect();
    let (mut line, mut column) = (0, 0);
    let one = |token: &[u64]| {
        column = if token[0] == 0 { column + token[1] } else { token[1] };
        line += token[0];
        (line, column, token[2], token[3])
    };
    numbers.chunks(5).map(one).collect()
}

#[tokio::test]
async fn words_get_their_colors_and_after_an_edit_only_what_is_new() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let all = client.ask("textDocument/semanticTokens/full", stage.band()).await;
    let tokens = unpacked(&all["data"]);
    assert_eq!(tokens[0], (0, 0, 7, 4), "`pattern` begins a statement");
    assert!(tokens.contains(&(6, 7, 4, 9)), "`turn` is a motif: {tokens:?}");
    let edit = edited(&stage.uri("band.knot"), 2, (8, 15, 8, 19), "kelp");
    client.tell("textDocument/didChange", edit).await;
    let mut asked = stage.band();
    asked["previousResultId"] = all["resultId"].clone();
    let delta = client.ask("textDocument/semanticTokens/full/delta", asked.clone()).await;
    assert_eq!(delta["edits"], json!([]), "the same sorts of words at the same places");
    asked["previousResultId"] = json!("long ago");
    let again = client.ask("textDocument/semanticTokens/full/delta", asked).await;
    assert_eq!(unpacked(&again["data"]), tokens, "whoever has nothing gets all");
    let mut asked = stage.band();
    asked["range"] = json!({ "start": { "line": 6, "character": 0 }, "end": { "line": 7, "character": 0 } });
    let some = client.ask("textDocument/semanticTokens/range", asked).await;
    assert!(unpacked(&some["data"]).iter().all(|token| token.0 == 6), "{some}");
    client.goodbye().await;
}

#[tokio::test]
async fn remarks_stand_where_they_are_wanted() {
    let stage = Stage::new();
    let whole = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 12, "character": 0 } });
    let mut asked = stage.band();
    asked["range"] = whole;
    let mut client = stage.client(json!({})).await;
    let hints = client.ask("textDocument/inlayHint", asked.clone()).await;
    let labels: Vec<&str> =
        hints.as_array().unwrap().iter().map(|hint| hint["label"].as_str().unwrap()).collect();
    assert!(labels.contains(&"= 3"), "`to edge` came to three: {labels:?}");
    assert!(labels.iter().any(|label| label.starts_with('\u{2192}')), "{labels:?}");
    let wish = json!({ "settings": { "knotwright": { "hints": { "orders": false } } } });
    client.tell("workspace/didChangeConfiguration", wish).await;
    let hints = client.ask("textDocument/inlayHint", asked).await;
    assert_eq!(hints.as_array().unwrap().len(), 1, "{hints}");
    let lenses = client.ask("textDocument/codeLens", stage.band()).await;
    let command = &lenses[0]["command"];
    assert!(command["title"].as_str().unwrap().starts_with("closes"), "{lenses}");
    assert_eq!(
        (&command["command"], &command["arguments"][0]["open"]),
        (&json!("knotwright.preview"), &json!(true))
    );
    assert_eq!(command["arguments"][0]["uri"], stage.uri("band.knot"));
    client.goodbye().await;
}

#[tokio::test]
async fn colors_are_shown_and_can_be_written_otherwise() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let colors = client.ask("textDocument/documentColor", stage.band()).await;
    assert_eq!(colors[1]["color"], json!({ "red": 1.0, "green": 1.0, "blue": 1.0, "alpha": 1.0 }));
    let mut asked = stage.band();
    asked["range"] = colors[1]["range"].clone();
    asked["color"] = json!({ "red": 0.0, "green": 0.0, "blue": 1.0, "alpha": 1.0 });
    let ways = client.ask("textDocument/colorPresentation", asked).await;
    let labels: Vec<&Value> = ways.as_array().unwrap().iter().map(|way| &way["label"]).collect();
    assert_eq!(labels, ["#0000ff", "blue"]);
    assert_eq!(applied(BAND, &json!([ways[1]["textEdit"]])), BAND.replace("white", "blue"));
    client.goodbye().await;
}

#[tokio::test]
async fn outlines_folds_and_selections() {
    let stage = Stage::new();
    let can = json!({ "textDocument": {
        "documentSymbol": { "hierarchicalDocumentSymbolSupport": true },
        "foldingRange": { "lineFoldingOnly": true },
    } });
    let mut client = stage.client(can).await;
    let outline = client.ask("textDocument/documentSymbol", stage.band()).await;
    let names: Vec<&Value> = outline.as_array().unwrap().iter().map(|symbol| &symbol["name"]).collect();
    assert_eq!(names, ["Pier", "kelp", "foam", "set"]);
    assert_eq!(outline[3]["children"][0]["name"], "last");
    let folds = client.ask("textDocument/foldingRange", stage.band()).await;
    let lines = |fold: &Value| (fold["startLine"].as_u64().unwrap(), fold["endLine"].as_u64().unwrap());
    let folds: Vec<_> = folds.as_array().unwrap().iter().map(lines).collect();
    assert!(folds.contains(&(5, 10)), "the brace of the set stays to be seen: {folds:?}");
    let mut asked = stage.band();
    asked["positions"] = json!([{ "line": 6, "character": 9 }]);
    let mut around = client.ask("textDocument/selectionRange", asked).await[0].clone();
    let mut widths = Vec::new();
    while around.is_object() {
        let range = &around["range"];
        widths.push(range["end"]["line"].as_u64().unwrap() - range["start"]["line"].as_u64().unwrap());
        around = around["parent"].clone();
    }
    assert!(widths.is_sorted() && widths.len() > 3, "{widths:?}");
    let found = client.ask("workspace/symbol", json!({ "query": "trn" })).await;
    assert_eq!(
        (&found[0]["name"], &found[0]["location"]["uri"]),
        (&json!("turn"), &json!(stage.uri("lib/fans.knot")))
    );
    client.goodbye().await;
}

#[tokio::test]
async fn formatting_touches_what_is_asked_for_and_nothing_else() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let mut asked = stage.band();
    asked["options"] = json!({ "tabSize": 8, "insertSpaces": false });
    assert_eq!(client.ask("textDocument/formatting", asked.clone()).await, json!([]), "it is well set");
    let uri = stage.uri("band.knot");
    let text = BAND.replace("  work turn(3)\n", "work  turn( 3 )\n");
    client.tell("textDocument/didChange", crate::client::replaced(&uri, 2, &text)).await;
    let edits = client.ask("textDocument/formatting", asked.clone()).await;
    assert_eq!(applied(&text, &edits), BAND);
    asked["range"] = json!({ "start": { "line": 6, "character": 0 }, "end": { "line": 7, "character": 0 } });
    let edits = client.ask("textDocument/rangeFormatting", asked).await;
    assert_eq!(applied(&text, &edits), text.replacen("work  turn( 3 )", "  work turn(3)", 1));
    let mut asked = stage.at(7, 0);
    asked["options"] = json!({ "tabSize": 8, "insertSpaces": false });
    asked["ch"] = json!("\n");
    let edits = client.ask("textDocument/onTypeFormatting", asked).await;
    assert_eq!(applied(&text, &edits), text.replacen("work  turn( 3 )", "  work turn(3)", 1));
    client.goodbye().await;
}
