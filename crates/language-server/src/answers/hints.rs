//! Remarks within the text and above it.

use crate::documents::Snapshot;
use knotwright_editor::{self as editor, Hint, HintKind};
use tower_lsp::ls_types::{CodeLens, Command, InlayHint, InlayHintLabel, InlayHintTooltip, Range};

/// The remarks within a range.
pub(crate) fn hints(snapshot: &Snapshot, range: Range) -> Vec<InlayHint> {
    let options = snapshot.setting.facts.options.hints.into();
    let within = |pattern: &Snapshot| {
        let found = editor::hints(pattern.checked(), pattern.span_within(range), options).into_iter();
        found.map(|found| hint(pattern, found)).collect::<Vec<_>>()
    };
    snapshot.patterns().iter().flat_map(within).collect()
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

/// The lines above statements. They tell something and do nothing, so they name no command.
pub(crate) fn lenses(snapshot: &Snapshot) -> Vec<CodeLens> {
    let found = editor::lenses(snapshot.checked()).into_iter();
    found
        .map(|lens| CodeLens {
            range: snapshot.range(lens.span),
            command: Some(Command { title: lens.title, command: String::new(), arguments: None }),
            data: None,
        })
        .collect()
}
