//! The outline of a document, and what can be looked for everywhere.

use crate::documents::{Setting, Snapshot};
use knotwright_editor::{self as editor, Symbol, SymbolKind as Kind};
use ropey::Rope;
use tower_lsp::ls_types::{
    DocumentSymbol, DocumentSymbolResponse, Location, OneOf, SymbolInformation, SymbolKind, WorkspaceSymbol,
};

/// More answers than these help nobody.
const MOST: usize = 500;

/// The outline.
pub(crate) fn outline(snapshot: &Snapshot) -> DocumentSymbolResponse {
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

/// What stands in a pattern. Of several on a page each is a branch of its own, by its title.
fn symbols(pattern: &Snapshot) -> Vec<Symbol> {
    let mut symbols = editor::symbols(pattern.source());
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

/// What fits `query` in all files.
pub(crate) fn workspace_symbols(setting: &Setting, query: &str) -> Vec<WorkspaceSymbol> {
    let open = setting.open.values();
    let saved = setting.index.files(&setting.homes).iter().map(|file| &file.text);
    let mut texts: Vec<_> = open.chain(saved.filter(|text| !setting.open.contains_key(&text.path))).collect();
    texts.sort_by(|one, other| one.path.cmp(&other.path));
    let mut found = Vec::new();
    for text in texts {
        let symbols = editor::workspace_symbols(text.source()).into_iter();
        let fitting = symbols.filter(|(symbol, _)| editor::matches(query, &symbol.name));
        found.extend(fitting.take(MOST - found.len()).map(|(symbol, container_name)| WorkspaceSymbol {
            name: symbol.name,
            kind: kind(symbol.kind),
            tags: None,
            container_name,
            location: OneOf::Left(Location {
                uri: text.uri.clone(),
                range: range(setting, &text.rope, symbol.name_span),
            }),
            data: None,
        }));
    }
    found
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
