//! The samples that every parser of the notation shares, and the whole patterns.
#![allow(clippy::disallowed_methods)] // tests may read files

mod support;

use knotwright_grammar::parse;
use support::samples;

#[test]
fn what_is_accepted_has_no_problem() {
    for (name, text) in samples("corpus/accepted").into_iter().chain(samples("patterns")) {
        let parsed = parse(&text);
        assert!(parsed.problems.is_empty(), "{name}: {}", support::problems(&parsed, &text));
        assert!(!parsed.tree.statements.is_empty(), "{name} says nothing");
    }
}

/// Each of them holds one mistake, and one mistake is reported once.
#[test]
fn what_is_refused_has_one_problem() {
    for (name, text) in samples("corpus/refused") {
        let parsed = parse(&text);
        assert_eq!(parsed.problems.len(), 1, "{name}: {}", support::problems(&parsed, &text));
    }
}
