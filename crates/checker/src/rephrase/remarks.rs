//! Remarks that begin otherwise, and words for what the notation says otherwise or not at all.

use super::{BlockSort, Phrase, Rewording, UnreadLine};
use knotwright_grammar::{Belongs, ProblemKind, Span, TokenKind};

/// `# remark`, `// remark`: `-- remark`.
pub(super) fn rephrase_comment(line: &UnreadLine) -> Option<Phrase> {
    let failing = line.failing();
    let begins = |at: usize| {
        let text = line.text(at);
        let is_hash = text.starts_with('#') && line.kind(at) != Some(TokenKind::Color);
        is_hash
            || (text.starts_with('#') && at == 0)
            || (text == "/" && line.text(at + 1) == "/" && line.touch(at))
    };
    let at = [0, failing].into_iter().find(|&at| begins(at))?;
    if at > 0 && !line.reads(&[(line.span(at, line.tokens.len() - 1), String::new())]) {
        return None;
    }
    let span = line.tokens[at].span;
    let rest = &line.source.text[span.start.to_usize()..];
    let marks = rest.len() - rest.trim_start_matches(['#', '/', ' ']).len();
    let remark = rest[marks..].lines().next().unwrap_or_default().trim_end();
    let end = line.tokens[at..].last().map_or(span, |last| last.span).end;
    let write = format!("-- {remark}");
    let edits = vec![(
        Span { start: span.start, end: end.max(span.start + (marks + remark.len()).to_u32()) },
        write.clone(),
    )];
    Some(Phrase::new("A remark begins with `--`.", vec![Rewording::new(write, edits)]))
}
use knotwright_numbers::ToNumber;

/// Whether the first word begins no statement, or only one of `begin` and `finish`.
fn is_no_word_here(kind: &ProblemKind) -> bool {
    matches!(
        kind,
        ProblemKind::UnknownStatement { .. } | ProblemKind::Misplaced { belongs: Belongs::Ends, .. }
    )
}

/// `loop 4 {` is `repeat 4 {`; turns and what is left out are no statements: a note says them.
pub(super) fn other_words(line: &UnreadLine) -> Option<Phrase> {
    if !is_no_word_here(&line.problem.kind) || line.failing() > 0 {
        return None;
    }
    let word = line.text(0);
    let says = match word {
        "loop" | "times" | "do" if line.text(line.tokens.len() - 1) == "{" => return again(line),
        "cross" | "link" | "tie" | "knot" if is_of_the_middle(line) => {
            let way = Rewording::instead(line.whole(), "meet center");
            return Some(Phrase::new("The two strands in the middle are tied by `meet center`.", vec![way]));
        }
        "turn" => {
            "Turning knots are `forward-backward` and `backward-forward`; whatever else is turned, a note says."
        }
        "skip" | "leave" => {
            "What is not tied is not written down: go on with the next step, or say it in a note."
        }
        // With a `:` it is a step that begins otherwise.
        "knot" | "tie" if line.tokens.iter().any(|token| token.kind == TokenKind::Colon) => return None,
        "knot" | "tie" => {
            "A step begins with `take` and the strand to take, such as `take left 1: forward 2`."
        }
        _ => return None,
    };
    let is_block = line.text(line.tokens.len() - 1) == "{";
    if line.around != BlockSort::Body || is_block {
        return Some(Phrase::new(says, Vec::new()));
    }
    let text = line.whole().of(&line.source.text).replace(['"', '\\'], "'");
    let note = format!("note \"{}\"", text.trim());
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), note).guess()]))
}

/// `join center`, `tie the two in the middle`
fn is_of_the_middle(line: &UnreadLine) -> bool {
    let is_middle = |at| matches!(line.text(at), "center" | "middle" | "centre");
    let is_step = |at| line.kind(at) == Some(TokenKind::Colon);
    (1..line.tokens.len()).any(is_middle) && !(1..line.tokens.len()).any(is_step)
}

/// `3 times {`: `repeat 3 {`.
pub(super) fn times_first(line: &UnreadLine) -> Option<Phrase> {
    let is_count =
        line.kind(0) == Some(TokenKind::Number) && matches!(line.text(1), "times" | "x" | "\u{d7}");
    if is_count { again(line) } else { None }
}

/// `loop 4 {`, `loop 4 times {`: `repeat 4 {`.
fn again(line: &UnreadLine) -> Option<Phrase> {
    let number = (0..line.tokens.len()).find(|&at| line.kind(at) == Some(TokenKind::Number))?;
    let says = "What is tied again stands in `repeat`.";
    let rest = if line.text(line.tokens.len() - 1) == "{" { " {" } else { "" };
    let write = format!("repeat {}{rest}", line.text(number));
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), write)]))
}
