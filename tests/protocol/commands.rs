//! What can be asked for by name, as docs/language-server.md says.

use crate::client::{Client, opened};
use crate::findings::HEAD;
use crate::stage::Stage;
use serde_json::{Value, json};

/// Ties the same band as fewer series.
const RESTLESS: &str = "set {\n  repeat 3 {\n    take left 1: forward 1\n    take right 1: backward 1\n    \
                        take left 2: forward 1\n  }\n}\n";

async fn asked(client: &mut Client, command: &str, argument: Value) -> Value {
    client.ask("workspace/executeCommand", json!({ "command": command, "arguments": [argument] })).await
}

async fn refused(client: &mut Client, command: &str, argument: Value) -> (i64, String) {
    let params = json!({ "command": command, "arguments": [argument] });
    let id = client.begin("workspace/executeCommand", params).await;
    let error = client.answer(id).await["error"].clone();
    (error["code"].as_i64().unwrap(), error["message"].as_str().unwrap().to_owned())
}

#[tokio::test]
async fn every_command_that_is_promised_is_there_and_answers_with_the_band() {
    let stage = Stage::new();
    let mut client = Client::silent();
    let can = json!({ "textDocument": { "diagnostic": {} } });
    let can = client
        .hello(json!({ "capabilities": can, "workspaceFolders": [{ "uri": stage.uri(""), "name": "s" }] }))
        .await;
    let page =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../docs/language-server.md")).unwrap();
    for command in can["executeCommandProvider"]["commands"].as_array().unwrap() {
        let name = command.as_str().unwrap();
        assert!(page.contains(&format!("| `{name}` |")), "{name} is not in docs/language-server.md");
        let needs = json!({ "uri": stage.uri("band.knot") });
        let has_title = !["knotwright.explain", "knotwright.orders"].contains(&name);
        if !name.starts_with("knotwright.preview") && has_title {
            assert_eq!(
                asked(&mut client, name, needs).await["title"],
                "Pier",
                "{name}: of a file that is not open"
            );
        }
    }
    client.goodbye().await;
}

#[tokio::test]
async fn how_the_strands_hang_can_be_painted() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let text = format!("{HEAD}set {{\n  take left 1: forward 3\n  take left 9: forward 1\n}}\n");
    client.tell("textDocument/didChange", crate::client::replaced(&stage.uri("band.knot"), 2, &text)).await;
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } });
    let answer =
        asked(&mut client, "knotwright.orders", json!({ "uri": stage.uri("band.knot"), "range": all })).await;
    let order = &answer["orders"][0];
    let line = text.lines().position(|line| line.contains("forward 3")).unwrap();
    assert_eq!(order["position"]["line"], line, "an error below it changes nothing: {answer}");
    let strands = order["strands"].as_array().unwrap();
    assert!(strands.iter().all(|strand| strand["color"].as_str().unwrap().starts_with('#')), "{order}");
    let names: Vec<&str> = strands.iter().map(|strand| strand["thread"].as_str().unwrap()).collect();
    let hints = client.ask("textDocument/inlayHint", {
        let mut asked = stage.band();
        asked["range"] = all;
        asked
    });
    let hint = hints.await[0]["tooltip"].as_str().unwrap().to_owned();
    assert_eq!(order["tooltip"], hint, "in words it is what others are shown");
    assert!(names.iter().all(|name| hint.contains(name)), "{names:?} {hint}");
    client.goodbye().await;
}

#[tokio::test]
async fn pictures_are_as_they_are_wanted() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let text = crate::stage::BAND.replace("set {", "colorway \"Dusk\" {\n  thread kelp #402060\n}\nset {");
    client.tell("textDocument/didChange", crate::client::replaced(&stage.uri("band.knot"), 2, &text)).await;
    let uri = stage.uri("band.knot");
    let mut seen = Vec::new();
    for wish in [
        json!({}),
        json!({ "chart": true }),
        json!({ "vision": "deutan" }),
        json!({ "sets": 7 }),
        json!({ "colorway": "Dusk" }),
    ] {
        let mut wish = wish;
        wish["uri"] = json!(uri);
        let svg = asked(&mut client, "knotwright.picture", wish).await["svg"].as_str().unwrap().to_owned();
        assert!(svg.starts_with("<svg ") && !seen.contains(&svg));
        seen.push(svg);
    }
    assert!(seen[4].contains("#402060") && !seen[0].contains("#402060"));
    let (code, why) =
        refused(&mut client, "knotwright.picture", json!({ "uri": uri, "colorway": "Noon" })).await;
    assert_eq!((code, why.as_str()), (-32803, "No colorway is called \"Noon\"; there is \"Dusk\"."));
    let (code, why) =
        refused(&mut client, "knotwright.picture", json!({ "uri": uri, "vision": "cat" })).await;
    assert!(code == -32602 && why.contains("cat"), "{why}");
    client.goodbye().await;
}

