//! The outline of a file.

use crate::motifs::signature;
use crate::wording::quoted;
use knotwright_checker::Source;
use knotwright_grammar::tree::{Head, Node, SectionBlock, Statement, Take, Text};
use knotwright_grammar::{Span, to_offset};

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
    /// What is in it.
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
pub fn document_symbols(source: &Source) -> Vec<Symbol> {
    outline(source, &source.parsed.tree.statements)
}

/// The things of a file that can be looked for in a whole workspace: its title, threads, motifs and sections, each with
/// the name of what it is in.
pub fn workspace_symbols(source: &Source) -> Vec<(Symbol, Option<String>)> {
    let mut found = Vec::new();
    let mut open: Vec<(Symbol, Option<String>)> =
        document_symbols(source).into_iter().rev().map(|symbol| (symbol, None)).collect();
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

/// How a name fits what is looked for, the better first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum QueryFit {
    /// The name begins with it.
    Name,
    /// A word of the name begins with it.
    Word,
    /// Its letters are in the name, in that order.
    Letters,
}

/// How `name` fits `query`, whatever their case; `None` if it does not.
pub fn query_fit(query: &str, name: &str) -> Option<QueryFit> {
    let lower = |text: &str| text.chars().flat_map(char::to_lowercase).collect::<String>();
    let (query, name) = (lower(query), lower(name));
    if name.starts_with(&query) {
        return Some(QueryFit::Name);
    }
    let mut words = name.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    if words.any(|word| word.starts_with(&query)) {
        return Some(QueryFit::Word);
    }
    let mut rest = name.chars();
    query.chars().all(|wanted| rest.any(|letter| letter == wanted)).then_some(QueryFit::Letters)
}

/// The outline of some statements.
fn outline(source: &Source, statements: &[Statement]) -> Vec<Symbol> {
    let mut found = Vec::new();
    add_symbols(source, statements, &mut found);
    found
}

/// Adds what is named in some statements. A statement without a name hands on what is in it. Each statement is
/// visited once, however deep it lies: blocks may be 64 deep.
fn add_symbols(source: &Source, statements: &[Statement], found: &mut Vec<Symbol>) {
    for statement in statements {
        #[cfg(test)]
        tests::VISITED.set(tests::VISITED.get() + 1);
        let inner = statement.node.block().map_or(&[][..], |block| &block.statements);
        match named(source, statement) {
            Some(mut symbol) => {
                add_symbols(source, inner, &mut symbol.children);
                found.push(symbol);
            }
            None => add_symbols(source, inner, found),
        }
    }
}

/// A statement that has a name, still without what is in it.
fn named(source: &Source, statement: &Statement) -> Option<Symbol> {
    let symbol = match &statement.node {
        Node::Head(head) => {
            let word = first_word(statement.head.of(&source.text));
            in_head(head, Span { end: statement.span.start + word, ..statement.span })
        }
        Node::Body(_) => in_body(statement),
        Node::EndPiece(_) | Node::Swatch(_) | Node::Broken(_) => None,
    }?;
    Some(Symbol { span: statement.span, ..symbol })
}

/// A symbol whose children and extent are not known yet.
fn symbol(name: impl Into<String>, kind: SymbolKind, name_span: Span) -> Symbol {
    Symbol {
        name: name.into(),
        detail: String::new(),
        kind,
        span: name_span,
        name_span,
        children: Vec::new(),
    }
}

fn titled(title: &Text, kind: SymbolKind) -> Symbol {
    symbol(shown(title), kind, title.span)
}

/// `word`: where the first word stands.
fn in_head(head: &Head, word: Span) -> Option<Symbol> {
    Some(match head {
        Head::Pattern(pattern) => titled(&pattern.title, SymbolKind::Pattern),
        Head::Thread(thread) => {
            let label = thread.label.as_ref().map(|label| format!(" {}", quoted(&label.value)));
            let colors: Vec<&str> = thread.colors().map(|(color, _)| color.value.as_str()).collect();
            let detail = format!("{}{}", colors.join(", "), label.unwrap_or_default());
            Symbol { detail, ..symbol(thread.name.text.as_str(), SymbolKind::Thread, thread.name.span) }
        }
        Head::Bead(bead) => {
            let label = bead.label.as_ref().map(|label| format!(" {}", quoted(&label.value)));
            let detail = format!("{}{}", bead.color.value, label.unwrap_or_default());
            Symbol { detail, ..symbol(bead.name.text.as_str(), SymbolKind::Thread, bead.name.span) }
        }
        Head::Colorway(colorway) => titled(&colorway.name, SymbolKind::Colorway),
        Head::Motif(motif) => {
            let detail = signature(motif);
            Symbol { detail, ..symbol(motif.name.text.as_str(), SymbolKind::Motif, motif.name.span) }
        }
        Head::Begin(_) | Head::Finish(_) | Head::Opening(_) | Head::Set(_) | Head::Closing(_) => {
            symbol(head.word(), SymbolKind::Part, word)
        }
        Head::About(_)
        | Head::Author(_)
        | Head::License(_)
        | Head::Strands(_)
        | Head::Gauge(_)
        | Head::Length(_)
        | Head::Sets(_)
        | Head::Ends(_)
        | Head::Start(_)
        | Head::Use(_) => return None,
    })
}

fn in_body(statement: &Statement) -> Option<Symbol> {
    if let Some(section) = statement.get::<SectionBlock>() {
        return Some(titled(&section.title, SymbolKind::Section));
    }
    let label = statement.get::<Take>()?.label.as_ref()?;
    Some(symbol(label.text.as_str(), SymbolKind::Label, label.span))
}

fn first_word(line: &str) -> u32 {
    to_offset(line.find(|letter: char| letter.is_whitespace() || letter == '{').unwrap_or(line.len()))
}

/// A title as a name; editors refuse an empty one.
fn shown(title: &Text) -> String {
    let clean = quoted(&title.value);
    let text = clean.trim_matches('`').trim();
    if text.is_empty() { "untitled".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    thread_local! {
        /// How many statements were visited.
        pub(super) static VISITED: Cell<usize> = const { Cell::new(0) };
    }

    #[test]
    fn each_statement_is_visited_once_however_deep_it_lies() {
        let deep = 60;
        let text = format!(
            "set {{\n{}take left 1 as last: forward 1\n{}}}\n",
            "both {\n".repeat(deep),
            "}\n".repeat(deep)
        );
        let source = Source::new("deep.knot", text);
        assert!(source.parsed.problems.is_empty(), "{:?}", source.parsed.problems);
        let outline = document_symbols(&source);
        assert_eq!(VISITED.get(), deep + 2);
        assert_eq!(outline[0].children[0].name, "last", "unnamed blocks hand on what lies in them");
        VISITED.set(0);
        let found = workspace_symbols(&source);
        assert_eq!((VISITED.get(), found.len()), (deep + 2, 0));
    }
}
