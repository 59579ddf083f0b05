//! Which motif is worked from where.

use super::places::LocationFinder;
use crate::documents::Snapshot;
use knotwright_editor::{self as editor, Call, CallItem};
use tower_lsp::ls_types::{
    CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall, Position, Range, SymbolKind,
};

/// The motif or part at a position.
pub(crate) fn call_hierarchy_item(snapshot: &Snapshot, at: Position) -> Option<CallHierarchyItem> {
    let found = editor::call_item(snapshot.checked(), snapshot.offset(at))?;
    item(&mut LocationFinder::new(&snapshot.setting), found)
}

/// Who works it.
pub(crate) fn incoming_calls(snapshot: &Snapshot, at: Position) -> Vec<CallHierarchyIncomingCall> {
    let offset = snapshot.offset(at);
    let calls = snapshot.with_world(|checked, world| editor::incoming_calls(checked, world, offset));
    let mut places = LocationFinder::new(&snapshot.setting);
    let call = |call: Call| {
        let path = call.item.path.clone();
        let from_ranges = ranges(&mut places, &path, &call);
        Some(CallHierarchyIncomingCall { from: item(&mut places, call.item)?, from_ranges })
    };
    calls.into_iter().filter_map(call).collect()
}

/// What it works.
pub(crate) fn outgoing_calls(snapshot: &Snapshot, at: Position) -> Vec<CallHierarchyOutgoingCall> {
    let calls = editor::outgoing_calls(snapshot.checked(), snapshot.offset(at));
    let mut places = LocationFinder::new(&snapshot.setting);
    let call = |call: Call| {
        let from_ranges = ranges(&mut places, &snapshot.text.path, &call);
        Some(CallHierarchyOutgoingCall { to: item(&mut places, call.item)?, from_ranges })
    };
    calls.into_iter().filter_map(call).collect()
}

fn ranges(places: &mut LocationFinder, path: &str, call: &Call) -> Vec<Range> {
    call.spans.iter().filter_map(|span| Some(places.location(path, *span)?.range)).collect()
}

fn item(places: &mut LocationFinder, found: CallItem) -> Option<CallHierarchyItem> {
    let whole = places.location(&found.path, found.span)?;
    let name = places.location(&found.path, found.name_span)?;
    Some(CallHierarchyItem {
        name: found.name,
        kind: SymbolKind::FUNCTION,
        tags: None,
        detail: Some(found.detail).filter(|detail| !detail.is_empty()),
        uri: whole.uri,
        range: whole.range,
        selection_range: name.range,
        data: None,
    })
}
