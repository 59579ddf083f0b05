//! The outline of a document, and what can be looked for everywhere.

use crate::documents::{DocumentText, Setting, Snapshot};
use knotwright_editor::{self as editor, QueryFit, Symbol, SymbolKind as Kind};
use ropey::Rope;
use std::sync::Arc;
use tower_lsp::ls_types::{
    DocumentSymbol, DocumentSymbolResponse, Location, OneOf, SymbolInformation, SymbolKind, WorkspaceSymbol,
};

/// More answers than these help nobody.
const MOST: usize = 500;

/// The outline.
pub(crate) fn document_symbols(snapshot: &Snapshot) -> DocumentSymbolResponse {
    let patterns = snapshot.patterns();
    let symbols =
        patterns.iter().flat_map(|pattern| symbols(pattern).into_iter().map(move |it| (pattern, it)));
    if snapshot.setting.facts.outline {
        let tree = symbols.map(|(pattern, symbol)| nested(pattern, symbol));
        return DocumentSymbolResponse::Nested(tree.collect());
    }
    let mut flat = Vec::new();
    symbols.for_each(|(pattern, symbol)| flatten(pattern, symbol, None, &mut flat));
    DocumentSymbolResponse::Flat(flat)
}

/// What is in a pattern. Of several on a page each is a branch of its own, by its title.
fn symbols(pattern: &Snapshot) -> Vec<Symbol> {
    let mut symbols = editor::document_symbols(pattern.source());
    let title = symbols.iter().position(|symbol| symbol.kind == Kind::Pattern);
    let Some(title) = title.filter(|_| pattern.text.is_fenced()) else { return symbols };
    let mut root = symbols.remove(title);
    root.span = symbols.iter().fold(root.span, |span, symbol| span.to(symbol.span));
    root.children.append(&mut symbols);
    vec![root]
}

#[allow(deprecated, reason = "the type has a deprecated field that must be given")]
fn nested(snapshot: &Snapshot, symbol: Symbol) -> DocumentSymbol {
    let children: Vec<_> = symbol.children.into_iter().map(|child| nested(snapshot, child)).collect();
    DocumentSymbol {
        name: symbol.name,
        detail: Some(symbol.detail).filter(|detail| !detail.is_empty()),
        kind: kind(symbol.kind),
        tags: None,
        deprecated: None,
        range: snapshot.range(symbol.span),
        selection_range: snapshot.range(symbol.name_span),
        children: Some(children).filter(|children| !children.is_empty()),
    }
}

#[allow(deprecated, reason = "the type has a deprecated field that must be given")]
fn flatten(snapshot: &Snapshot, symbol: Symbol, within: Option<&str>, flat: &mut Vec<SymbolInformation>) {
    let location = Location { uri: snapshot.text.uri.clone(), range: snapshot.range(symbol.name_span) };
    flat.push(SymbolInformation {
        name: symbol.name.clone(),
        kind: kind(symbol.kind),
        tags: None,
        deprecated: None,
        location,
        container_name: within.map(str::to_owned),
    });
    symbol.children.into_iter().for_each(|child| flatten(snapshot, child, Some(&symbol.name), flat));
}

/// What fits `query` in all files: first names that begin with it, then those with a word that does.
pub(crate) fn workspace_symbols(setting: &Setting, query: &str) -> Vec<WorkspaceSymbol> {
    let open = setting.open.values();
    let saved = setting.index.files(&setting.homes).iter().map(|file| &file.version);
    let saved = saved.filter(|version| !setting.open.contains_key(&version.text.path));
    let mut versions: Vec<_> = open.chain(saved).collect();
    versions.sort_by(|one, other| one.text.path.cmp(&other.text.path));
    let mut found = Vec::new();
    for version in versions {
        let symbols = editor::workspace_symbols(version.source()).into_iter();
        found.extend(symbols.filter_map(|(symbol, within)| {
            Some((editor::query_fit(query, &symbol.name)?, &version.text, symbol, within))
        }));
    }
    found.sort_by_key(|(fit, ..)| *fit);
    let symbol =
        |(_, text, symbol, container_name): (QueryFit, &Arc<DocumentText>, Symbol, Option<String>)| {
            let range = range(setting, &text.rope, symbol.name_span);
            WorkspaceSymbol {
                name: symbol.name,
                kind: kind(symbol.kind),
                tags: None,
                container_name,
                location: OneOf::Left(Location { uri: text.uri.clone(), range }),
                data: None,
            }
        };
    found.into_iter().take(MOST).map(symbol).collect()
}

fn range(setting: &Setting, rope: &Rope, span: knotwright_grammar::Span) -> tower_lsp::ls_types::Range {
    setting.facts.encoding.range(rope, span)
}

/// The nearest things that the protocol knows.
fn kind(kind: Kind) -> SymbolKind {
    match kind {
        Kind::Pattern => SymbolKind::FILE,
        Kind::Thread => SymbolKind::VARIABLE,
        Kind::Colorway => SymbolKind::ENUM,
        Kind::Motif => SymbolKind::FUNCTION,
        Kind::Part => SymbolKind::MODULE,
        Kind::Section => SymbolKind::NAMESPACE,
        Kind::Label => SymbolKind::KEY,
    }
}
