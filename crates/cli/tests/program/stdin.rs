//! `-`, the standard input; and the fenced blocks of Markdown files.

use crate::stage::{BROKEN, DOUBTFUL, GOOD, Stage};

#[test]
fn what_comes_in_is_checked_under_its_name() {
    let stage = Stage::with(&[("sub/knotwright.toml", "[rules]\nunused-thread = \"error\"\n")]);
    let said = stage.run_with_input(&["check", "--format", "short", "-"], DOUBTFUL);
    assert_eq!(said.code, 0);
    assert!(said.out.starts_with("stdin.knot:4:8: warning"), "{}", said.out);
    let arguments = ["check", "--format", "short", "--stdin-name", "sub/draft.knot", "-"];
    let said = stage.run_with_input(&arguments, DOUBTFUL);
    assert_eq!(said.code, 1, "the settings are those of the named folder");
    assert!(said.out.starts_with("sub/draft.knot:4:8: error"), "{}", said.out);
}

#[test]
fn bytes_that_are_no_text_are_reported_by_place() {
    let said = Stage::with(&[]).run_with_input(&["check", "-"], b"pattern \"\xe9\"\n");
    assert_eq!(said.code, 1);
    assert!(said.err.contains("stdin.knot: line 1, column 10: the byte 0xE9 is not UTF-8"), "{}", said.err);
}

#[test]
fn places_in_markdown_are_those_of_the_file() {
    let indented: String = BROKEN.lines().map(|line| format!("  {line}\n")).collect();
    let markdown =
        format!("# Tides\n\n- one\n\n  ```knot\n{indented}  ```\n\n```knot fragment\nset {{\n```\n");
    let stage = Stage::with(&[("README.md", &markdown), ("b.md", "no pattern here\n")]);
    let said = stage.run(&["check", "--format", "short", "."]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.out.starts_with("README.md:12:18: error[broken-promise]"), "{}", said.out);
    assert_eq!(said.out.lines().count(), 1, "{}", said.out);
    let said = stage.run(&["check", "README.md"]);
    assert!(said.out.contains("12 │     take left 1 (sand): forward 3"), "{}", said.out);
}

#[test]
fn format_writes_what_comes_in() {
    let stage = Stage::with(&[]);
    let said = stage.run_with_input(&["format", "-"], GOOD);
    assert_eq!((said.code, said.out.as_str()), (0, GOOD), "{said:?}");
    let untidy = GOOD.replace("  take", "      take").replace('\n', "\r\n");
    let said = stage.run_with_input(&["format", "-"], format!("\u{feff}{untidy}"));
    assert_eq!((said.code, said.out), (0, format!("\u{feff}{}", GOOD.replace('\n', "\r\n"))));
    let said = stage.run_with_input(&["format", "--check", "--stdin-name", "a.knot", "-"], untidy);
    assert_eq!((said.code, said.out.as_str()), (1, "a.knot\n"));
}
