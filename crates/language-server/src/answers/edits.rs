//! Edits in files.

use super::places::LocationFinder;
use crate::documents::Setting;
use knotwright_editor::FileEdit;
use std::collections::{BTreeMap, HashMap};
use tower_lsp::ls_types::{
    DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier, TextDocumentEdit, TextEdit, Uri,
    WorkspaceEdit,
};

/// The edits of one file, and of which version it is, if it is open.
type EditedFile = (Option<i32>, Vec<TextEdit>);

/// Edits as the client wants them: with versions, if it minds them.
pub(crate) fn workspace_edit(setting: &Setting, edits: &[FileEdit]) -> WorkspaceEdit {
    let mut places = LocationFinder::new(setting);
    let mut by_file: BTreeMap<Uri, EditedFile> = BTreeMap::new();
    for edit in edits {
        if let Some((uri, version, range)) = places.range(&edit.path, edit.span) {
            let (_, edits) = by_file.entry(uri).or_insert_with(|| (version, Vec::new()));
            edits.push(TextEdit { range, new_text: edit.text.clone() });
        }
    }
    if setting.facts.versions { versioned(by_file) } else { plain(by_file) }
}

fn plain(by_file: BTreeMap<Uri, EditedFile>) -> WorkspaceEdit {
    let changes: HashMap<Uri, Vec<TextEdit>> =
        by_file.into_iter().map(|(uri, (_, edits))| (uri, edits)).collect();
    WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }
}

fn versioned(by_file: BTreeMap<Uri, EditedFile>) -> WorkspaceEdit {
    let changes = by_file.into_iter().map(|(uri, (version, edits))| TextDocumentEdit {
        text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
        edits: edits.into_iter().map(OneOf::Left).collect(),
    });
    let document_changes = Some(DocumentChanges::Edits(changes.collect()));
    WorkspaceEdit { document_changes, ..WorkspaceEdit::default() }
}
