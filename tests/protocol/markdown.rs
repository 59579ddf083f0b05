//! Patterns that are fenced in Markdown: known where they stand, and nothing else there is touched.

use crate::client::{Client, edited, opened, replaced};
use crate::looks::unpacked;
use crate::stage::{BAND, Stage, applied};
use serde_json::{Value, json};

/// Two patterns in a page, the second in a quote.
const PAGE: &str = "# Pier \u{1f600}\n\nA  page with   odd spaces.\n\n```knot\npattern \"Pier\"\nthread kelp #1f5d50\n\
    thread foam white\nstrands 2 kelp 2 foam\nset {\n  take left 9: forward 3\n}\n```\n\n> ```knot\n> pattern \"Quay\"\n\
    > thread rope #d98e4a\n> strands 3 rope\n> set { take left 1: forward 2 }\n> ```\n\n```knot fragment\ntake left 9\n```\n";

struct Page {
    stage: Stage,
    client: Client,
    uri: String,
}

impl Page {
    async fn open() -> Self {
        let stage = Stage::new();
        let can = json!({ "textDocument": {
            "codeAction": { "codeActionLiteralSupport": { "codeActionKind": { "valueSet": [] } } },
            "documentSymbol": { "hierarchicalDocumentSymbolSupport": true },
        } });
        let mut client = stage.client(can).await;
        let uri = stage.uri("page.md");
        client.tell("textDocument/didOpen", opened(&uri, PAGE)).await;
        Self { stage, client, uri }
    }

    async fn ask(&mut self, method: &str, more: Value) -> Value {
        let mut params = json!({ "textDocument": { "uri": self.uri } });
        more.as_object().unwrap().iter().for_each(|(key, value)| params[key] = value.clone());
        self.client.ask(method, params).await
    }

    async fn ask_at(&mut self, method: &str, line: u32, column: u32) -> Value {
        self.ask(method, json!({ "position": { "line": line, "character": column } })).await
    }
}

#[tokio::test]
async fn what_is_found_stands_where_it_is_and_only_in_whole_patterns() {
    let mut page = Page::open().await;
    let found = page.ask("textDocument/diagnostic", json!({})).await;
    let found: Vec<(&Value, &Value)> =
        found["items"].as_array().unwrap().iter().map(|one| (&one["code"], &one["range"]["start"])).collect();
    assert!(
        found.contains(&(&json!("place-not-there"), &json!({ "line": 10, "character": 12 }))),
        "{found:?}"
    );
    assert!(found.iter().all(|(_, start)| start["line"].as_u64() < Some(20)), "{found:?}");
    page.client.goodbye().await;
}

