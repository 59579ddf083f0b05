//! What is found reaches the editor: the newest version, once, and is taken back.

use crate::client::{Client, edited, opened, replaced};
use serde_json::{Value, json};

pub(crate) const HEAD: &str =
    "pattern \"Pier\"\nthread kelp #1f5d50\nthread foam white\nstrands 2 kelp 2 foam\n";
const URI: &str = "untitled:Pier";

/// The rules of the next findings that are sent, and of which version.
pub(crate) async fn rules(client: &mut Client) -> (Vec<String>, Value) {
    let said = client.next("textDocument/publishDiagnostics").await;
    let of = |found: &Value| found["code"].as_str().unwrap().to_owned();
    (said["diagnostics"].as_array().unwrap().iter().map(of).collect(), said["version"].clone())
}

fn set(body: &str) -> String {
    format!("{HEAD}set {{\n  {body}\n}}\n")
}

const CLOSED: &str = "take left 1: forward 3\n  take left 1: forward 3\n  take left 1: forward 3\n  \
                      take left 1: forward 3\n  expect start";

#[tokio::test]
async fn findings_come_with_their_version_and_go_with_their_cause() {
    let mut client = Client::with(json!({})).await;
    client.tell("textDocument/didOpen", opened(URI, &set("take left 9: forward 1"))).await;
    let (found, version) = rules(&mut client).await;
    assert_eq!((found[0].as_str(), version), ("place-not-there", json!(1)));
    client.tell("textDocument/didChange", replaced(URI, 2, &set(CLOSED))).await;
    assert_eq!(rules(&mut client).await, (vec![], json!(2)));
    client.tell("textDocument/didChange", edited(URI, 3, (5, 0, 5, 0), "braid\n")).await;
    let (found, version) = rules(&mut client).await;
    assert_eq!((found[0].as_str(), version), ("unknown-statement", json!(3)));
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": URI } })).await;
    assert_eq!(rules(&mut client).await, (vec![], Value::Null), "closed: nothing is said of it any more");
    client.goodbye().await;
}

#[tokio::test]
async fn columns_are_counted_as_was_agreed() {
    let text = format!("{HEAD}about \"\u{1f600}\u{e9}\" x\n");
    for (encoding, start) in [("utf-8", 15), ("utf-16", 12), ("utf-32", 11)] {
        let offered = json!({ "general": { "positionEncodings": ["utf-16", encoding] } });
        let mut client = Client::silent();
        let can = client.hello(json!({ "capabilities": offered })).await;
        assert_eq!(can["positionEncoding"], encoding);
        client.tell("textDocument/didOpen", opened(URI, &text)).await;
        let said = client.next("textDocument/publishDiagnostics").await;
        let found = said["diagnostics"].as_array().unwrap();
        let starts: Vec<&Value> = found.iter().map(|found| &found["range"]["start"]).collect();
        assert!(starts.contains(&&json!({ "line": 4, "character": start })), "{encoding}: {starts:?}");
        client.goodbye().await;
    }
}

#[tokio::test]
async fn where_a_strand_was_moved_is_reported_beside_the_finding() {
    let related = json!({ "textDocument": { "publishDiagnostics": { "relatedInformation": true } } });
    let broken = set("take left 1: forward 3\n  take right 1 (foam): backward 1");
    for (can, shown) in [(related, true), (json!({}), false)] {
        let mut client = Client::with(can).await;
        client.tell("textDocument/didOpen", opened(URI, &broken)).await;
        let said = client.next("textDocument/publishDiagnostics").await;
        let found = &said["diagnostics"][0];
        assert_eq!(found["code"], "broken-promise", "{said}");
        let message = found["message"].as_str().unwrap();
        if shown {
            let note = &found["relatedInformation"][0];
            assert_eq!(note["location"]["range"]["start"]["line"], 5);
            assert!(note["message"].as_str().unwrap().contains("came here"), "{note}");
        } else {
            assert!(message.contains("\nLine 6: ") && found.get("relatedInformation").is_none(), "{found}");
        }
        client.goodbye().await;
    }
}

