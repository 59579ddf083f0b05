//! Ranges as people write them: `on 3 left {`, `on left 1 to left 3 {`, `on 1-3 {`, `on the first 3 {`.

use super::{Phrase, Rewording, UnreadLine, number_said};
use knotwright_grammar::{Span, TokenKind};

/// Words in such a range that say nothing.
const IDLE: [&str; 9] = ["the", "strand", "strands", "from", "of", "on", "most", "threads", "only"];

/// A range with its side first, or from one number to another.
pub(super) fn range(line: &UnreadLine) -> Option<Phrase> {
    let open = line.tokens.iter().position(|token| token.kind == TokenKind::OpenBrace)?;
    if line.text(0) != "on" || open < 2 {
        return None;
    }
    let (mut numbers, mut sides, mut is_span) = (Vec::new(), Vec::new(), false);
    for at in 1..open {
        let text = line.text(at);
        match line.kind(at)? {
            TokenKind::Number => numbers.push(text.to_owned()),
            TokenKind::Minus => is_span = true,
            TokenKind::Word if matches!(text, "to" | "through" | "until" | "and") => is_span = true,
            TokenKind::Word if matches!(text, "left" | "right" | "center" | "inside") => sides.push(text),
            TokenKind::Word if matches!(text, "first" | "leftmost") => sides.push("left"),
            TokenKind::Word if matches!(text, "last" | "rightmost") => sides.push("right"),
            TokenKind::Word if matches!(text, "middle" | "centre") => sides.push("center"),
            TokenKind::Word if IDLE.contains(&text) => {}
            TokenKind::Word => numbers.push(number_said(text)?),
            TokenKind::Unknown if matches!(text, "\u{2013}" | "\u{2026}") => is_span = true,
            _ => return None,
        }
    }
    let span = line.span(1, open - 1);
    let whole = |range: String| Rewording::new(format!("on {range} {{"), vec![(span, range)]);
    match (&numbers[..], &sides[..], is_span) {
        ([number], [side], false) => {
            let says = "A range is named by its side first, and then by how many strands it has.";
            Some(Phrase::new(says, vec![whole(format!("{side} {number}"))]))
        }
        ([first, last], sides, true) if sides.iter().all(|side| *side == "left") => {
            let says = "From one strand to another, both are counted from the left.";
            Some(Phrase::new(says, vec![whole(format!("{first} to {last}"))]))
        }
        _ => None,
    }
}

/// `bead shell on left 3 to 4`, `bead shell on center left and right`: each strand by itself.
pub(super) fn each_strand_of_bead(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let joins = matches!(line.text(at), "and" | "to" | "," | "&" | "+");
    if line.text(0) != "bead" || at < 5 || !joins || line.tokens.len() != at + 2 {
        return None;
    }
    let (side, before, next) = (line.text(at - 2), line.text(at - 1), line.text(at + 1));
    let place = match line.kind(at + 1)? {
        TokenKind::Word if side == "center" && matches!(next, "left" | "right") => format!("center {next}"),
        TokenKind::Number if line.kind(at - 1) == Some(TokenKind::Number) => {
            let (first, last) = (before.parse::<u32>().ok()?, next.parse::<u32>().ok()?);
            let are_few = first < last && last - first < 6;
            let all: Vec<String> = (first + 1..=last).map(|number| format!("{side} {number}")).collect();
            if line.text(at) == "to" && are_few { all.join(", ") } else { format!("{side} {next}") }
        }
        _ => return None,
    };
    let cut = Span { start: line.tokens[at - 1].span.end, end: line.tokens[at + 1].span.end };
    let edits = vec![(cut, format!(", {place}"))];
    let write = line.after(&edits)?;
    Some(Phrase::new(
        "Each strand that goes through a bead is named by itself.",
        vec![Rewording::new(write, edits)],
    ))
}