#[tokio::test]
async fn what_stands_beside_a_pattern_is_none_of_ours() {
    let mut page = Page::open().await;
    assert_eq!(page.ask_at("textDocument/hover", 2, 3).await, Value::Null);
    assert_eq!(page.ask_at("textDocument/completion", 2, 3).await, Value::Null);
    let beside = json!({ "positions": [{ "line": 2, "character": 3 }] });
    assert_eq!(page.ask("textDocument/selectionRange", beside).await, Value::Null);
    let hover = page.ask_at("textDocument/hover", 16, 10).await;
    assert!(hover["contents"]["value"].as_str().unwrap().contains("rope"), "{hover}");
    assert_eq!(hover["range"]["start"], json!({ "line": 16, "character": 9 }));
    let proposals = page.ask_at("textDocument/completion", 10, 7).await;
    assert!(proposals.as_array().unwrap().iter().any(|item| item["label"] == "left 1"), "{proposals}");
    let whole =
        json!({ "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } } });
    let hints = page.ask("textDocument/inlayHint", whole).await;
    assert!(hints.as_array().unwrap().iter().any(|hint| hint["position"]["line"] == 18), "{hints}");
    let colors = page.ask("textDocument/documentColor", json!({})).await;
    assert_eq!(colors.as_array().unwrap().len(), 3, "{colors}");
    page.client.goodbye().await;
}

#[tokio::test]
async fn a_name_is_changed_in_its_pattern_and_the_page_stays() {
    let mut page = Page::open().await;
    let edits = page
        .ask("textDocument/rename", json!({ "position": { "line": 16, "character": 10 }, "newName": "line" }))
        .await;
    let renamed = applied(PAGE, &edits["changes"][&page.uri]);
    let wanted = PAGE.replace("thread rope", "thread line").replace("strands 3 rope", "strands 3 line");
    assert_eq!(renamed, wanted);
    let range = json!({ "start": { "line": 10, "character": 7 }, "end": { "line": 10, "character": 7 } });
    let actions = page
        .ask("textDocument/codeAction", json!({ "range": range, "context": { "diagnostics": [] } }))
        .await;
    for action in actions.as_array().unwrap() {
        for edit in action["edit"]["changes"][&page.uri].as_array().unwrap() {
            let (start, end) = (&edit["range"]["start"]["line"], &edit["range"]["end"]["line"]);
            assert!(start == end && !edit["newText"].as_str().unwrap().contains('\n'), "{action}");
        }
    }
    page.client.goodbye().await;
}

#[tokio::test]
async fn commands_are_about_the_pattern_that_is_meant() {
    let mut page = Page::open().await;
    let uri = page.uri.clone();
    for which in [json!({ "pattern": "Quay" }), json!({ "position": { "line": 17, "character": 4 } })] {
        let mut argument = which;
        argument["uri"] = json!(uri);
        let params = json!({ "command": "knotwright.words", "arguments": [argument] });
        assert_eq!(page.client.ask("workspace/executeCommand", params).await["title"], "Quay");
    }
    let first = json!({ "command": "knotwright.words", "arguments": [{ "uri": uri }] });
    let id = page.client.begin("workspace/executeCommand", first).await;
    let why = page.client.answer(id).await["error"]["message"].clone();
    assert!(why.as_str().unwrap().starts_with("This does not tie yet. Line 11: "), "{why}");
    // A file next to it is known as ever.
    let band =
        json!({ "command": "knotwright.words", "arguments": [{ "uri": page.stage.uri("band.knot") }] });
    assert_eq!(page.client.ask("workspace/executeCommand", band).await["title"], "Pier", "{BAND}");
    page.client.goodbye().await;
}

#[tokio::test]
async fn words_are_colored_in_every_pattern_and_nowhere_else() {
    let mut page = Page::open().await;
    let all = page.ask("textDocument/semanticTokens/full", json!({})).await;
    let lines: Vec<u64> = unpacked(&all["data"]).iter().map(|token| token.0).collect();
    assert!(lines.is_sorted() && lines.contains(&5) && lines.contains(&15), "{lines:?}");
    assert!(lines.iter().all(|line| (5..12).contains(line) || (15..19).contains(line)), "{lines:?}");
    let uri = page.uri.clone();
    page.client.tell("textDocument/didChange", edited(&uri, 2, (2, 0, 2, 0), "A line more.\n")).await;
    let has = json!({ "previousResultId": all["resultId"] });
    let delta = page.ask("textDocument/semanticTokens/full/delta", has).await;
    assert_eq!(
        delta["edits"],
        json!([{ "start": 0, "deleteCount": 5, "data": [6, 0, 7, 4, 0] }]),
        "all are a line lower"
    );
    let quoted = json!({ "range": { "start": { "line": 16, "character": 0 }, "end": { "line": 18, "character": 0 } } });
    let some = page.ask("textDocument/semanticTokens/range", quoted).await;
    let lines: Vec<u64> = unpacked(&some["data"]).iter().map(|token| token.0).collect();
    assert!(!lines.is_empty() && lines.iter().all(|line| (16..18).contains(line)), "{lines:?}");
    page.client.tell("textDocument/didChange", replaced(&uri, 3, "# Only words\n")).await;
    assert_eq!(page.ask("textDocument/semanticTokens/full", json!({})).await, Value::Null);
    page.client.goodbye().await;
}

#[tokio::test]
async fn every_pattern_is_a_branch_of_the_outline_and_folds() {
    let mut page = Page::open().await;
    let outline = page.ask("textDocument/documentSymbol", json!({})).await;
    let names = |symbols: &Value| -> Vec<String> {
        symbols.as_array().unwrap().iter().map(|symbol| symbol["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(names(&outline), ["Pier", "Quay"]);
    assert_eq!(names(&outline[1]["children"]), ["rope", "set"]);
    assert_eq!(outline[1]["range"]["start"], json!({ "line": 15, "character": 2 }));
    assert_eq!(outline[1]["range"]["end"]["line"], 18);
    let folds = page.ask("textDocument/foldingRange", json!({})).await;
    let starts: Vec<&Value> = folds.as_array().unwrap().iter().map(|fold| &fold["startLine"]).collect();
    assert!(starts.contains(&&json!(9)), "{folds}");
    let at = json!({ "positions": [{ "line": 16, "character": 10 }, { "line": 2, "character": 3 }] });
    let around = page.ask("textDocument/selectionRange", at).await;
    assert_eq!(around[0]["range"]["start"], json!({ "line": 16, "character": 9 }));
    assert_eq!(
        around[1]["range"]["start"],
        json!({ "line": 2, "character": 3 }),
        "nothing of ours stands there"
    );
    page.client.goodbye().await;
}

#[tokio::test]
async fn of_markdown_without_a_pattern_nothing_is_said() {
    let mut client = Client::with(json!({})).await;
    let uri = "untitled:Notes";
    let words = "# Only words\n";
    let document = json!({ "uri": uri, "languageId": "markdown", "version": 1, "text": words });
    client.tell("textDocument/didOpen", json!({ "textDocument": document })).await;
    let slip = "```knot\nlost\n```\n";
    // While this is asked and answered, a word too much would come.
    let symbols = json!({ "textDocument": { "uri": uri } });
    client.ask("textDocument/documentSymbol", symbols.clone()).await;
    client.tell("textDocument/didChange", replaced(uri, 2, &(words.to_owned() + slip))).await;
    let said = client.next("textDocument/publishDiagnostics").await;
    assert_eq!((&said["version"], said["diagnostics"].as_array().unwrap().is_empty()), (&json!(2), false));
    client.tell("textDocument/didChange", replaced(uri, 3, words)).await;
    let said = client.next("textDocument/publishDiagnostics").await;
    assert_eq!((&said["version"], &said["diagnostics"]), (&json!(3), &json!([])), "it is taken back");
    client.tell("textDocument/didChange", replaced(uri, 4, "# Other words\n")).await;
    client.ask("textDocument/documentSymbol", symbols).await;
    client.tell("textDocument/didChange", replaced(uri, 5, &("# Other words\n".to_owned() + slip))).await;
    let said = client.next("textDocument/publishDiagnostics").await;
    assert_eq!(said["version"], 5, "of the version before nothing was said");
    client.goodbye().await;
}

#[tokio::test]
async fn every_pattern_leads_to_the_live_picture() {
    let mut page = Page::open().await;
    let lenses = page.ask("textDocument/codeLens", json!({})).await;
    let quay = lenses.as_array().unwrap().iter().find(|lens| lens["range"]["start"]["line"] == 18).unwrap();
    let command = &quay["command"];
    assert_eq!(command["arguments"][0]["position"], quay["range"]["start"]);
    let mut shown = Vec::new();
    for argument in [command["arguments"][0].clone(), json!({ "uri": page.uri })] {
        let params = json!({ "command": command["command"], "arguments": [argument] });
        shown.push(page.client.ask("workspace/executeCommand", params).await["url"].clone());
    }
    assert!(shown[0].is_string() && shown[0] == shown[1], "a page has one picture: {shown:?}");
    let uri = page.stage.uri("words.md");
    page.client.tell("textDocument/didOpen", opened(&uri, "# Only words\n")).await;
    let params = json!({ "command": "knotwright.preview", "arguments": [{ "uri": uri }] });
    let id = page.client.begin("workspace/executeCommand", params).await;
    assert_eq!(page.client.answer(id).await["error"]["message"], "There is no pattern in this document.");
    page.client.goodbye().await;
}

/// Two patterns that are not well set, one of them after marks, and prose that nobody may touch.
const MESSY: &str = "Odd   spaces\tstay.\n\n```knot\nthread  kelp teal\nset{\ntake left 1:forward 3\n}\n```\n\n\
    > 1. Quay  side\n>\n>    ```knot\n>    thread  rope white\n>\n>\n>\n>    set { \n>    take  left 1: forward 2\n>    }\n>    ```\n";

const TIDY: &str = "Odd   spaces\tstay.\n\n```knot\nthread kelp teal\nset {\n  take left 1: forward 3\n}\n```\n\n\
    > 1. Quay  side\n>\n>    ```knot\n>    thread rope white\n>\n>    set {\n>      take left 1: forward 2\n>    }\n>    ```\n";

#[tokio::test]
async fn patterns_are_formatted_behind_their_marks() {
    for end in ["\n", "\r\n"] {
        let (messy, tidy) = (MESSY.replace('\n', end), TIDY.replace('\n', end));
        let mut page = Page::open().await;
        let uri = page.uri.clone();
        page.client.tell("textDocument/didChange", replaced(&uri, 2, &messy)).await;
        let options = json!({ "options": { "tabSize": 2, "insertSpaces": true } });
        let edits = page.ask("textDocument/formatting", options.clone()).await;
        assert_eq!(applied(&messy, &edits), tidy);
        let mut asked = options.clone();
        asked["range"] =
            json!({ "start": { "line": 3, "character": 0 }, "end": { "line": 4, "character": 0 } });
        let edits = page.ask("textDocument/rangeFormatting", asked).await;
        assert_eq!(applied(&messy, &edits), messy.replacen("thread  kelp", "thread kelp", 1));
        page.client.tell("textDocument/didChange", replaced(&uri, 3, &tidy)).await;
        assert_eq!(page.ask("textDocument/formatting", options).await, json!([]), "twice is once");
        page.client.goodbye().await;
    }
}

#[tokio::test]
async fn whatever_is_edited_in_a_page_it_is_known_as_if_it_had_just_been_opened() {
    let mut page = Page::open().await;
    let (uri, other) = (page.uri.clone(), page.stage.uri("other.md"));
    let quay = "> ```knot\n> pattern \"Quay\"\n> thread rope #d98e4a\n> strands 3 rope\n> set { take left 1: forward 2 }\n> ```\n\n";
    let without = PAGE.replace(quay, "");
    let twice = PAGE.replace(quay, &quay.repeat(2));
    let texts = [
        PAGE.replace("odd spaces", "even\n\nspaces"),
        PAGE.replace("take left 9", "take left 1"),
        twice.replace("forward 3", "forward 9"),
        without.replace("strands 2 kelp 2 foam", "strands 4 kelp"),
        PAGE.to_owned(),
        quay.to_owned() + PAGE,
        PAGE.replace("```knot\npattern", "```text\npattern"),
        "# Nothing\n".to_owned(),
        PAGE.replace("strands 3 rope", "strands 3 line"),
    ];
    for (number, text) in texts.iter().enumerate() {
        page.client.tell("textDocument/didChange", replaced(&uri, number as i32 + 2, text)).await;
        page.client.tell("textDocument/didOpen", opened(&other, text)).await;
        let whole = json!({ "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } } });
        for (method, more) in [
            ("textDocument/diagnostic", json!({})),
            ("textDocument/inlayHint", whole),
            ("textDocument/documentSymbol", json!({})),
        ] {
            let edited = page.ask(method, more.clone()).await;
            page.uri.clone_from(&other);
            let fresh = page.ask(method, more).await;
            page.uri.clone_from(&uri);
            let fresh = fresh.to_string().replace("other.md", "page.md");
            let edited = edited.to_string();
            // The name of a list of findings is made from it, places in the file's own name included.
            let named = |text: &str| text.split("\"resultId\"").next().unwrap().to_owned();
            assert_eq!(named(&edited), named(&fresh), "{method} after edit {number}");
        }
        page.client.tell("textDocument/didClose", json!({ "textDocument": { "uri": other } })).await;
    }
    page.client.goodbye().await;
}

#[tokio::test]
async fn what_a_pattern_uses_is_looked_at_again_when_it_has_changed() {
    let mut page = Page::open().await;
    let fenced = format!("# Pier\n\n```knot\n{BAND}```\n");
    let uri = page.uri.clone();
    page.client.tell("textDocument/didChange", replaced(&uri, 2, &fenced)).await;
    let rules = |found: &Value| found["items"].to_string();
    let before = page.ask("textDocument/diagnostic", json!({})).await;
    assert!(!rules(&before).contains("import"), "{before}");
    let library = page.stage.uri("lib/fans.knot");
    page.client.tell("textDocument/didOpen", opened(&library, "pattern \"Fans\"\n")).await;
    let after = page.ask("textDocument/diagnostic", json!({})).await;
    assert!(rules(&after).contains("import-lacks-motif"), "{after}");
    page.client.tell("textDocument/didClose", json!({ "textDocument": { "uri": library } })).await;
    assert_eq!(page.ask("textDocument/diagnostic", json!({})).await, before);
    page.client.goodbye().await;
}

#[tokio::test]
async fn what_an_editor_calls_markdown_is_read_as_such_whatever_its_name() {
    let mut page = Page::open().await;
    let uri = "untitled:Notes";
    let document = json!({ "uri": uri, "languageId": "markdown", "version": 1, "text": "# Only words\n" });
    page.client.tell("textDocument/didOpen", json!({ "textDocument": document })).await;
    let found = page.client.ask("textDocument/diagnostic", json!({ "textDocument": { "uri": uri } })).await;
    assert_eq!(found["items"], json!([]));
    page.client.goodbye().await;
}

#[tokio::test]
async fn markdown_is_formatted_only_where_that_is_wanted() {
    let stage = Stage::new();
    let dynamic = json!({ "dynamicRegistration": true });
    let can = json!({ "textDocument": {
        "formatting": dynamic, "rangeFormatting": dynamic, "onTypeFormatting": dynamic,
    } });
    let mut client = Client::silent();
    let folder = json!({ "uri": stage.uri(""), "name": "stage" });
    let offered = client.hello(json!({ "capabilities": can, "workspaceFolders": [folder] })).await;
    for provider in ["Formatting", "RangeFormatting", "OnTypeFormatting"] {
        assert_eq!(offered.get(format!("document{provider}Provider")), None, "it is registered instead");
    }
    let languages = |asked: &Value, method: &str| -> Vec<String> {
        let registrations = asked["registrations"].as_array().unwrap();
        let of = registrations.iter().find(|one| one["method"] == method).unwrap();
        let filters = of["registerOptions"]["documentSelector"].as_array().unwrap();
        filters.iter().filter_map(|filter| filter["language"].as_str().map(str::to_owned)).collect()
    };
    let first = client.next("client/registerCapability").await;
    assert_eq!(languages(&first, "textDocument/formatting"), ["knot", "knotwright"]);
    assert_eq!(languages(&first, "textDocument/onTypeFormatting"), ["knot", "knotwright"]);
    let wish = |wanted: bool| json!({ "settings": { "knotwright": { "formatMarkdown": wanted } } });
    client.tell("workspace/didChangeConfiguration", wish(true)).await;
    // Nothing has been taken back while the client does not have the new offer: it is answered in `next`.
    let second = client.next("client/registerCapability").await;
    assert_eq!(languages(&second, "textDocument/formatting"), ["knot", "knotwright", "markdown"]);
    assert_eq!(languages(&second, "textDocument/rangeFormatting"), ["knot", "knotwright", "markdown"]);
    let gone = client.next("client/unregisterCapability").await;
    let ids = |list: &Value| -> Vec<Value> {
        list.as_array().unwrap().iter().map(|one| one["id"].clone()).collect()
    };
    let (gone, offered) = (ids(&gone["unregisterations"]), ids(&second["registrations"]));
    assert!(gone.iter().all(|id| ids(&first["registrations"]).contains(id)), "what was offered before goes");
    assert!(gone.len() == 2 && !gone.iter().any(|id| offered.contains(id)), "{gone:?} and {offered:?}");
    client.goodbye().await;
}

#[tokio::test]
async fn paths_in_a_page_follow_a_file_that_gets_another_name() {
    let stage = Stage::new();
    let page = "# \u{1f600}\n\n> ```knot\n> pattern \"Pier\"\n> use turn from \"lib/fans.knot\"\n> ```\n\n\
                ```knot\nuse turn from \"lib/fans.knot\"\n```\n";
    stage.write("saved.md", page);
    let mut client = stage.client(json!({})).await;
    client.tell("textDocument/didOpen", opened(&stage.uri("open.md"), page)).await;
    let file = json!({ "oldUri": stage.uri("lib/fans.knot"), "newUri": stage.uri("lib/wheels.knot") });
    let edit = client.ask("workspace/willRenameFiles", json!({ "files": [file] })).await;
    for name in ["saved.md", "open.md"] {
        let edits = &edit["changes"][stage.uri(name)];
        let starts: Vec<&Value> =
            edits.as_array().unwrap().iter().map(|edit| &edit["range"]["start"]).collect();
        assert_eq!(starts, [&json!({ "line": 4, "character": 17 }), &json!({ "line": 8, "character": 15 })]);
        assert!(edits.as_array().unwrap().iter().all(|edit| edit["newText"] == "lib/wheels.knot"));
    }
    let file = json!({ "oldUri": stage.uri("saved.md"), "newUri": stage.uri("notes/saved.md") });
    let edit = client.ask("workspace/willRenameFiles", json!({ "files": [file] })).await;
    let edits = edit["changes"][stage.uri("saved.md")].as_array().unwrap().clone();
    assert_eq!(edits.iter().filter(|edit| edit["newText"] == "../lib/fans.knot").count(), 2, "{edits:?}");
    client.goodbye().await;
}

#[tokio::test]
async fn a_pattern_without_a_word_is_reported_at_its_fence() {
    for encoding in ["utf-8", "utf-16", "utf-32"] {
        let can = json!({
            "general": { "positionEncodings": [encoding] }, "textDocument": { "diagnostic": {} },
        });
        let mut client = Client::with(can).await;
        let text = "# \u{1f600}\n\n> ```knot\n>\n> ```\n\nMore.\n";
        client.tell("textDocument/didOpen", opened("untitled:Page.md", text)).await;
        let asked = json!({ "textDocument": { "uri": "untitled:Page.md" } });
        let found = client.ask("textDocument/diagnostic", asked).await;
        let fence = json!({ "start": { "line": 2, "character": 2 }, "end": { "line": 2, "character": 9 } });
        let items = found["items"].as_array().unwrap();
        assert!(!items.is_empty() && items.iter().all(|item| item["range"] == fence), "{encoding}: {found}");
        client.goodbye().await;
    }
}
