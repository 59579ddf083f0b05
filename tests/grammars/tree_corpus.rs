//! The corpus of the tree-sitter grammar, in the form that `tree-sitter test` reads too: a title between lines of `=`, a
//! text, a line of `-`, and the tree.

use std::path::Path;
use tree_sitter::Parser;

/// A text and its tree.
struct Example {
    title: String,
    text: String,
    tree: String,
}

#[test]
fn each_text_of_the_corpus_has_its_tree() {
    let mut parser = Parser::new();
    parser.set_language(&knotwright_tests::language().into()).expect("the grammar fits the library");
    let examples = corpus();
    assert!(examples.len() > 20, "only {} examples were found", examples.len());
    for Example { title, text, tree } in examples {
        let parsed = parser.parse(&text, None).expect("parsing is not cancelled");
        assert_eq!(parsed.root_node().to_sexp(), tree, "{title}");
    }
}

fn corpus() -> Vec<Example> {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("../grammar/tree-sitter/test/corpus");
    let files = std::fs::read_dir(home).expect("the corpus is there");
    let texts = files.map(|file| {
        std::fs::read_to_string(file.expect("a folder can be read").path()).expect("an example is text")
    });
    texts.flat_map(|text| examples(&text)).collect()
}

fn examples(file: &str) -> Vec<Example> {
    let rule = "=".repeat(80);
    // Between every two rules there is a title, and behind every second a text with its tree.
    let parts: Vec<&str> = file.split(&format!("{rule}\n")).skip(1).collect();
    parts.chunks(2).map(|parts| example(parts[0], parts[1])).collect()
}

fn example(title: &str, body: &str) -> Example {
    let (text, tree) = body.split_once(&format!("\n{}\n", "-".repeat(80))).expect("a text and its tree");
    let words: Vec<&str> = tree.split_whitespace().collect();
    Example { title: title.trim().to_owned(), text: text.to_owned(), tree: words.join(" ") }
}
