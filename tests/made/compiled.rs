//! Every query fits the parser, and colors each word of the samples as what it is.

use crate::{read, top};
use knotwright_checker::Source;
use knotwright_editor::{Ink, Inked, semantic_tokens};
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::{Path, PathBuf};
use tree_sitter::{Language, Parser, Query, QueryCursor, StreamingIterator};

#[path = "../grammars/samples.rs"]
mod samples;

fn language() -> Language {
    knotwright_tests::language().into()
}

/// Every `.scm` file in a folder and those within it.
fn queries_in(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten() {
        let path = entry.expect("a folder can be read").path();
        if path.is_dir() {
            queries_in(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "scm") {
            found.push(path);
        }
    }
}

#[test]
fn every_query_fits_the_parser() {
    let mut found = Vec::new();
    queries_in(&top().join("grammar"), &mut found);
    queries_in(&top().join("editors"), &mut found);
    assert!(found.len() > 15, "only {} queries were found", found.len());
    for path in found {
        let query = std::fs::read_to_string(&path).expect("a query is text");
        Query::new(&language(), &query).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    }
}

/// No editor agrees with another on which of two captures of a word wins, so there must be one.
#[test]
fn every_token_is_colored_once_and_as_what_it_is() {
    let query =
        Query::new(&language(), &read("grammar/tree-sitter/queries/highlights.scm")).expect("it fits");
    let mut wrong = Vec::new();
    for sample in samples::samples("corpus/accepted").into_iter().chain(samples::samples("patterns")) {
        let captures = captures(&query, &sample.text);
        for token in semantic_tokens(&Source::new(sample.name.clone(), sample.text.clone())) {
            let names = at(&captures, &token);
            if names.len() != 1 || !fits(token.ink, names[0]) {
                let text = token.span.of(&sample.text);
                wrong.push(format!("{}: {text} is {:?}, but {names:?}", sample.name, token.ink));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// By place in the text, the captures.
fn captures<'q>(query: &'q Query, text: &str) -> BTreeMap<(usize, usize), Vec<&'q str>> {
    let mut parser = Parser::new();
    parser.set_language(&language()).expect("the grammar fits the library");
    let tree = parser.parse(text, None).expect("parsing is not cancelled");
    let mut cursor = QueryCursor::new();
    let mut found = cursor.captures(query, tree.root_node(), text.as_bytes());
    let mut captures: BTreeMap<_, Vec<_>> = BTreeMap::new();
    while let Some((matched, index)) = found.next() {
        let capture = matched.captures[*index];
        let Range { start, end } = capture.node.byte_range();
        captures.entry((start, end)).or_default().push(query.capture_names()[capture.index as usize]);
    }
    captures
}

fn at<'q>(captures: &BTreeMap<(usize, usize), Vec<&'q str>>, token: &Inked) -> Vec<&'q str> {
    let place = (token.span.start as usize, token.span.end as usize);
    captures.get(&place).cloned().unwrap_or_default()
}

fn fits(ink: Ink, capture: &str) -> bool {
    let starts = |names: &[&str]| names.iter().any(|name| capture.starts_with(name));
    match ink {
        Ink::Comment => capture == "comment",
        Ink::Text => starts(&["string", "markup.heading"]),
        Ink::Number => starts(&["number"]),
        Ink::Color => capture == "constant",
        Ink::Statement => starts(&["keyword"]),
        Ink::Detail | Ink::Place => starts(&["keyword"]),
        Ink::Kind | Ink::Mark => capture == "function.builtin",
        Ink::Unit => capture == "type",
        Ink::Motif => starts(&["function"]) && capture != "function.builtin",
        Ink::Thread | Ink::Parameter | Ink::Counter | Ink::Label => starts(&["variable", "label"]),
        Ink::Operator => capture == "operator",
        Ink::Unknown => false,
    }
}
