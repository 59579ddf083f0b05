//! A text as an editor has it, its edits as the protocol says them, and what a server says of it.

use crate::client::Client;
use serde_json::{Value, json};

/// Stands for half of a surrogate pair, which JSON can spell and no text can hold.
const HALF: char = '\u{e000}';

/// The text as the editor has it.
pub(crate) struct Model {
    pub(crate) text: Vec<char>,
    pub(crate) encoding: &'static str,
}

impl Model {
    /// Does a change, and says it as the protocol does.
    pub(crate) fn change(&mut self, from: usize, length: usize, text: &str) -> Value {
        let from = self.clear_of_a_line_break(from);
        let to = self.clear_of_a_line_break((from + length).min(self.text.len())).max(from);
        let range = json!({ "start": self.position(from), "end": self.position(to) });
        self.text.splice(from..to, text.chars());
        json!({ "range": range, "text": text })
    }

    /// The text.
    pub(crate) fn text(&self) -> String {
        self.text.iter().collect()
    }

    /// No editor has its cursor between the two characters of one line break.
    fn clear_of_a_line_break(&self, at: usize) -> usize {
        let is_within = at > 0 && self.text[at - 1] == '\r' && self.text.get(at) == Some(&'\n');
        at - usize::from(is_within)
    }

    fn position(&self, at: usize) -> Value {
        let (mut line, mut start) = (0, 0);
        for nth in 0..at {
            let is_pair = self.text[nth] == '\r' && self.text.get(nth + 1) == Some(&'\n');
            if matches!(self.text[nth], '\r' | '\n') && !is_pair {
                (line, start) = (line + 1, nth + 1);
            }
        }
        let column: usize = self.text[start..at].iter().map(|sign| self.width(*sign)).sum();
        json!({ "line": line, "character": column })
    }

    /// How many units a character is long.
    pub(crate) fn width(&self, sign: char) -> usize {
        match self.encoding {
            // Half a pair is read as U+FFFD, which is as long as what stands for it here.
            "utf-8" => sign.len_utf8(),
            "utf-16" => sign.len_utf16(),
            _ => 1,
        }
    }
}

pub(crate) async fn tell(client: &mut Client, method: &str, params: Value) {
    let message = json!({ "jsonrpc": "2.0", "method": method, "params": params }).to_string();
    client.send_text(&message.replace(HALF, "\\ud83d")).await;
}

/// All that the server says of a document which shows how it has read it.
pub(crate) async fn said(client: &mut Client, uri: &str) -> Vec<String> {
    let mut said = Vec::new();
    for method in
        ["diagnostic", "semanticTokens/full", "documentSymbol", "foldingRange", "inlayHint", "formatting"]
    {
        let params = json!({
            "textDocument": { "uri": uri },
            "range": { "start": { "line": 0, "character": 0 }, "end": { "line": 999, "character": 0 } },
            "options": { "tabSize": 2, "insertSpaces": true },
        });
        let mut answer = client.ask(&format!("textDocument/{method}"), params).await;
        if let Some(answer) = answer.as_object_mut() {
            answer.remove("resultId");
        }
        said.push(format!("{method}: {answer}").replace(uri, ""));
    }
    said
}
