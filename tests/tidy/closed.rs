//! A closed notation: no code takes statements that it does not name. A match on `Head`, `Body` or `EndPiece` lists all of
//! them, so that a new statement does not compile before it was thought of everywhere; who asks for one alone writes
//! `get::<Take>()`.

use crate::files;

/// The lines of a text that take some statements of the head or the body and pass over the rest.
fn open_lines(code: &str) -> Vec<usize> {
    let lines: Vec<&str> = code.lines().map(without_comment).collect();
    (0..lines.len()).filter(|&at| is_open(&lines, at)).collect()
}

fn without_comment(line: &str) -> &str {
    line.split("//").next().unwrap_or_default()
}

fn is_open(lines: &[&str], at: usize) -> bool {
    let line = lines[at].trim();
    let takes_one = line.contains("matches!(") || line.contains(" let ") || line.starts_with("let ");
    let pattern = line.split(" = ").next().unwrap_or_default();
    let pattern = if line.contains("matches!(") { line } else { pattern };
    (takes_one && names_variant(pattern)) || (is_wildcard(line) && !arms_beside(lines, at).is_empty())
}

/// An arm that takes whatever is left: `_ =>`, `other =>`, with or without a condition.
fn is_wildcard(line: &str) -> bool {
    let Some((pattern, _)) = line.split_once("=>") else { return false };
    let name = pattern.split(" if ").next().unwrap_or_default().trim();
    let letters = name.chars().all(|letter| letter.is_lowercase() || letter.is_numeric() || letter == '_');
    !name.is_empty() && letters
}

/// The arms of the same match that name statements: in formatted code they begin as far in.
fn arms_beside(lines: &[&str], at: usize) -> Vec<usize> {
    let depth = indent(lines[at]);
    let inside = |&at: &usize| lines[at].trim().is_empty() || indent(lines[at]) >= depth;
    let before = (0..at).rev().take_while(inside);
    let behind = (at + 1..lines.len()).take_while(inside);
    let is_arm = |&at: &usize| indent(lines[at]) == depth && names_variant(pattern_of(lines[at]));
    before.chain(behind).filter(is_arm).collect()
}

fn pattern_of(line: &str) -> &str {
    line.split("=>").next().unwrap_or_default()
}

fn indent(line: &str) -> usize {
    line.len() - line.trim_start().len()
}

/// Whether a variant of one of the enums is named: `Head::Use`, `Body::Take`, `EndPiece::Knot`.
fn names_variant(pattern: &str) -> bool {
    ["Head::", "Body::", "EndPiece::"].iter().any(|name| {
        pattern.match_indices(name).any(|(at, _)| {
            let alone = !pattern[..at].ends_with(|before: char| before.is_alphanumeric() || before == '_');
            alone && pattern[at + name.len()..].starts_with(char::is_uppercase)
        })
    })
}

#[test]
fn no_match_on_statements_has_a_wildcard() {
    let mut found = Vec::new();
    let kept = files::kept(".rs");
    let sources = kept.iter().filter(|path| path.starts_with("crates"));
    for path in sources {
        let code = files::text(path).expect("a source is text");
        found.extend(open_lines(&code).into_iter().map(|line| format!("{}:{}", path.display(), line + 1)));
    }
    assert!(found.is_empty(), "some statements are passed over in silence: {found:#?}");
}

#[test]
fn what_passes_over_statements_is_seen() {
    let seen = |code: &str| open_lines(code).len();
    assert_eq!(seen("match body {\n    Body::Take(take) => 1,\n    _ => 0,\n}\n"), 1);
    assert_eq!(seen("match body {\n    _ if no => 2,\n    Body::Take(_)\n    | Body::Meet(_) => 1,\n}\n"), 1);
    assert_eq!(seen("match body {\n    Body::Take(take) => 1,\n    other => 0,\n}\n"), 1);
    assert_eq!(seen("match &one.node {\n    Node::Body(Body::Take(take)) => 1,\n    _ => 0,\n}\n"), 1);
    assert_eq!(seen("matches!(body, Body::Take(_))\n"), 1);
    assert_eq!(seen("if let Node::Head(Head::Use(import)) = &statement.node {\n"), 1);
    assert_eq!(seen("let Body::Take(take) = body else { return };\n"), 1);
}

#[test]
fn what_answers_for_all_is_left_alone() {
    let seen = |code: &str| open_lines(code).len();
    assert_eq!(
        seen("match body {\n    Body::Take(take) => match take.by {\n        _ => 0,\n    },\n}\n"),
        0
    );
    assert_eq!(seen("let head = Body::ALL.iter();\nlet all = Head::ALL;\n"), 0);
    assert_eq!(seen("match word {\n    \"take\" => Body::Take(take),\n    _ => none,\n}\n"), 0);
    assert_eq!(seen("let Node::Body(body) = &statement.node else { return };\n"), 0);
}