#[tokio::test]
async fn words_and_thread_are_those_of_the_program() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let uri = stage.uri("band.knot");
    let markdown = |answer: &Value| answer["markdown"].as_str().unwrap().to_owned();
    let reported = markdown(&asked(&mut client, "knotwright.words", json!({ "uri": uri })).await);
    assert!(reported.starts_with("# Pier\n") && reported.contains("| 1 | 4 | kelp |"), "{reported}");
    let german = json!({ "uri": uri, "language": "de", "by": "rows", "mirrored": true });
    let german = markdown(&asked(&mut client, "knotwright.words", german).await);
    assert!(german.contains("Knoten") && !german.contains("strand"), "{german}");
    let usual = markdown(&asked(&mut client, "knotwright.thread", json!({ "uri": uri })).await);
    let long =
        markdown(&asked(&mut client, "knotwright.thread", json!({ "uri": uri, "length": "600mm" })).await);
    assert!(usual.contains("does not say how long") && !long.contains("does not say how long"), "{usual}");
    assert!(usual.contains("gauge { thickness") && !usual.contains("-thickness"), "no option here: {usual}");
    assert!(long.contains("| strand | color |") && long.contains("\n| 4 | foam |"), "{long}");
    let (code, why) =
        refused(&mut client, "knotwright.thread", json!({ "uri": uri, "length": "long" })).await;
    assert!(code == -32803 && why.starts_with("This is not a length"), "{why}");
    client.goodbye().await;
}

#[tokio::test]
async fn fewer_pick_ups_make_the_same_band() {
    let mut client = Client::with(json!({ "textDocument": { "diagnostic": {} } })).await;
    let uri = "untitled:Pier";
    client.tell("textDocument/didOpen", opened(uri, &format!("{HEAD}{RESTLESS}"))).await;
    let fewest = asked(&mut client, "knotwright.fewestPickUps", json!({ "uri": uri })).await;
    assert!(fewest["after"].as_u64() < fewest["before"].as_u64(), "{fewest}");
    let before = asked(&mut client, "knotwright.picture", json!({ "uri": uri })).await;
    let text = fewest["text"].as_str().unwrap();
    client.tell("textDocument/didChange", crate::client::replaced(uri, 2, text)).await;
    let after = asked(&mut client, "knotwright.picture", json!({ "uri": uri })).await;
    // Knots are drawn in the order in which they are tied; where and how they lie is what must be the same.
    let drawn = |answer: &Value| {
        let mut lines: Vec<String> = answer["svg"].as_str().unwrap().lines().map(str::to_owned).collect();
        lines.sort();
        lines
    };
    assert_eq!(drawn(&before), drawn(&after));
    let again = asked(&mut client, "knotwright.fewestPickUps", json!({ "uri": uri })).await;
    assert_eq!((&again["before"], &again["text"]), (&again["after"], &json!(text)));
    client.goodbye().await;
}

#[tokio::test]
async fn every_code_of_a_finding_has_a_page() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let broken = format!("{HEAD}set {{\n  take left 9: forward 1\n}}\n");
    client.tell("textDocument/didChange", crate::client::replaced(&stage.uri("band.knot"), 2, &broken)).await;
    let found = client.ask("textDocument/diagnostic", stage.band()).await;
    let code = found["items"][0]["code"].clone();
    let page = asked(&mut client, "knotwright.explain", json!({ "rule": code })).await;
    assert!(page["markdown"].as_str().unwrap().starts_with("# place-not-there\n"), "{page}");
    let (code, why) = refused(&mut client, "knotwright.explain", json!({ "rule": "tide" })).await;
    assert_eq!((code, why.as_str()), (-32803, "There is no rule `tide`."));
    client.goodbye().await;
}

#[tokio::test]
async fn what_cannot_be_answered_is_reported_for_people() {
    let stage = Stage::new();
    let mut client = stage.client(json!({})).await;
    let (band, library) = (stage.uri("band.knot"), stage.uri("lib/fans.knot"));
    let (code, why) = refused(&mut client, "knotwright.words", json!({ "uri": library })).await;
    assert!(code == -32803 && why.contains("no band"), "{why}");
    let (code, why) =
        refused(&mut client, "knotwright.words", json!({ "uri": band, "pattern": "Quay" })).await;
    assert!(code == -32803 && why.contains("\"Quay\""), "{why}");
    let (code, why) =
        refused(&mut client, "knotwright.words", json!({ "uri": stage.uri("none.knot") })).await;
    assert!(code == -32803 && why.contains("not in an open folder"), "{why}");
    assert_eq!(refused(&mut client, "knotwright.words", json!({})).await.0, -32602);
    assert_eq!(refused(&mut client, "knotwright.dance", json!({ "uri": band })).await.0, -32602);
    let broken = format!("{HEAD}set {{\n  take left 9: forward 1\n}}\n");
    client.tell("textDocument/didChange", crate::client::replaced(&band, 2, &broken)).await;
    for command in ["knotwright.picture", "knotwright.words", "knotwright.thread", "knotwright.fewestPickUps"]
    {
        let (code, why) = refused(&mut client, command, json!({ "uri": band })).await;
        assert!(code == -32803 && why.starts_with("This does not tie yet. Line 6: "), "{command}: {why}");
    }
    client.goodbye().await;
}
