//! The grammars that editors color by know every statement. Otherwise a new one would be an error in half of the editors.

use knotwright_grammar::words::all_statements;
use tree_sitter::Language;

const HIGHLIGHTS: &str = include_str!("../../grammar/tree-sitter/queries/highlights.scm");
const TEXTMATE: &str = include_str!("../../grammar/textmate/knotwright.tmLanguage.json");

#[test]
fn tree_sitter_has_a_rule_for_every_statement() {
    let language = Language::from(knotwright_tests::language());
    for word in all_statements().map(|known| known.word.text) {
        let (rule, keyword) = (language.id_for_node_kind(word, true), language.id_for_node_kind(word, false));
        assert!(
            rule != 0 && keyword != 0,
            "grammar/tree-sitter/grammar.js has no rule for `{word}`, or its parser was not generated again"
        );
    }
}

#[test]
fn every_statement_is_highlighted() {
    for word in all_statements().map(|known| known.word.text) {
        let keyword = format!("\"{word}\"");
        assert!(HIGHLIGHTS.contains(&keyword), "grammar/tree-sitter/queries/highlights.scm lacks {keyword}");
    }
}

#[test]
fn textmate_colors_every_statement() {
    let is_letter = |letter: char| letter.is_alphanumeric() || letter == '-';
    let words: Vec<&str> = TEXTMATE.split(|letter| !is_letter(letter)).collect();
    for word in all_statements().map(|known| known.word.text) {
        assert!(words.contains(&word), "grammar/textmate lacks `{word}`: run `cargo xtask bless`");
    }
}