#[tokio::test]
async fn who_asks_for_findings_is_sent_none() {
    let mut client = Client::with(json!({ "textDocument": { "diagnostic": {} } })).await;
    client.tell("textDocument/didOpen", opened(URI, &set("take left 9: forward 1"))).await;
    let asked = json!({ "textDocument": { "uri": URI } });
    let first = client.ask("textDocument/diagnostic", asked.clone()).await;
    assert_eq!((&first["kind"], &first["items"][0]["code"]), (&json!("full"), &json!("place-not-there")));
    let again = json!({ "textDocument": { "uri": URI }, "previousResultId": first["resultId"] });
    let again = client.ask("textDocument/diagnostic", again).await;
    assert_eq!((&again["kind"], &again["resultId"]), (&json!("unchanged"), &first["resultId"]));
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": URI } })).await;
    let closed = client.ask("textDocument/diagnostic", asked).await;
    assert_eq!(closed["items"], json!([]));
    client.goodbye().await;
}

/// The first and the last promise are broken, and no single edit keeps all three: the same strand is in hand each time.
const TWO_BROKEN: &str = "take left 1 (foam): forward-backward 1\n  take left 1 (kelp): forward-backward 1\n  \
                          take left 1 (foam): forward-backward 1";

#[tokio::test]
async fn what_was_said_at_once_stays_when_more_is_found() {
    let mut client = Client::with(json!({})).await;
    client.tell("textDocument/didOpen", opened(URI, &set(TWO_BROKEN))).await;
    let first = client.next("textDocument/publishDiagnostics").await;
    let all = client.next("textDocument/publishDiagnostics").await;
    let (first, all) = (first["diagnostics"].as_array().unwrap(), all["diagnostics"].as_array().unwrap());
    assert_eq!((first.len(), all.len()), (1, 2), "{first:?} {all:?}");
    assert!(all.contains(&first[0]), "{first:?} {all:?}");
    client.goodbye().await;
}

/// Whoever types sees both all the time.
#[tokio::test]
async fn what_is_shown_already_does_not_go_and_come_back() {
    let mut client = Client::with(json!({})).await;
    client.tell("textDocument/didOpen", opened(URI, &set(TWO_BROKEN))).await;
    let count = async |client: &mut Client| rules(client).await.0.len();
    assert_eq!((count(&mut client).await, count(&mut client).await), (1, 2));
    // What is found at once is all that is found: it is said once of each version.
    for version in 2..5 {
        client
            .tell("textDocument/didChange", edited(URI, version, (4, 0, 4, 0), "-- under the pier\n"))
            .await;
        assert_eq!(count(&mut client).await, 2, "{version}");
    }
    client.goodbye().await;
}

/// Whoever makes a slip need not wait for what else is to be said of the text.
#[tokio::test]
async fn what_is_wrong_first_is_said_while_the_rest_is_still_being_tied() {
    let mut client = Client::with(json!({})).await;
    let clean = format!("{HEAD}thread Foam gray\n{}", &set(CLOSED)[HEAD.len()..]);
    for (wrong, rule) in [(" (foam)", "broken-promise"), (" as", "not-understood")] {
        let text = clean.replacen("left 1", &format!("left 1{wrong}"), 1);
        client.tell("textDocument/didOpen", opened(URI, &text)).await;
        assert_eq!(rules(&mut client).await.0, [rule]);
        assert_eq!(rules(&mut client).await.0, ["name-differs-by-case", rule]);
        // In a text of which something is shown, that stays, and all is said at once.
        client.tell("textDocument/didChange", edited(URI, 2, (0, 0, 0, 0), "-- a pier\n")).await;
        assert_eq!(
            rules(&mut client).await,
            (vec!["name-differs-by-case".to_owned(), rule.to_owned()], json!(2))
        );
        client.tell("textDocument/didClose", json!({ "textDocument": { "uri": URI } })).await;
        assert_eq!(rules(&mut client).await.0, [""; 0]);
    }
    client.goodbye().await;
}

