//! Spaces between words mean nothing, whatever else is wrong.

use knotwright_grammar::{ProblemKind, parse};
use knotwright_numbers::ToNumber;

/// Which `{` lack their `}`, the first being 0.
fn missing(text: &str) -> Vec<usize> {
    let problems = parse(text).problems;
    let missing = problems.into_iter().flat_map(|problem| match problem.kind {
        ProblemKind::MissingClose => vec![problem.span],
        ProblemKind::OpenAtEnd { opened } => opened,
        _ => Vec::new(),
    });
    missing.map(|open| text[..open.start.to_usize()].matches('{').count()).collect()
}

#[test]
fn a_missing_brace_is_placed_by_the_indent_of_lines_alone() {
    let close = "set{\n section \"a\"{\n both{ both{\n       } }\n }\n";
    let wide = "set{\n section \"a\"{\n both   {   both   {\n       } }\n }\n";
    assert_eq!(missing(close), [0]);
    assert_eq!(missing(close), missing(wide));
}

#[test]
fn a_sign_at_the_start_of_a_line_touches_nothing() {
    let kinds = |text: &str| parse(text).problems.into_iter().map(|problem| problem.kind).collect::<Vec<_>>();
    assert_eq!(kinds("\n- 4\n"), kinds("- 4\n"));
    assert_eq!(kinds("set { repeat 4 -\n}"), kinds("set { repeat 4 - \n}"));
}
