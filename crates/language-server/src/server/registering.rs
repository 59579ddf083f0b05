//! What the client is told after the hello that it may ask for, and tell us of.

use super::Server;
use super::capabilities::typed;
use crate::client::Facts;
use knotwright_workspace::SETTINGS_FILE;
use serde_json::{Value, json};
use std::sync::Arc;
use tower_lsp::ls_types::{Registration, Unregistration};

impl Server {
    /// Asks to be told of files.
    pub(super) fn ask_to_watch(&self) {
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
    pub(super) fn offer_formatting(&self) {
        let registrations = formatting(&self.state().facts);
        if registrations.is_empty() {
            return;
        }
        let client = self.client().clone();
        tokio::spawn(async move { client.register_capability(registrations).await });
    }

    /// Takes back what was offered, and offers what is wanted now.
    pub(super) fn offer_formatting_anew(&self) {
        let facts = Arc::clone(&self.state().facts);
        let registrations = formatting(&facts);
        if registrations.is_empty() {
            return;
        }
        let gone = |of: &Registration| Unregistration { id: of.id.clone(), method: of.method.clone() };
        let gone = registrations.iter().map(gone).collect();
        let client = self.client().clone();
        tokio::spawn(async move {
            // A client that does not take it back has it twice, and asks once.
            let _ = client.unregister_capability(gone).await;
            client.register_capability(registrations).await
        });
    }
}

fn formatting(facts: &Facts) -> Vec<Registration> {
    let can = facts.registers;
    let with_pages = facts.options.format_markdown;
    let chosen = json!({ "documentSelector": selector(with_pages) });
    let mut typed = json!(typed());
    // A line that is finished in Markdown is hardly ever one of a pattern.
    typed["documentSelector"] = selector(false);
    let all = [
        (can.formatting, "textDocument/formatting", chosen.clone()),
        (can.formatting_ranges, "textDocument/rangeFormatting", chosen),
        (can.formatting_typed, "textDocument/onTypeFormatting", typed),
    ];
    let able = all.into_iter().filter(|(can, ..)| *can);
    able.map(|(_, method, options)| registration(method, options)).collect()
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

/// Each method is registered once at most, so its name is that of its registration.
fn registration(method: &str, options: Value) -> Registration {
    Registration { id: method.to_owned(), method: method.to_owned(), register_options: Some(options) }
}
