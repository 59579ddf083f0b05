//! Text to tokens.

use knotwright_grammar::{TokenKind, lex};

fn words(text: &str) -> String {
    let shown = |token: &knotwright_grammar::Token| format!("{:?} {:?}", token.kind, token.span.of(text));
    lex(text).iter().map(shown).collect::<Vec<_>>().join(", ")
}

#[test]
fn a_hyphen_belongs_to_a_name_only_within() {
    assert_eq!(words("size-1"), r#"Word "size-1""#);
    assert_eq!(words("forward-backward"), r#"Word "forward-backward""#);
    assert_eq!(words("size - 1"), r#"Word "size", Minus "-", Number "1""#);
    assert_eq!(words("size -1"), r#"Word "size", Minus "-", Number "1""#);
    assert_eq!(words("size-"), r#"Word "size", Minus "-""#);
    assert_eq!(words("-size"), r#"Minus "-", Word "size""#);
    assert_eq!(words("a--b"), r#"Word "a", Minus "-", Minus "-", Word "b""#);
    assert_eq!(words("a-_b_"), r#"Word "a-_b_""#);
    assert_eq!(words("_a"), r#"Unknown "_", Word "a""#);
}

#[test]
fn names_are_unicode() {
    assert_eq!(words("écume 海-藻 на-2"), r#"Word "écume", Word "海-藻", Word "на-2""#);
    assert_eq!(words("e\u{301}cume"), "Word \"e\\u{301}cume\"");
    assert_eq!(words("a·b €"), r#"Word "a·b", Unknown "€""#);
}

#[test]
fn a_comment_begins_a_line_or_follows_a_space() {
    assert_eq!(words("-- all of it"), r#"Comment "-- all of it""#);
    assert_eq!(words("\u{feff}-- all"), r#"Comment "-- all""#);
    assert_eq!(words("a -- b\r\nc"), r#"Word "a", Comment "-- b", Newline "\r\n", Word "c""#);
    assert_eq!(words("a\t--b\r--c"), r#"Word "a", Comment "--b", Newline "\r", Comment "--c""#);
    assert_eq!(words("4--b"), r#"Number "4", Minus "-", Minus "-", Word "b""#);
    assert_eq!(words("---"), r#"Comment "---""#);
}

#[test]
fn strings_end_on_their_line() {
    assert_eq!(words(r#""a \" b" c"#), r#"String "\"a \\\" b\"", Word "c""#);
    assert_eq!(words("\"a\\\\\" b"), r#"String "\"a\\\\\"", Word "b""#);
    assert_eq!(words("\"a -- b\nc"), r#"Unknown "\"a -- b", Newline "\n", Word "c""#);
    assert_eq!(words("\"a\\"), r#"Unknown "\"a\\""#);
    assert_eq!(words("\""), r#"Unknown "\"""#);
    assert_eq!(words("section \"a { \n"), r#"Word "section", Unknown "\"a", OpenBrace "{", Newline "\n""#);
    assert_eq!(words("note \"a {"), r#"Word "note", Unknown "\"a {""#);
}

#[test]
fn numbers_and_colors() {
    assert_eq!(
        words("15cm 0.9 1. .5"),
        r#"Number "15", Word "cm", Number "0.9", Number "1", Mark ".", Mark ".", Number "5""#
    );
    assert_eq!(
        words("#fff #1f5d5g # #. #x"),
        r##"Color "#fff", Color "#1f5d5g", Mark "#", Mark "#", Mark ".", Mark "#", Word "x""##
    );
}

#[test]
fn charts_need_no_spaces() {
    assert_eq!(
        words(r"\/><xx.#"),
        r##"Mark "\\", Mark "/", Mark ">", Mark "<", Word "xx", Mark ".", Mark "#""##
    );
}

#[test]
fn a_byte_order_mark_is_white_space_at_the_start_alone() {
    assert_eq!(words("\u{feff}a"), r#"Word "a""#);
    assert_eq!(words("a \u{feff}b"), r#"Word "a", Unknown "\u{feff}", Word "b""#);
}

#[test]
fn unknown_signs_are_one_token_a_run() {
    let text = "\0".repeat(1000) + "a";
    let tokens = lex(&text);
    assert_eq!(tokens.len(), 2);
    assert_eq!(tokens[0].kind, TokenKind::Unknown);
    assert_eq!(words("a\u{a0}b;'?"), "Word \"a\", Unknown \"\\u{a0}\", Word \"b\", Unknown \";'?\"");
}
