//! The outline of a file.

use crate::motifs::signature;
use crate::wording::quoted;
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Node, Statement, Text};

/// One thing in the outline of a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Symbol {
    /// What it is called.
    pub name: String,
    /// More about it, in a few words.
    pub detail: String,
    /// What it is.
    pub kind: SymbolKind,
    /// All of it.
    pub span: Span,
    /// Where its name stands.
    pub name_span: Span,
    /// What lies in it.
    pub children: Vec<Symbol>,
}

/// What a thing in the outline is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SymbolKind {
    /// The pattern itself.
    Pattern,
    /// A thread.
    Thread,
    /// A colorway.
    Colorway,
    /// A motif.
    Motif,
    /// Opening, set or closing.
    Part,
    /// A section.
    Section,
    /// A label of a strand.
    Label,
}

/// The outline of a file.
pub fn symbols(source: &Source) -> Vec<Symbol> {
    outline(source, &source.parsed.tree.statements)
}

/// The things of a file that can be looked for in a whole workspace: its title, threads, motifs and sections, each with
/// the name of what it stands in.
pub fn workspace_symbols(source: &Source) -> Vec<(Symbol, Option<String>)> {
    let mut found = Vec::new();
    let mut open: Vec<(Symbol, Option<String>)> =
        symbols(source).into_iter().rev().map(|symbol| (symbol, None)).collect();
    while let Some((mut symbol, container)) = open.pop() {
        let children = std::mem::take(&mut symbol.children);
        let name = symbol.name.clone();
        open.extend(children.into_iter().rev().map(|child| (child, Some(name.clone()))));
        if !matches!(symbol.kind, SymbolKind::Label | SymbolKind::Part) {
            found.push((symbol, container));
        }
    }
    found
}

/// Whether the letters of `query` stand in `name` in that order, whatever their case.
pub fn matches(query: &str, name: &str) -> bool {
    let mut rest = name.chars().flat_map(char::to_lowercase);
    query.chars().flat_map(char::to_lowercase).all(|wanted| rest.any(|letter| letter == wanted))
}

/// Statements without a name hand on what lies in them.
fn outline(source: &Source, statements: &[Statement]) -> Vec<Symbol> {
    let mut found = Vec::new();
    for statement in statements {
        match named(source, statement) {
            Some(symbol) => found.push(symbol),
            None => found.extend(inner(source, statement.node.block())),
        }
    }
    found
}

fn inner(source: &Source, block: Option<&Block>) -> Vec<Symbol> {
    block.map(|block| outline(source, &block.statements)).unwrap_or_default()
}

fn named(source: &Source, statement: &Statement) -> Option<Symbol> {
    let children = inner(source, statement.node.block());
    let first =
        Span { end: statement.span.start + first_word(statement.head.of(&source.text)), ..statement.span };
    let part = |word: &str| (word.to_owned(), String::new(), SymbolKind::Part, first);
    let (name, detail, kind, name_span) = match &statement.node {
        Node::Pattern { title, .. } => (shown(title), String::new(), SymbolKind::Pattern, title.span),
        Node::Thread(thread) => {
            let label =
                thread.label.as_ref().map(|label| format!(" {}", quoted(&label.value))).unwrap_or_default();
            let detail = format!("{}{label}", thread.color.value);
            (thread.name.text.to_string(), detail, SymbolKind::Thread, thread.name.span)
        }
        Node::Colorway { name, .. } => (shown(name), String::new(), SymbolKind::Colorway, name.span),
        Node::Motif(motif) => {
            (motif.name.text.to_string(), signature(motif), SymbolKind::Motif, motif.name.span)
        }
        Node::Opening(_) => part("opening"),
        Node::Set(_) => part("set"),
        Node::Closing(_) => part("closing"),
        Node::Section { title, .. } => (shown(title), String::new(), SymbolKind::Section, title.span),
        Node::Take(take) => {
            let label = take.label.as_ref()?;
            (label.text.to_string(), String::new(), SymbolKind::Label, label.span)
        }
        _ => return None,
    };
    Some(Symbol { name, detail, kind, span: statement.span, name_span, children })
}

fn first_word(line: &str) -> u32 {
    line.find(|letter: char| letter.is_whitespace() || letter == '{').unwrap_or(line.len()) as u32
}

/// A title as a name; editors refuse an empty one.
fn shown(title: &Text) -> String {
    let clean = quoted(&title.value);
    let text = clean.trim_matches('`').trim();
    if text.is_empty() { "untitled".to_owned() } else { text.to_owned() }
}
