//! Laws that hold for any text at all.

mod support;

use knotwright_grammar::tree::Statement;
use knotwright_grammar::{Parsed, Span, parse, words};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use support::forms;

/// What every answer keeps to.
fn check(text: &str) {
    let parsed = parse(text);
    tokens_cover(&parsed, text);
    for problem in &parsed.problems {
        inside(problem.span, text);
    }
    assert!(parsed.problems.is_sorted_by_key(|problem| problem.span.start), "{text:?}");
    nested(&parsed.tree.statements, Span::new(0, text.len()), text);
    assert_eq!(parsed, parse(text), "the same text, another answer");
}

/// Between two tokens is nothing but white space.
fn tokens_cover(parsed: &Parsed, text: &str) {
    let mut end = 0;
    for token in &parsed.tokens {
        inside(token.span, text);
        assert!(!token.span.is_empty() && token.span.start >= end, "{text:?} {token:?}");
        blank(Span { start: end, end: token.span.start }.of(text));
        end = token.span.end;
    }
    blank(Span { start: end, end: text.len().to_u32() }.of(text));
}

fn blank(between: &str) {
    let white = |c| matches!(c, ' ' | '\t' | '\u{feff}');
    assert!(between.chars().all(white), "{between:?}");
}

fn inside(span: Span, text: &str) {
    assert!(text.get(span.start.to_usize()..span.end.to_usize()).is_some(), "{span:?} in {text:?}");
}

/// Statements follow each other and are within their blocks.
fn nested(statements: &[Statement], outer: Span, text: &str) {
    let mut end = outer.start;
    for statement in statements {
        inside(statement.span, text);
        let (span, head) = (statement.span, statement.head);
        assert!(end <= span.start && span.end <= outer.end, "{text:?} {statement:?}");
        assert!(
            span.start == head.start && head.end <= span.end && !head.is_empty(),
            "{text:?} {statement:?}"
        );
        if let Some(block) = statement.node.block() {
            nested(&block.statements, Span { start: block.open.end, end: span.end }, text);
            assert!(block.close.is_none_or(|close| close.end == span.end), "{text:?} {statement:?}");
        }
        end = span.end;
    }
}

/// Words and signs of the notation, line ends among them.
fn soup() -> impl Strategy<Value = String> {
    let signs = [
        "{", "}", "(", ")", ",", ":", "|", "+", "-", "*", "\\", "/", "<", ">", ".", "#", "\"", "\"t\"", "--",
    ];
    let more =
        ["\n", "\r\n", "\n  ", "\n    ", "x", "7", "1.5", "99999999999", "#fff", "kelp", "§", "\0", "15cm"];
    let words = words::WORDS.iter().map(|word| word.text);
    let all: Vec<&str> = words.chain(signs).chain(more).chain(["\n", "{", "}", "set {", "\n}"]).collect();
    let bit = (proptest::sample::select(all), proptest::bool::weighted(0.9));
    let spaced = |(bit, space)| if space { format!("{bit} ") } else { String::from(bit) };
    proptest::collection::vec(bit.prop_map(spaced), 0..60).prop_map(|bits| bits.concat())
}

/// A good file with a piece cut out and another put in.
fn edited() -> impl Strategy<Value = String> {
    let whole = forms::together();
    let length = whole.len();
    (0..length, 0..40_usize, "[a-z{}()\",:|\n -]{0,6}").prop_map(move |(start, cut, put)| {
        let whole_letters = |at: usize| (0..=at).rfind(|at| whole.is_char_boundary(*at)).unwrap_or_default();
        let [start, end] = [start, (start + cut).min(length)].map(whole_letters);
        format!("{}{put}{}", &whole[..start], &whole[end..])
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text(text in any::<String>()) {
        check(&text);
    }

    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        check(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn any_words(text in soup()) {
        check(&text);
    }

    #[test]
    fn any_edit(text in edited()) {
        check(&text);
    }

    /// A problem in one line leaves the other lines as they are, as long as no brace and no run-on is concerned.
    #[test]
    fn a_broken_line_stays_alone(line in "[a-z0-9():.+*]{1,12}( [a-z0-9():.+*]{1,8}){0,5}") {
        let text = format!("set {{\n  meet center\n  {line}\n  note \"after\"\n}}\nends 3 cm\n");
        let parsed = parse(&text);
        let starts: Vec<&str> = parsed.tree.walk().map(|statement| statement.head.of(&text)).collect();
        prop_assert_eq!(starts.len(), 5, "{}", text);
        prop_assert_eq!((starts[0], starts[1], starts[3], starts[4]), ("set {", "meet center", "note \"after\"", "ends 3 cm"));
        prop_assert!(parsed.problems.len() <= 1, "{:?}", parsed.problems);
    }
}
