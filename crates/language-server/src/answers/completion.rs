//! What may be written at the cursor.

use crate::documents::Snapshot;
use crate::encoding::unsigned;
use knotwright_editor::{self as editor, Completion, CompletionKind};
use knotwright_numbers::ToNumber;
use tower_lsp::ls_types::{
    CompletionItem, CompletionItemKind, CompletionTextEdit, Documentation, InsertTextFormat,
    ParameterInformation, ParameterLabel, Position, SignatureHelp, SignatureInformation, TextEdit,
};

/// Proposals, the likeliest first; their order is sent along, because editors would sort them by their letters.
pub(crate) fn completion(snapshot: &Snapshot, at: Position) -> Vec<CompletionItem> {
    let offset = snapshot.offset(at);
    let found = snapshot.with_world(|checked, world| editor::completion(checked, world, offset));
    found.into_iter().enumerate().map(|(rank, proposal)| item(snapshot, rank, proposal)).collect()
}

fn item(snapshot: &Snapshot, rank: usize, proposal: Completion) -> CompletionItem {
    // Neovim 0.11 takes only the first word of plain text, but all of a snippet.
    let several = || proposal.insert.contains(' ').then(|| escaped(&proposal.insert));
    let snippet = proposal.snippet.clone().or_else(several).filter(|_| snapshot.setting.facts.snippets);
    let format = snippet.is_some().then_some(InsertTextFormat::SNIPPET);
    let edit =
        TextEdit { range: snapshot.range(proposal.span), new_text: snippet.unwrap_or(proposal.insert) };
    let said = |text: String| (!text.is_empty()).then_some(text);
    CompletionItem {
        label: proposal.label,
        kind: Some(kind(proposal.kind)),
        detail: said(proposal.detail),
        documentation: said(proposal.documentation).map(Documentation::String),
        sort_text: Some(format!("{rank:05}")),
        insert_text_format: format,
        text_edit: Some(CompletionTextEdit::Edit(edit)),
        ..CompletionItem::default()
    }
}

/// Plain text as a snippet that has no places to fill in.
fn escaped(text: &str) -> String {
    text.replace('\\', r"\\").replace('$', r"\$").replace('}', r"\}")
}

/// The nearest things that the protocol knows.
fn kind(kind: CompletionKind) -> CompletionItemKind {
    match kind {
        CompletionKind::Statement => CompletionItemKind::KEYWORD,
        CompletionKind::Word => CompletionItemKind::OPERATOR,
        CompletionKind::Place => CompletionItemKind::REFERENCE,
        CompletionKind::Number => CompletionItemKind::VALUE,
        CompletionKind::Thread | CompletionKind::Variable => CompletionItemKind::VARIABLE,
        CompletionKind::Motif => CompletionItemKind::FUNCTION,
        CompletionKind::Label => CompletionItemKind::PROPERTY,
        CompletionKind::Color => CompletionItemKind::COLOR,
        CompletionKind::Unit => CompletionItemKind::UNIT,
        CompletionKind::List => CompletionItemKind::STRUCT,
        CompletionKind::Text => CompletionItemKind::TEXT,
        CompletionKind::File => CompletionItemKind::FILE,
    }
}

/// The form of the statement around the cursor, and which part of it is due.
pub(crate) fn signature_help(snapshot: &Snapshot, at: Position) -> Option<SignatureHelp> {
    let found = editor::signature_help(snapshot.checked(), snapshot.offset(at))?;
    // Offsets into a label count in UTF-16, whatever was agreed on; as text they need no counting.
    let part = |&(start, end): &(u32, u32)| {
        let text = found.label.get(start.to_usize()..end.to_usize()).unwrap_or_default();
        ParameterInformation { label: ParameterLabel::Simple(text.to_owned()), documentation: None }
    };
    let active = found.active.map(unsigned);
    let signature = SignatureInformation {
        parameters: Some(found.parts.iter().map(part).collect()),
        documentation: (!found.documentation.is_empty())
            .then_some(Documentation::String(found.documentation)),
        label: found.label,
        active_parameter: active,
    };
    Some(SignatureHelp { signatures: vec![signature], active_signature: Some(0), active_parameter: active })
}
