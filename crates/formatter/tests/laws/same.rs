//! What is compared before and after.

use knotwright_grammar::tree::{Broken, Tree};
use knotwright_grammar::{Parsed, TokenKind};
use knotwright_numbers::ToNumber;

/// The tree as text, with every place taken out.
pub(crate) fn without_places(tree: &Tree) -> String {
    let written = format!("{tree:?}");
    let mut out = String::with_capacity(written.len());
    let mut rest = written.as_str();
    while let Some(at) = ["start: ", "end: ", "offset: "].iter().filter_map(|word| rest.find(word)).min() {
        let (before, place) = rest.split_at(at);
        out.push_str(before);
        let digits = place.find(": ").map_or(0, |colon| colon + 2);
        rest = place[digits..].trim_start_matches(|c: char| c.is_ascii_digit());
    }
    out + rest
}

/// All that is written but white space and comments; the commas that are before `then` are taken out.
pub(crate) fn words(text: &str, parsed: &Parsed) -> String {
    let mut out = String::new();
    for token in &parsed.tokens {
        if matches!(token.kind, TokenKind::Newline | TokenKind::Comment) {
            continue;
        }
        let written = token.span.of(text);
        if written == "then" && out.ends_with(',') {
            out.pop();
        }
        out.push_str(written);
    }
    out.retain(|c| !matches!(c, ' ' | '\t'));
    out
}

/// Every comment in order, without the white space at its end.
pub(crate) fn comments(text: &str, parsed: &Parsed) -> Vec<String> {
    let comments = parsed.tokens.iter().filter(|token| token.kind == TokenKind::Comment);
    comments.map(|token| token.span.of(text).trim_end().to_owned()).collect()
}

/// The lines of every statement that does not parse, its block left out, byte for byte.
pub(crate) fn broken(text: &str, parsed: &Parsed) -> Vec<String> {
    let broken = parsed.tree.walk().filter(|statement| statement.is::<Broken>());
    let lines = broken.map(|statement| {
        let (start, end) = (statement.head.start.to_usize(), statement.head.end.to_usize());
        let first = text[..start].rfind(['\n', '\r', '\u{feff}']).map_or(0, |at| at + 1);
        let first = (first..=start).find(|&at| text.is_char_boundary(at)).unwrap_or(start);
        let last = text[end..].find(['\n', '\r']).map_or(text.len(), |at| end + at);
        text[first..last].to_owned()
    });
    lines.collect()
}

/// Every line end as written.
pub(crate) fn line_ends(text: &str) -> impl Iterator<Item = &str> {
    text.match_indices(['\n', '\r']).filter_map(|(at, end)| match (end, text.as_bytes().get(at + 1)) {
        ("\n", _) if text[..at].ends_with('\r') => None,
        ("\r", Some(b'\n')) => Some("\r\n"),
        _ => Some(end),
    })
}
