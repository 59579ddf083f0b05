//! Names: where they are given, where they stand, and how they get others.

use super::edits::workspace_edit;
use super::places::LocationFinder;
use crate::documents::{Setting, Snapshot, path_of};
use knotwright_editor as editor;
use tower_lsp::jsonrpc::{Error, ErrorCode};
use tower_lsp::ls_types::{
    DocumentHighlight, DocumentHighlightKind, DocumentLink, FileRename, LinkedEditingRanges, Location,
    Position, PrepareRenameResponse, WorkspaceEdit,
};

/// Where the name at a position is given.
pub(crate) fn definition(snapshot: &Snapshot, at: Position) -> Option<Location> {
    let target = editor::find_definition(snapshot.checked(), snapshot.offset(at))?;
    LocationFinder::new(&snapshot.setting).location(&target.path, target.span)
}

/// Where it stands; where it is given only if `given` says so.
pub(crate) fn references(snapshot: &Snapshot, at: Position, given: bool) -> Vec<Location> {
    let offset = snapshot.offset(at);
    let found = snapshot.with_world(|checked, world| editor::find_references(checked, world, offset, given));
    LocationFinder::new(&snapshot.setting).locations(&found)
}

/// Where it is in this document.
pub(crate) fn document_highlights(snapshot: &Snapshot, at: Position) -> Vec<DocumentHighlight> {
    let found = editor::document_highlights(snapshot.checked(), snapshot.offset(at));
    let kind = |gives| if gives { DocumentHighlightKind::WRITE } else { DocumentHighlightKind::READ };
    found
        .into_iter()
        .map(|(span, gives)| DocumentHighlight { range: snapshot.range(span), kind: Some(kind(gives)) })
        .collect()
}

/// Where it is to be edited as one.
pub(crate) fn linked_editing_ranges(snapshot: &Snapshot, at: Position) -> Option<LinkedEditingRanges> {
    let spans = snapshot
        .with_world(|checked, world| editor::linked_editing_ranges(checked, world, snapshot.offset(at)));
    let ranges: Vec<_> = spans.into_iter().map(|span| snapshot.range(span)).collect();
    (!ranges.is_empty()).then_some(LinkedEditingRanges { ranges, word_pattern: None })
}

/// The word that would be renamed.
pub(crate) fn prepare_rename(snapshot: &Snapshot, at: Position) -> Result<PrepareRenameResponse, Error> {
    let (span, placeholder) =
        editor::prepare_rename(snapshot.checked(), snapshot.offset(at)).map_err(refused)?;
    Ok(PrepareRenameResponse::RangeWithPlaceholder { range: snapshot.range(span), placeholder })
}

/// The edits that rename what is at a position.
pub(crate) fn rename(snapshot: &Snapshot, at: Position, new: &str) -> Result<WorkspaceEdit, Error> {
    let offset = snapshot.offset(at);
    let edits = snapshot.with_world(|checked, world| editor::rename(checked, world, offset, new));
    Ok(workspace_edit(&snapshot.setting, &edits.map_err(refused)?))
}

/// The edits after which every `use` leads where it led, when files or folders get other names.
pub(crate) fn renamed_files(setting: &Setting, renames: &[FileRename]) -> WorkspaceEdit {
    let path = |uri: &str| uri.parse().ok().map(|uri| path_of(&uri));
    let pairs: Vec<(String, String)> =
        renames.iter().filter_map(|rename| Some((path(&rename.old_uri)?, path(&rename.new_uri)?))).collect();
    let pages = setting.pages();
    let edits = setting.with_world(|world| {
        let all = [world.files, &pages].concat();
        let world = &editor::World { files: &all, ..*world };
        let files =
            world.files.iter().filter_map(|file| Some((file.path.clone(), follow(&pairs, &file.path)?)));
        let files: Vec<(String, String)> = files.collect();
        editor::files_renamed(world, &files)
    });
    workspace_edit(setting, &edits)
}

/// Where a file is after these renames, of itself or of a folder it is in.
fn follow(renames: &[(String, String)], path: &str) -> Option<String> {
    renames.iter().find_map(|(old, new)| match path.strip_prefix(old.as_str())? {
        "" => Some(new.clone()),
        rest => rest.starts_with('/').then(|| format!("{new}{rest}")),
    })
}

/// Links to the files that are used.
pub(crate) fn document_links(snapshot: &Snapshot) -> Vec<DocumentLink> {
    let within = |pattern: &Snapshot| {
        let found = editor::document_links(pattern.checked()).into_iter();
        found.filter_map(|found| link(pattern, found)).collect::<Vec<_>>()
    };
    snapshot.patterns().iter().flat_map(within).collect()
}

fn link(pattern: &Snapshot, link: editor::FileLink) -> Option<DocumentLink> {
    let target = pattern.setting.file(&link.target)?.uri.clone();
    Some(DocumentLink { range: pattern.range(link.span), target: Some(target), tooltip: None, data: None })
}

/// A sentence for people, which editors show.
fn refused(refusal: editor::Refusal) -> Error {
    // RequestFailed: everything was as it should be, and it cannot be done.
    Error { code: ErrorCode::ServerError(-32803), message: refusal.0.into(), data: None }
}

#[cfg(test)]
mod tests {
    use super::follow;

    #[test]
    fn files_follow_their_folder() {
        let renames = [("/a/lib".to_owned(), "/a/motifs".to_owned())];
        assert_eq!(follow(&renames, "/a/lib/fans.knot").as_deref(), Some("/a/motifs/fans.knot"));
        assert_eq!(follow(&renames, "/a/library.knot"), None);
        assert_eq!(follow(&renames, "/a/lib").as_deref(), Some("/a/motifs"));
    }
}
