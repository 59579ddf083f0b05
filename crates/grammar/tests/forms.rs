//! Every form of every statement, as the tree has it.

mod support;

use support::{accept, forms, tree};

#[test]
fn every_form_has_its_tree() {
    let text = forms::together();
    let parsed = accept(&text);
    insta::assert_snapshot!(tree(&parsed.tree));
}

#[test]
fn each_form_by_itself_is_the_same() {
    let whole = tree(&accept(&forms::together()).tree);
    for text in forms::files() {
        let alone = tree(&accept(&text).tree);
        let statement = alone.trim_start_matches("set {\n").trim_end_matches("}\n").trim_end();
        assert!(whole.contains(statement), "{text}\n{alone}");
    }
}

/// The statements stand where they were written: their heads read as the lines do.
#[test]
fn spans_cover_the_lines() {
    let text = forms::together();
    let parsed = accept(&text);
    let set = parsed.tree.statements.last().expect("a set");
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    for statement in set.node.block().expect("its block").statements.iter().chain(&parsed.tree.statements) {
        let written = statement.span.of(&text);
        assert!(lines.contains(&written) || written.starts_with("set {\n"), "{written:?}");
    }
}
