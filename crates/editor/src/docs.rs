//! The comment above a statement, which says what it is for.

use knotwright_checker::Source;
use knotwright_grammar::TokenKind;
use knotwright_wording::is_hidden;

/// The comment lines right above the statement that begins at `start`, as one paragraph.
pub(crate) fn above(source: &Source, start: u32) -> Option<String> {
    let tokens = &source.parsed.tokens;
    let at = tokens.partition_point(|token| token.span.start < start);
    let mut lines = Vec::new();
    let mut rest = tokens[..at].iter().rev();
    // A line's end, a comment, a line's end, a comment ...
    while let (Some(end), Some(comment)) = (rest.next(), rest.next()) {
        if end.kind != TokenKind::Newline || comment.kind != TokenKind::Comment {
            break;
        }
        lines.push(comment.span.of(&source.text).trim_start_matches('-').trim());
        let alone = rest.clone().next().is_none_or(|before| before.kind == TokenKind::Newline);
        if !alone {
            lines.pop();
            break;
        }
    }
    lines.reverse();
    let lines: Vec<String> =
        lines.iter().filter(|line| !line.starts_with("allow ")).map(|line| clean(line)).collect();
    (!lines.is_empty()).then(|| lines.join(" "))
}

/// Without signs that mean something in Markdown or steer a terminal.
fn clean(line: &str) -> String {
    let kept = |letter: char| {
        !is_hidden(letter) && !matches!(letter, '<' | '>' | '[' | ']' | '!' | '*' | '_' | '\\')
    };
    line.chars().filter(|letter| kept(*letter)).collect()
}
