//! A language server that must say of a text that was edited what it says of the same text opened.

use crate::cases::Change;
use crate::client::{Client, opened};
use crate::model::{Model, said, tell};
use crate::stage::{BAND, LIBRARY, Stage};
use crate::wire::run;
use serde_json::{Value, json};

fn encoding(name: &str) -> &'static str {
    match name {
        "utf-8" => "utf-8",
        "utf-32" => "utf-32",
        _ => "utf-16",
    }
}

fn can(encoding: &str) -> Value {
    json!({
        "general": { "positionEncodings": [encoding] },
        "textDocument": { "diagnostic": { "relatedInformation": true } },
    })
}

/// One document.
pub(crate) fn one(name: &str, page: bool, start: &str, changes: &[Change]) -> Result<(), String> {
    let encoding = encoding(name);
    let ending = if page { ".md" } else { "" };
    let (typed, fresh) = (format!("untitled:Typed{ending}"), format!("untitled:Fresh{ending}"));
    run(async {
        let mut client = Client::with(can(encoding)).await;
        let mut model = Model { text: start.chars().collect(), encoding };
        tell(&mut client, "textDocument/didOpen", opened(&typed, start)).await;
        let mut end = Ok(());
        for (version, change) in (2..).zip(changes) {
            let change = model.change(change.from % (model.text.len() + 1), change.length, &change.text);
            let document = json!({ "uri": typed, "version": version });
            let params = json!({ "textDocument": document, "contentChanges": [change] });
            tell(&mut client, "textDocument/didChange", params).await;
            tell(&mut client, "textDocument/didOpen", opened(&fresh, &model.text())).await;
            let (edited, opened) = (said(&mut client, &typed).await, said(&mut client, &fresh).await);
            let close = json!({ "textDocument": { "uri": fresh } });
            tell(&mut client, "textDocument/didClose", close).await;
            end = same(&edited, &opened).and_then(|()| on_boundaries(&edited, &model));
            if end.is_err() {
                break;
            }
        }
        client.goodbye().await;
        end
    })
}

/// Two files of which one uses the other.
pub(crate) fn pair(name: &str, changes: &[(bool, Change)]) -> Result<(), String> {
    let encoding = encoding(name);
    let stage = Stage::new();
    let names = ["band.knot", "lib/fans.knot"].map(|name| stage.uri(name));
    let model = |text: &str| Model { text: text.chars().collect(), encoding };
    let mut models = [model(BAND), model(LIBRARY)];
    run(async {
        let mut typed = stage.client(can(encoding)).await;
        typed.tell("textDocument/didOpen", opened(&names[1], LIBRARY)).await;
        let mut end = Ok(());
        for (version, (is_used, change)) in (2..).zip(changes) {
            let (name, model) = (&names[usize::from(*is_used)], &mut models[usize::from(*is_used)]);
            let change = model.change(change.from % (model.text.len() + 1), change.length, &change.text);
            let document = json!({ "uri": name, "version": version });
            let params = json!({ "textDocument": document, "contentChanges": [change] });
            tell(&mut typed, "textDocument/didChange", params).await;
            let mut fresh = stage.client(can(encoding)).await;
            for (name, model) in names.iter().zip(&models) {
                let close = json!({ "textDocument": { "uri": name } });
                tell(&mut fresh, "textDocument/didClose", close).await;
                tell(&mut fresh, "textDocument/didOpen", opened(name, &model.text())).await;
            }
            for name in &names {
                let (edited, opened) = (said(&mut typed, name).await, said(&mut fresh, name).await);
                end = end.and(same(&edited, &opened));
            }
            fresh.goodbye().await;
            if end.is_err() {
                break;
            }
        }
        typed.goodbye().await;
        end
    })
}

fn same(edited: &[String], opened: &[String]) -> Result<(), String> {
    match edited.iter().zip(opened).find(|(edited, opened)| edited != opened) {
        Some((edited, opened)) => Err(format!("edited: {edited:.2000}\nopened: {opened:.2000}")),
        None => Ok(()),
    }
}

/// Whether all positions lie between two characters.
fn on_boundaries(said: &[String], model: &Model) -> Result<(), String> {
    for answer in said {
        let (method, answer) = answer.split_once(": ").unwrap_or_default();
        let answer: Value = serde_json::from_str(answer).unwrap_or_default();
        let mut open = vec![&answer];
        while let Some(value) = open.pop() {
            if let (Some(line), Some(column)) = (value["line"].as_u64(), value["character"].as_u64())
                && !is_boundary(model, line, column)
            {
                return Err(format!("{method}: {line}:{column} lies within a character"));
            }
            match value {
                Value::Array(list) => open.extend(list),
                Value::Object(map) => open.extend(map.values()),
                _ => {}
            }
        }
    }
    Ok(())
}

/// Whether a position of the protocol lies between two characters; one behind the end of its line does.
fn is_boundary(model: &Model, line: u64, column: u64) -> bool {
    let is_end = |nth: usize| {
        let is_pair = model.text[nth] == '\r' && model.text.get(nth + 1) == Some(&'\n');
        matches!(model.text[nth], '\r' | '\n') && !is_pair
    };
    let ends = (0..model.text.len()).filter(|nth| is_end(*nth)).map(|nth| nth + 1);
    let mut starts = std::iter::once(0).chain(ends);
    let Some(start) = starts.nth(usize::try_from(line).unwrap_or(usize::MAX)) else { return true };
    let mut at = 0;
    for sign in model.text[start..].iter().take_while(|sign| !matches!(sign, '\r' | '\n')) {
        if at >= column {
            break;
        }
        at += model.width(*sign) as u64;
    }
    at <= column
}
