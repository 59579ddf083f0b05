//! Texts that are out of all proportion: no overflow of the stack, no time beyond the linear, and few words.

mod support;

use knotwright_grammar::{LARGEST_TEXT, ProblemKind, lex, parse};

const MILLION: usize = 1_000_000;

/// The kinds of the problems.
fn kinds(text: &str) -> Vec<ProblemKind> {
    parse(text).problems.into_iter().map(|problem| problem.kind).collect()
}

#[test]
fn a_million_open_braces() {
    let reported = kinds(&"{".repeat(MILLION));
    assert!(reported.contains(&ProblemKind::TooDeep));
    assert!(reported.len() <= 65, "{}", reported.len());
}

#[test]
fn a_million_nested_blocks() {
    let text = format!("set {{ {}{} }}\n", "both {".repeat(MILLION), "}".repeat(MILLION));
    assert_eq!(kinds(&text), [ProblemKind::TooDeep]);
    assert_eq!(kinds(&text[..text.len() / 2]), [ProblemKind::TooDeep]);
}

#[test]
fn a_million_open_blocks_on_lines() {
    let reported = kinds(&("set {\n".to_owned() + &"both {\n".repeat(MILLION)));
    assert_eq!(reported, [ProblemKind::TooDeep]);
}

#[test]
fn a_million_parentheses() {
    for text in [
        format!("set {{\n  take left {}1\n}}\n", "(".repeat(MILLION)),
        format!("set {{\n  take left {}1{}: forward 1\n}}\n", "(".repeat(MILLION), ")".repeat(MILLION)),
    ] {
        assert_eq!(kinds(&text), [ProblemKind::TooDeep]);
    }
}

#[test]
fn a_sum_of_a_million() {
    let text = format!("set {{\n  take left 1: forward {}1\n}}\n", "1 + ".repeat(MILLION));
    assert_eq!(kinds(&text), [ProblemKind::TooDeep]);
    let longest = format!("set {{\n  take left 1: forward {}1\n}}\n", "1 + ".repeat(256));
    support::accept(&longest);
}

#[test]
fn as_deep_as_is_allowed() {
    let parentheses = format!("set {{ take left {}1{}: forward 1 }}\n", "(".repeat(64), ")".repeat(64));
    support::accept(&parentheses);
    let blocks = format!("set {{ {}meet center{} }}\n", "both { ".repeat(63), " }".repeat(63));
    support::accept(&blocks);
    let one_more = format!("set {{ {}meet center{} }}\n", "both { ".repeat(64), " }".repeat(64));
    assert_eq!(kinds(&one_more), [ProblemKind::TooDeep]);
    assert_eq!(kinds(&format!("{one_more}ends three\n")).len(), 2, "what comes after is read");
}

#[test]
fn a_million_closing_braces() {
    assert_eq!(kinds(&"}".repeat(MILLION)), [ProblemKind::StrayClose]);
    assert_eq!(kinds(&"}\n".repeat(MILLION)), [ProblemKind::StrayClose]);
}

#[test]
fn a_million_zeros() {
    assert_eq!(kinds(&"\0".repeat(MILLION)), [ProblemKind::UnknownSign]);
}

#[test]
fn a_list_of_a_million() {
    let text = format!("strands {}kelp\n", "kelp,\n".repeat(MILLION));
    assert_eq!(support::accept(&text).tree.statements.len(), 1);
}

#[test]
fn a_take_of_a_million_lines() {
    let text = format!("set {{\n  take left 1: forward 1\n{}}}\n", "    then 1\n".repeat(MILLION / 2));
    assert_eq!(support::accept(&text).tree.walk().count(), 2);
}

#[test]
fn a_far_indented_line_of_many_statements() {
    let text = " ".repeat(MILLION) + &"set { } ".repeat(MILLION / 10);
    assert_eq!(kinds(&text).len(), MILLION / 10 - 1);
}

#[test]
fn a_great_many_braces_too_many() {
    let reported = kinds(&"set {\n  both {\n    }\n  }\n}\n".repeat(MILLION / 10));
    assert_eq!(reported.len(), MILLION / 10);
}

#[test]
fn blank_lines_and_strings() {
    assert_eq!(kinds(&"\n".repeat(MILLION)), []);
    assert_eq!(kinds(&"\r".repeat(MILLION)), []);
    assert_eq!(kinds(&format!("strands kelp,{}", "\n".repeat(MILLION))).len(), 1);
    assert!(!kinds(&"\"".repeat(MILLION + 1)).is_empty());
    assert!(!kinds(&"\\".repeat(MILLION)).is_empty());
    assert!(!kinds(&"a-".repeat(MILLION)).is_empty());
}

#[test]
fn larger_than_can_be_read() {
    let text = " ".repeat(LARGEST_TEXT);
    assert_eq!(kinds(&text), []);
    let parsed = parse(&(text + " "));
    assert!(parsed.tokens.is_empty() && parsed.tree.statements.is_empty());
    assert_eq!(parsed.problems.len(), 1);
    assert_eq!(parsed.problems[0].kind, ProblemKind::TooLarge);
    assert!(lex("").is_empty());
}
