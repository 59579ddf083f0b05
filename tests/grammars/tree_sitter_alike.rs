//! tree-sitter accepts a text exactly if the parser does.

use crate::disturb::disturbed;
use crate::samples::samples;
use tree_sitter::Parser;

fn parser() -> Parser {
    let mut parser = Parser::new();
    parser.set_language(&knotwright_tests::language().into()).expect("the grammar fits the library");
    parser
}

fn tree_sitter_accepts(parser: &mut Parser, text: &str) -> bool {
    let tree = parser.parse(text, None).expect("parsing is not cancelled");
    !tree.root_node().has_error()
}

fn we_accept(text: &str) -> bool {
    knotwright_grammar::parse(text).problems.is_empty()
}

#[test]
fn accepted_samples_and_patterns_are_accepted() {
    let mut parser = parser();
    for sample in samples("corpus/accepted").into_iter().chain(samples("patterns")) {
        assert!(we_accept(&sample.text), "{} is refused by the parser", sample.name);
        assert!(tree_sitter_accepts(&mut parser, &sample.text), "{} is refused by tree-sitter", sample.name);
    }
}

#[test]
fn refused_samples_are_refused() {
    let mut parser = parser();
    for sample in samples("corpus/refused") {
        assert!(!we_accept(&sample.text), "{} is accepted by the parser", sample.name);
        assert!(
            !tree_sitter_accepts(&mut parser, &sample.text),
            "{} is accepted by tree-sitter",
            sample.name
        );
    }
}

/// Every sample with one token left out, doubled or exchanged: some thousands of texts, most of them wrong.
#[test]
fn after_any_small_accident_both_still_agree() {
    let mut parser = parser();
    let mut differing = Vec::new();
    for sample in samples("corpus/accepted").into_iter().chain(samples("patterns")) {
        let tokens = knotwright_grammar::parse(&sample.text).tokens;
        for text in disturbed(&sample.text, &tokens) {
            if let Some(difference) = difference(&mut parser, &text) {
                differing.push(format!("{}: {difference}", sample.name));
            }
        }
    }
    let shown: Vec<_> = differing.iter().take(40).collect();
    assert!(differing.is_empty(), "{} texts differ, such as\n{shown:#?}", differing.len());
}

/// How the two differ over a text, with the line that one of them stumbles over.
fn difference(parser: &mut Parser, text: &str) -> Option<String> {
    let line = |offset: usize| {
        let start = text[..offset].rfind('\n').map_or(0, |at| at + 1);
        text[start..].lines().next().unwrap_or_default().to_owned()
    };
    let problem = knotwright_grammar::parse(text).problems.into_iter().next();
    match (problem, tree_sitter_accepts(parser, text)) {
        (Some(problem), true) => Some(format!(
            "refused by the parser only ({:?}): {}",
            problem.kind,
            line(problem.span.start as usize)
        )),
        (None, false) => Some(format!("refused by tree-sitter only: {}", line(first_error(parser, text)))),
        _ => None,
    }
}

fn first_error(parser: &mut Parser, text: &str) -> usize {
    let tree = parser.parse(text, None).expect("parsing is not cancelled");
    let mut node = tree.root_node();
    while let Some(child) =
        (0..node.child_count() as u32).filter_map(|at| node.child(at)).find(|child| child.has_error())
    {
        node = child;
    }
    node.start_byte()
}
