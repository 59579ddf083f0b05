//! Remarks within the text and above it.

use crate::commands::PREVIEW;
use crate::documents::Snapshot;
use knotwright_editor::{self as editor, Hint, HintKind, Lens};
use serde_json::json;
use tower_lsp::ls_types::{CodeLens, Command, InlayHint, InlayHintLabel, InlayHintTooltip, Range};

/// The remarks within a range.
pub(crate) fn inlay_hints(snapshot: &Snapshot, range: Range) -> Vec<InlayHint> {
    let options = snapshot.setting.facts.options.hints.into();
    let within = |pattern: &Snapshot| {
        let found = editor::inlay_hints(pattern.checked(), pattern.span(range), options).into_iter();
        found.map(|found| hint(pattern, found)).collect::<Vec<_>>()
    };
    snapshot.patterns_in(range).iter().flat_map(within).collect()
}

fn hint(snapshot: &Snapshot, hint: Hint) -> InlayHint {
    InlayHint {
        position: snapshot.position(hint.offset),
        label: InlayHintLabel::String(hint.label),
        // Neither a type nor a parameter, which are all the protocol knows.
        kind: None,
        text_edits: None,
        tooltip: Some(InlayHintTooltip::String(hint.tooltip)),
        padding_left: Some(true),
        padding_right: Some(hint.kind == HintKind::Extent),
        data: None,
    }
}

/// The lines above statements. What counts knots shows the band when it is chosen; what says where a motif is worked
/// does nothing, and names no command.
pub(crate) fn code_lenses(snapshot: &Snapshot) -> Vec<CodeLens> {
    let above = |pattern: &Snapshot| {
        let found = editor::code_lenses(pattern.checked()).into_iter();
        found.map(|found| lens(pattern, found)).collect::<Vec<_>>()
    };
    snapshot.patterns().iter().flat_map(above).collect()
}

fn lens(pattern: &Snapshot, lens: Lens) -> CodeLens {
    let range = pattern.range(lens.span);
    let (title, uri) = (lens.title, &pattern.text.uri);
    let command = if lens.motif.is_some() {
        Command { title, command: String::new(), arguments: None }
    } else {
        let argument = json!({ "uri": uri, "position": range.start, "open": true });
        Command { title, command: PREVIEW.to_owned(), arguments: Some(vec![argument]) }
    };
    CodeLens { range, command: Some(command), data: None }
}
