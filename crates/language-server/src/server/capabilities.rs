//! What the server says it can do.

use crate::answers::{FIX_ALL, legend};
use crate::client::ClientFeatures;
use crate::commands::NAMES;
use tower_lsp::ls_types::*;

pub(super) fn initialize_result(facts: &ClientFeatures) -> InitializeResult {
    InitializeResult {
        capabilities: capabilities(facts),
        server_info: Some(ServerInfo {
            name: "knotwright".to_owned(),
            version: Some(env!("CARGO_PKG_VERSION").to_owned()),
        }),
        ..InitializeResult::default()
    }
}

fn capabilities(facts: &ClientFeatures) -> ServerCapabilities {
    ServerCapabilities {
        position_encoding: Some(facts.encoding.kind()),
        text_document_sync: Some(sync()),
        diagnostic_provider: facts.pulls.then(|| DiagnosticServerCapabilities::Options(pulled())),
        hover_provider: Some(true.into()),
        completion_provider: Some(completed()),
        signature_help_provider: Some(signed()),
        code_action_provider: facts.actions.then(|| CodeActionProviderCapability::Options(acted())),
        definition_provider: Some(OneOf::Left(true)),
        references_provider: Some(OneOf::Left(true)),
        document_highlight_provider: Some(OneOf::Left(true)),
        document_symbol_provider: Some(OneOf::Left(true)),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        folding_range_provider: Some(true.into()),
        selection_range_provider: Some(true.into()),
        semantic_tokens_provider: Some(tokens().into()),
        inlay_hint_provider: Some(OneOf::Left(true)),
        code_lens_provider: Some(CodeLensOptions { resolve_provider: Some(false) }),
        color_provider: Some(true.into()),
        document_link_provider: Some(links()),
        document_formatting_provider: (!facts.registers.formatting).then_some(OneOf::Left(true)),
        document_range_formatting_provider: (!facts.registers.formatting_ranges).then_some(OneOf::Left(true)),
        document_on_type_formatting_provider: (!facts.registers.formatting_typed).then(typed),
        rename_provider: Some(OneOf::Right(renamed())),
        linked_editing_range_provider: Some(LinkedEditingRangeServerCapabilities::Simple(true)),
        call_hierarchy_provider: Some(true.into()),
        execute_command_provider: Some(commands()),
        workspace: Some(workspace()),
        ..ServerCapabilities::default()
    }
}

fn sync() -> TextDocumentSyncCapability {
    TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(TextDocumentSyncKind::INCREMENTAL),
        ..TextDocumentSyncOptions::default()
    })
}

fn pulled() -> DiagnosticOptions {
    DiagnosticOptions {
        identifier: Some("knotwright".to_owned()),
        inter_file_dependencies: true,
        workspace_diagnostics: true,
        work_done_progress_options: WorkDoneProgressOptions::default(),
    }
}

/// Words are proposed as they are begun; what follows a word, when the space after it is typed.
fn completed() -> CompletionOptions {
    let triggers = [" ", "(", ":", ",", "\"", "/", "#"];
    CompletionOptions {
        trigger_characters: Some(triggers.map(str::to_owned).to_vec()),
        ..CompletionOptions::default()
    }
}

fn signed() -> SignatureHelpOptions {
    let triggers = [" ", "(", ":"];
    SignatureHelpOptions {
        trigger_characters: Some(triggers.map(str::to_owned).to_vec()),
        retrigger_characters: Some(vec![",".to_owned(), ")".to_owned()]),
        ..SignatureHelpOptions::default()
    }
}

fn acted() -> CodeActionOptions {
    let kinds = [
        CodeActionKind::QUICKFIX,
        CodeActionKind::REFACTOR_REWRITE,
        CodeActionKind::REFACTOR_EXTRACT,
        FIX_ALL,
    ];
    CodeActionOptions {
        code_action_kinds: Some(kinds.to_vec()),
        work_done_progress_options: WorkDoneProgressOptions { work_done_progress: Some(true) },
        ..CodeActionOptions::default()
    }
}

fn tokens() -> SemanticTokensOptions {
    SemanticTokensOptions {
        legend: legend(),
        range: Some(true),
        full: Some(SemanticTokensFullOptions::Delta { delta: Some(true) }),
        ..SemanticTokensOptions::default()
    }
}

fn links() -> DocumentLinkOptions {
    let work_done_progress_options = WorkDoneProgressOptions::default();
    DocumentLinkOptions { resolve_provider: Some(false), work_done_progress_options }
}

pub(super) fn typed() -> DocumentOnTypeFormattingOptions {
    DocumentOnTypeFormattingOptions {
        first_trigger_character: "\n".to_owned(),
        more_trigger_character: Some(vec!["}".to_owned()]),
    }
}

fn renamed() -> RenameOptions {
    let work_done_progress_options = WorkDoneProgressOptions::default();
    RenameOptions { prepare_provider: Some(true), work_done_progress_options }
}

fn commands() -> ExecuteCommandOptions {
    ExecuteCommandOptions { commands: NAMES.map(str::to_owned).to_vec(), ..ExecuteCommandOptions::default() }
}

/// Several folders, and files that get other names.
fn workspace() -> WorkspaceServerCapabilities {
    let filter = |glob: &str, matches| FileOperationFilter {
        scheme: Some("file".to_owned()),
        pattern: FileOperationPattern { glob: glob.to_owned(), matches: Some(matches), options: None },
    };
    let files = filter("**/*.{knot,md}", FileOperationPatternKind::File);
    let folders = filter("**", FileOperationPatternKind::Folder);
    WorkspaceServerCapabilities {
        workspace_folders: Some(WorkspaceFoldersServerCapabilities {
            supported: Some(true),
            change_notifications: Some(OneOf::Left(true)),
        }),
        file_operations: Some(WorkspaceFileOperationsServerCapabilities {
            will_rename: Some(FileOperationRegistrationOptions { filters: vec![files, folders] }),
            ..WorkspaceFileOperationsServerCapabilities::default()
        }),
    }
}
