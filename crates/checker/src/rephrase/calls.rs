//! Motifs that are called as people call them, and statements that stand on one line.

use super::{Phrase, Rewording, UnreadLine};
use knotwright_grammar::tree::Due;
use knotwright_grammar::{ProblemKind, Span, TokenKind};
use knotwright_numbers::ToNumber;

/// `leaf(rust)`, `leaf rust`: `work leaf(rust)`.
pub(super) fn motif(line: &UnreadLine) -> Option<Phrase> {
    let is_call = matches!(line.problem.kind, ProblemKind::UnknownStatement { .. }) && line.failing() == 0;
    let way = as_work(line, 0).filter(|_| is_call && line.given.has(Due::Motif, line.text(0)))?;
    Some(Phrase::new("A motif is tied with `work`.", vec![Rewording::instead(line.whole(), way)]))
}

/// `work leaf rust`: `work leaf(rust)`.
pub(super) fn arguments(line: &UnreadLine) -> Option<Phrase> {
    let is_given = line.text(0) == "work" && line.failing() == 2 && line.tokens.len() > 2;
    let way = as_work(line, 1).filter(|_| is_given)?;
    let says = "What a motif is worked with stands in parentheses behind its name.";
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), way)]))
}

/// The `work` for the motif whose name is the token of that number.
fn as_work(line: &UnreadLine, name: usize) -> Option<String> {
    let is_mirrored = line.text(line.tokens.len() - 1) == "mirrored";
    let end = line.tokens.len() - usize::from(is_mirrored);
    let mirrored = if is_mirrored { " mirrored" } else { "" };
    let name_text = line.text(name);
    if line.text(name + 1) == "(" {
        let whole = line.span(name, line.tokens.len() - 1).of(&line.source.text);
        return Some(format!("work {whole}"));
    }
    let is_argument = |at: &usize| matches!(line.kind(*at), Some(TokenKind::Word | TokenKind::Number));
    let given: Vec<usize> = (name + 1..end).filter(|&at| line.text(at) != ",").collect();
    let words: Vec<&str> = given.iter().map(|&at| line.text(at)).collect();
    given.iter().all(is_argument).then(|| format!("work {name_text}({}){mirrored}", words.join(", ")))
}

/// Words that begin statements, and go on with none.
const BEGINNINGS: [&str; 4] = ["take", "meet", "work", "expect"];

/// `take left 1: forward 2, take right 1: backward 2`, `... then meet center`: one statement a line.
pub(super) fn apart(line: &UnreadLine) -> Option<Phrase> {
    let failing = line.failing();
    let begins = |at: &usize| BEGINNINGS.contains(&line.text(*at)) && line.text(at + 1) != ":";
    let is_sign = |at: usize| matches!(line.text(at), "," | "then" | "and" | ";" | "&");
    let near = [failing, failing.checked_sub(1)?, failing + usize::from(is_sign(failing))];
    let at = near.into_iter().find(|at| *at > 1 && begins(at))?;
    let is_sign = is_sign(at - 1);
    let before = line.tokens[at - 1 - usize::from(is_sign)].span.end;
    let text = &line.source.text;
    let own = &text[line.whole().whole_lines(text).start.to_usize()..];
    let indent = &own[..own.len() - own.trim_start_matches([' ', '\t']).len()];
    let between = Span { start: before, end: line.tokens[at].span.start };
    let edits = match line.braces() {
        Some((open, close)) => vec![
            (Span { start: open.end, end: line.whole().start }, format!("\n{indent}  ")),
            (between, format!("\n{indent}  ")),
            (Span { start: line.whole().end, end: close.start }, format!("\n{indent}")),
        ],
        None => vec![(between, format!("\n{indent}"))],
    };
    let rest = line.span(at, line.tokens.len() - 1).of(text);
    Some(Phrase::new("Each step stands on a line of its own.", vec![Rewording::new(rest, edits)]))
}
