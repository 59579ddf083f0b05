//! Words too many, and numbers that stand elsewhere.

use super::steps::kind_said;
use super::{Phrase, Rewording, UnreadLine, number_said};
use crate::wording::{both, quoted};
use knotwright_grammar::{ProblemKind, Span, TokenKind};

pub(super) const KINDS: [&str; 4] = ["forward", "backward", "forward-backward", "backward-forward"];

/// A word that is nearly one of the notation, of which more is wrong.
pub(super) fn meant(line: &UnreadLine) -> Option<Phrase> {
    let (ProblemKind::Misspelled { meant: word } | ProblemKind::UnknownStatement { nearest: Some(word) }) =
        line.problem.kind
    else {
        return None;
    };
    let says = format!(
        "Here {} is written for `{word}`, and more is not as the notation has it.",
        quoted(line.text(line.failing()))
    );
    Some(Phrase::new(says, vec![Rewording::instead(line.problem.span, word)]))
}

/// Numbers as they are said of places.
const ORDINALS: [&str; 12] = [
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth",
];

/// `1st left`, `the second strand from the left`: `left 1`.
pub(super) fn rephrase_ordinal(line: &UnreadLine) -> Option<Phrase> {
    (0..line.tokens.len()).find_map(|at| {
        let (number, mut next) = place_number(line, at)?;
        for word in ["strand", "thread", "one", "from", "on", "the"] {
            next += usize::from(line.text(next) == word);
        }
        let side = line.text(next);
        if !matches!(side, "left" | "right") {
            return left_ordinal(line, at, &number);
        }
        let first = at - usize::from(at > 0 && line.text(at - 1) == "the");
        let way = Rewording::instead(line.span(first, next), format!("{side} {number}"));
        Some(Phrase::new("A strand is named by its side first, and then by its number.", vec![way]))
    })
}

/// `left 1st`: `left 1`.
fn left_ordinal(line: &UnreadLine, at: usize, number: &str) -> Option<Phrase> {
    let before = at.checked_sub(1).filter(|&before| matches!(line.text(before), "left" | "right"))?;
    let last = at + usize::from(line.kind(at) == Some(TokenKind::Number));
    let way = Rewording::instead(line.span(before, last), format!("{} {number}", line.text(before)));
    Some(Phrase::new("A place is a plain number.", vec![way]))
}

/// `1st`, `second`; and the token behind it.
fn place_number(line: &UnreadLine, at: usize) -> Option<(String, usize)> {
    if let Some(number) = ORDINALS.iter().position(|word| *word == line.text(at)) {
        return Some(((number + 1).to_string(), at + 1));
    }
    let is_number = line.kind(at) == Some(TokenKind::Number);
    let is_ordinal = is_number && line.touch(at) && matches!(line.text(at + 1), "st" | "nd" | "rd" | "th");
    is_ordinal.then(|| (line.text(at).to_owned(), at + 2))
}

/// `3x foam`, `3xfoam`, `forward 3x`, `3 x foam`: the number alone.
pub(super) fn times_sign(line: &UnreadLine) -> Option<Phrase> {
    let at = (0..line.tokens.len()).find(|&at| {
        line.kind(at) == Some(TokenKind::Number)
            && line.text(at + 1).starts_with(['x', '\u{d7}'])
            && line.touch(at)
    })?;
    let number = line.text(at);
    let rest = line.text(at + 1).trim_start_matches(['x', '\u{d7}']);
    let behind = match (rest, line.kind(at + 2)) {
        ("", Some(TokenKind::Word)) => line.text(at + 2),
        (rest, _) => rest,
    };
    let end = line.tokens[at + 1].span;
    let before = at.checked_sub(1).map_or("", |before| line.text(before)).trim_start_matches("strands");
    let write = format!("{before} {number} {behind}");
    let text = if rest.is_empty() { String::new() } else { format!(" {rest}") };
    let cut = Span { start: line.tokens[at].span.end, end: end.end };
    let way = Rewording::new(write.trim(), vec![(cut, text)]);
    Some(Phrase::new("A count is a number alone, without an `x`.", vec![way]))
}

