//! What the server offers a client after the hello, and which news it asks for.

use super::Server;
use super::capabilities::typed;
use crate::client::ClientFeatures;
use knotwright_workspace::SETTINGS_FILE;
use serde_json::{Value, json};
use std::sync::Arc;
use tower_lsp::ls_types::{Registration, Unregistration};

impl Server {
    /// Asks for news of files.
    pub(super) fn register_file_watchers(&self) {
        let watchers = json!({ "watchers": [
            { "globPattern": "**/*.knot" },
            { "globPattern": "**/*.md" },
            { "globPattern": format!("**/{SETTINGS_FILE}") },
        ] });
        let registration = registration("workspace/didChangeWatchedFiles", watchers);
        let client = self.client().clone();
        tokio::spawn(async move { client.register_capability(vec![registration]).await });
    }

    /// Offers to format patterns. Markdown is somebody else's to format, so the patterns in it are only if that is wanted.
    pub(super) fn register_formatting(&self) {
        let facts = Arc::clone(&self.state().facts);
        let mut registrations = formatting(&facts, 0);
        registrations.extend(formatting_typed(&facts));
        if registrations.is_empty() {
            return;
        }
        let client = self.client().clone();
        tokio::spawn(async move { client.register_capability(registrations).await });
    }

    /// Offers what is wanted now, then takes back what was offered before: in between an editor has both, and asks one of
    /// them, so that it can format all the while. Each offer has ids of its own; two changes in quick succession may
    /// reach the client in any order, and leave the last.
    pub(super) fn register_formatting_again(&self) {
        let (registrations, gone) = {
            let mut state = self.state();
            let before = state.formatting_offers;
            state.formatting_offers += 1;
            (formatting(&state.facts, before + 1), formatting(&state.facts, before))
        };
        if registrations.is_empty() {
            return;
        }
        let gone = gone.into_iter().map(|old| Unregistration { id: old.id, method: old.method }).collect();
        let client = self.client().clone();
        tokio::spawn(async move {
            // Where the new offer is refused, the old one stays.
            if client.register_capability(registrations).await.is_ok() {
                let _ = client.unregister_capability(gone).await;
            }
        });
    }
}

/// What a client may ask to format: a file, or lines of it.
fn formatting(facts: &ClientFeatures, offer: u64) -> Vec<Registration> {
    let can = facts.registers;
    let chosen = json!({ "documentSelector": selector(facts.options.format_markdown) });
    let all = [
        (can.formatting, "textDocument/formatting"),
        (can.formatting_ranges, "textDocument/rangeFormatting"),
    ];
    let able = all.into_iter().filter(|(can, _)| *can);
    able.map(|(_, method)| Registration {
        id: format!("{method} {offer}"),
        ..registration(method, chosen.clone())
    })
    .collect()
}

/// A line that is finished in Markdown is hardly ever one of a pattern.
fn formatting_typed(facts: &ClientFeatures) -> Option<Registration> {
    let mut typed = json!(typed());
    typed["documentSelector"] = selector(false);
    facts.registers.formatting_typed.then(|| registration("textDocument/onTypeFormatting", typed))
}

/// Patterns, whatever an editor calls them, and Markdown if wanted.
fn selector(with_pages: bool) -> Value {
    let mut filters = vec![
        json!({ "language": "knot" }),
        json!({ "language": "knotwright" }),
        json!({ "scheme": "file", "pattern": "**/*.knot" }),
    ];
    if with_pages {
        filters.push(json!({ "language": "markdown" }));
    }
    Value::Array(filters)
}

/// A method that is registered once is the id of its registration.
fn registration(method: &str, options: Value) -> Registration {
    Registration { id: method.to_owned(), method: method.to_owned(), register_options: Some(options) }
}
