//! What the server says it can do.

use crate::client::Facts;
use tower_lsp::ls_types::{
    DiagnosticOptions, DiagnosticServerCapabilities, InitializeResult, ServerCapabilities, ServerInfo,
    TextDocumentSyncCapability, TextDocumentSyncKind, TextDocumentSyncOptions, WorkDoneProgressOptions,
};

pub(super) fn hello(facts: &Facts) -> InitializeResult {
    InitializeResult {
        capabilities: capabilities(facts),
        server_info: Some(ServerInfo {
            name: "knotwright".to_owned(),
            version: Some(env!("CARGO_PKG_VERSION").to_owned()),
        }),
        ..InitializeResult::default()
    }
}

fn capabilities(facts: &Facts) -> ServerCapabilities {
    ServerCapabilities {
        position_encoding: Some(facts.encoding.kind()),
        text_document_sync: Some(TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(TextDocumentSyncKind::INCREMENTAL),
            ..TextDocumentSyncOptions::default()
        })),
        diagnostic_provider: facts.pulls.then(|| DiagnosticServerCapabilities::Options(pulled())),
        ..ServerCapabilities::default()
    }
}

fn pulled() -> DiagnosticOptions {
    DiagnosticOptions {
        identifier: Some("knotwright".to_owned()),
        inter_file_dependencies: true,
        workspace_diagnostics: false,
        work_done_progress_options: WorkDoneProgressOptions::default(),
    }
}