/// `3 forward`, `three forward knots`: `forward 3`.
pub(super) fn number_first(line: &UnreadLine) -> Option<Phrase> {
    let number = |at: usize| match line.kind(at) {
        Some(TokenKind::Number) => Some(line.text(at).to_owned()),
        _ => number_said(line.text(at)),
    };
    let is_idle = |at: usize| matches!(line.text(at), "knot" | "knots" | "times" | "x");
    let kind = |at: usize| {
        KINDS.into_iter().find(|kind| *kind == line.text(at)).or_else(|| kind_said(line.text(at)))
    };
    let before = |at: usize| at.checked_sub(1 + usize::from(is_idle(at - 1)));
    let mut kinds = (2..line.tokens.len()).filter(|&at| kind(at).is_some() && !is_idle(at));
    let at = kinds.find(|&at| before(at).and_then(number).is_some())?;
    let first = before(at)?;
    let (number, kind) = (number(first)?, kind(at)?);
    let last = at + usize::from(is_idle(at + 1));
    let way = Rewording::instead(line.span(first, last), format!("{kind} {number}"));
    Some(Phrase::new("The kind of knot comes first, and then how many.", vec![way]))
}

/// `a b | mirror | mirror`: one of them.
pub(super) fn second_mirror(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    // What begins a line has nothing before it.
    let before = at.checked_sub(1)?;
    let is_second = line.text(at) == "|" && line.text(at + 1) == "mirror" && line.text(before) == "mirror";
    let cut = is_second.then(|| Span {
        start: line.tokens[before].span.end,
        end: line.tokens.last().map_or(0, |last| last.span.end),
    })?;
    let way = Rewording::new("| mirror", vec![(cut, String::new())]);
    Some(Phrase::new("`| mirror` stands once: it reflects all that is before it.", vec![way]))
}

/// `thread foam dark green`: `thread foam darkgreen`.
pub(super) fn color_in_two(line: &UnreadLine) -> Option<Phrase> {
    let words = (2..line.tokens.len()).take_while(|&at| line.kind(at) == Some(TokenKind::Word)).count();
    if line.text(0) != "thread" || words < 2 {
        return None;
    }
    let color: String = (2..2 + words).map(|at| line.text(at).to_lowercase()).collect();
    knotwright_color::color_names().into_iter().find(|known| *known == color)?;
    let way = Rewording::instead(line.span(2, 1 + words), color);
    Some(Phrase::new("The name of a color is one word.", vec![way]))
}

/// Words that people say and the notation leaves out.
const IDLE: [&str; 30] = [
    "the", "a", "an", "times", "time", "strand", "strands", "thread", "knot", "knots", "from", "of", "with",
    "and", "at", "all", "x", "row", "rows", "is", "in", "sides", "tie", "make", "number", "color", "parts",
    "into", "new", "another",
];

/// `repeat 4 times`, `the left 1`, `for n from 3 up to 6`: without that word.
pub(super) fn idle_word(line: &UnreadLine) -> Option<Phrase> {
    let idle: Vec<usize> = (0..line.tokens.len()).filter(|&at| IDLE.contains(&line.text(at))).collect();
    let one = idle.iter().map(|&at| vec![at]);
    let two = idle
        .iter()
        .enumerate()
        .flat_map(|(nth, &at)| idle[nth + 1..].iter().map(move |&next| vec![at, next]));
    let left_out = one.chain(two).take(30).find(|words| line.reads(&cuts(line, words)))?;
    let edits = cuts(line, &left_out);
    let words: Vec<String> = left_out.iter().map(|&at| format!("`{}`", line.text(at))).collect();
    let says = format!("The notation leaves out {} here.", both(&words));
    let way = Rewording::new(line.after(&edits)?, edits);
    // What should have come behind `with` may be forgotten.
    let is_cut_short = left_out.contains(&(line.tokens.len() - 1)) && line.failing() == line.tokens.len();
    Some(Phrase::new(says, vec![if is_cut_short { way.guess() } else { way }]))
}

/// The tokens of these numbers left out, each with the space on one side.
fn cuts(line: &UnreadLine, words: &[usize]) -> Vec<(Span, String)> {
    let cut = |&at: &usize| {
        let span = line.tokens[at].span;
        match line.tokens.get(at + 1).filter(|next| next.span.start > span.end) {
            Some(next) => (Span { start: span.start, end: next.span.start }, String::new()),
            None => {
                let start = at.checked_sub(1).map_or(span.start, |before| line.tokens[before].span.end);
                (Span { start, end: span.end }, String::new())
            }
        }
    };
    words.iter().map(cut).collect()
}
