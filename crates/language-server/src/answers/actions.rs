//! What can be done at the press of a button.

use super::diagnostics::diagnostic;
use super::edits::workspace_edit;
use crate::client::RENAME;
use crate::documents::Snapshot;
use knotwright_editor::{self as editor, Action, ActionKind, FileEdit};
use serde_json::json;
use tower_lsp::ls_types::{CodeAction, CodeActionKind, CodeActionOrCommand, Command, Position, Range};

/// Mends all that can be mended for certain; editors can do it on saving.
pub(crate) const FIX_ALL: CodeActionKind = CodeActionKind::new("source.fixAll.knotwright");

/// What can be done at a range, of the kinds that are asked for; `None` means of all kinds.
pub(crate) fn code_actions(
    snapshot: &Snapshot,
    range: Range,
    only: Option<&[CodeActionKind]>,
) -> Vec<CodeActionOrCommand> {
    if !snapshot.setting.facts.actions {
        return Vec::new();
    }
    let Some(snapshot) = &snapshot.at(range.start) else { return Vec::new() };
    let span = snapshot.span(range);
    let wanted = |kind: &CodeActionKind| only.is_none_or(|only| only.iter().any(|asked| is_of(kind, asked)));
    let here = [CodeActionKind::QUICKFIX, CodeActionKind::REFACTOR_REWRITE, CodeActionKind::REFACTOR_EXTRACT];
    let mut actions = match here.iter().any(wanted) {
        true => snapshot.with_world(|checked, world| editor::code_actions(checked, world, span)),
        false => Vec::new(),
    };
    // It tries every mend in turn: too much for whenever the cursor moves.
    if only.is_some() && wanted(&FIX_ALL) {
        actions.extend(snapshot.with_world(editor::fix_all));
    }
    actions.retain(|action| wanted(&kind(action.kind)) && fits(snapshot, action));
    actions.into_iter().map(|action| CodeActionOrCommand::CodeAction(code_action(snapshot, action))).collect()
}

/// In a quote or a list every line begins with its marks, so only what stays on one line is done there.
fn fits(snapshot: &Snapshot, action: &Action) -> bool {
    let stays = |edit: &FileEdit| {
        let replaced = edit.span.of(&snapshot.source().text);
        !edit.text.contains('\n') && !replaced.contains('\n')
    };
    snapshot.text.is_free() || action.edits.iter().all(stays)
}

/// Whether `kind` is `asked`, or a sort of it.
fn is_of(kind: &CodeActionKind, asked: &CodeActionKind) -> bool {
    let rest = kind.as_str().strip_prefix(asked.as_str());
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.') || asked.as_str().is_empty())
}

fn kind(kind: ActionKind) -> CodeActionKind {
    match kind {
        ActionKind::Fix => CodeActionKind::QUICKFIX,
        ActionKind::FixAll => FIX_ALL,
        ActionKind::Rewrite => CodeActionKind::REFACTOR_REWRITE,
        ActionKind::Extract => CodeActionKind::REFACTOR_EXTRACT,
    }
}

/// Where the client can, it asks for the new name at once.
fn naming(snapshot: &Snapshot, action: &Action) -> Option<Command> {
    let after = action.new_name.filter(|_| snapshot.setting.facts.renames)?;
    let Position { line, character } = snapshot.range(action.edits.first()?.span).start;
    let position = Position { line, character: character + after };
    let arguments = json!({ "uri": snapshot.text.uri, "position": position });
    Some(Command {
        title: "Name it".to_owned(),
        command: RENAME.to_owned(),
        arguments: Some(vec![arguments]),
    })
}

fn code_action(snapshot: &Snapshot, action: Action) -> CodeAction {
    let finding = action.finding.and_then(|number| snapshot.findings_with_mends().get(number));
    CodeAction {
        command: naming(snapshot, &action),
        title: action.title,
        kind: Some(kind(action.kind)),
        diagnostics: finding.map(|finding| vec![diagnostic(snapshot, finding)]),
        edit: Some(workspace_edit(&snapshot.setting, &action.edits)),
        is_preferred: action.preferred.then_some(true),
        ..CodeAction::default()
    }
}