#[tokio::test]
async fn who_asks_for_findings_is_told_to_ask_again_when_there_are_more() {
    let can = json!({
        "textDocument": { "diagnostic": {} }, "workspace": { "diagnostics": { "refreshSupport": true } },
    });
    let mut client = Client::with(can).await;
    client.tell("textDocument/didOpen", opened(URI, &set(TWO_BROKEN))).await;
    let asked = json!({ "textDocument": { "uri": URI } });
    let first = client.ask("textDocument/diagnostic", asked.clone()).await;
    assert_eq!(first["items"].as_array().map(Vec::len), Some(1), "{first}");
    client.next("workspace/diagnostic/refresh").await;
    let all = client.ask("textDocument/diagnostic", asked).await;
    assert_eq!(all["items"].as_array().map(Vec::len), Some(2), "{all}");
    client.goodbye().await;
}

#[tokio::test]
async fn what_is_open_goes_before_what_is_saved() {
    let folder = tempfile::tempdir().unwrap();
    let root = folder.path().canonicalize().unwrap();
    std::fs::create_dir(root.join(".git")).unwrap();
    let library = "pattern \"Fans\"\nmotif turn() {\n  take left 1: forward 1\n}\n";
    std::fs::write(root.join("fans.knot"), library).unwrap();
    let uri = |name: &str| format!("file://{}/{name}", root.display());
    let band = format!("{HEAD}use turn from \"fans.knot\"\n{}", &set("work turn()")[HEAD.len()..]);
    let mut client = Client::with(json!({})).await;
    client.tell("textDocument/didOpen", opened(&uri("band.knot"), &band)).await;
    let (saved, _) = rules(&mut client).await;
    assert!(!saved.iter().any(|rule| rule.starts_with("import")), "{saved:?}");
    let other = library.replace("turn", "wave");
    client.tell("textDocument/didOpen", opened(&uri("fans.knot"), &other)).await;
    let mut seen = [rules_of(&mut client).await, rules_of(&mut client).await];
    seen.sort();
    assert!(seen[0].1.iter().any(|rule| rule == "import-lacks-motif"), "{seen:?}");
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": uri("fans.knot") } })).await;
    let mut seen = [rules_of(&mut client).await, rules_of(&mut client).await];
    seen.sort();
    assert_eq!(seen[0].1, saved, "closed unsaved: what is saved holds again");
    client.goodbye().await;
}

async fn rules_of(client: &mut Client) -> (String, Vec<String>) {
    let said = client.next("textDocument/publishDiagnostics").await;
    let of = |found: &Value| found["code"].as_str().unwrap().to_owned();
    let rules = said["diagnostics"].as_array().unwrap().iter().map(of).collect();
    (said["uri"].as_str().unwrap().to_owned(), rules)
}

/// A place of nothing is widened by one character, which may be of several units.
#[tokio::test]
async fn a_range_never_begins_within_a_character() {
    for (text, start, end) in [("thread \u{e9}", 7, 9), ("thread \u{1f600}", 7, 11), ("\u{e9}", 0, 2)] {
        let mut client = Client::silent();
        let offered = json!({ "general": { "positionEncodings": ["utf-8"] } });
        client.hello(json!({ "capabilities": offered })).await;
        client.tell("textDocument/didOpen", opened(URI, text)).await;
        let said = client.next("textDocument/publishDiagnostics").await;
        let ranges: Vec<&Value> =
            said["diagnostics"].as_array().unwrap().iter().map(|found| &found["range"]).collect();
        let at = |column: u32| json!({ "line": 0, "character": column });
        assert!(ranges.contains(&&json!({ "start": at(start), "end": at(end) })), "{text}: {ranges:?}");
        client.goodbye().await;
    }
}
