//! Steps as they are said aloud: without `take`, with numbers in words, with the kinds of knot cut short.

use super::words::KINDS;
use super::{Phrase, Rewording, UnreadLine, between};
use knotwright_grammar::words::WORDS;
use knotwright_grammar::{Expected, ProblemKind, Span, TokenKind};

/// `1. take left 1`, `- take left 1`: without the sign.
pub(super) fn list_mark(line: &UnreadLine) -> Option<Phrase> {
    let is_number = line.kind(0) == Some(TokenKind::Number) && matches!(line.text(1), "." | ")" | ":");
    let is_sign = matches!(line.text(0), "-" | "*" | "+" | "." | ">" | "\u{2022}" | "\u{b7}" | "\u{2013}");
    let first = match (is_number, is_sign) {
        (true, _) => 2,
        (_, true) => 1,
        _ => return None,
    };
    let span = Span { start: line.tokens[0].span.start, end: line.tokens.get(first)?.span.start };
    let rest = Span { start: span.end, end: line.whole().end }.of(&line.source.text);
    Some(Phrase::new(
        "A statement has no number and no sign before it.",
        vec![Rewording::new(rest, vec![(span, String::new())])],
    ))
}

/// `TAKE LEFT 1`: `take left 1`.
pub(super) fn capitals(line: &UnreadLine) -> Option<Phrase> {
    let small = |at: &usize| {
        let (text, small) = (line.text(*at), line.text(*at).to_lowercase());
        (text != small && WORDS.iter().any(|word| word.text == small))
            .then_some((line.tokens[*at].span, small))
    };
    let edits: Vec<(Span, String)> = (0..line.tokens.len()).filter_map(|at| small(&at)).collect();
    let write = line.after(&edits).filter(|_| !edits.is_empty())?;
    Some(Phrase::new("The words of the notation are in small letters.", vec![Rewording::new(write, edits)]))
}

/// What people say for `take`.
const TAKING: [&str; 14] = [
    "with", "using", "use", "pick", "up", "grab", "hold", "move", "work", "then", "now", "next", "the",
    "strand",
];

/// `left 1: forward 2`, `with left 1: forward 2`: `take left 1: forward 2`.
pub(super) fn no_take(line: &UnreadLine) -> Option<Phrase> {
    let place = (0..line.tokens.len()).find(|&at| matches!(line.text(at), "left" | "right" | "center"))?;
    if !(0..place).all(|at| TAKING.contains(&line.text(at))) {
        return None;
    }
    let start = line.tokens[0].span.start;
    let edits = vec![(Span { start, end: line.tokens[place].span.start }, "take ".to_owned())];
    let says = "A step begins with `take` and the strand to take.";
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// `take 1 left`, `take strand 1`, `take ink from left 1`: `take left 1`, `take ink 1 from left`.
pub(super) fn place_without_side(line: &UnreadLine) -> Option<Phrase> {
    if line.text(0) != "take" {
        return None;
    }
    let is_number = |at| line.kind(at) == Some(TokenKind::Number);
    if line.text(2) == "from" && matches!(line.text(3), "left" | "right") && is_number(4) {
        let (thread, side, number) = (line.text(1), line.text(3), line.text(4));
        let way = Rewording::instead(line.span(1, 4), format!("{thread} {number} from {side}"));
        return Some(Phrase::new("A thread has its number before its side.", vec![way]));
    }
    let number = (1..4).find(|&at| is_number(at))?;
    if !(1..number).all(|at| matches!(line.text(at), "the" | "strand" | "thread" | "number" | "no" | "#")) {
        return None;
    }
    let says = "A strand is named by its side first, and then by its number.";
    let text = line.text(number);
    let ways = match line.text(number + 1) {
        side @ ("left" | "right") => {
            vec![Rewording::instead(line.span(1, number + 1), format!("{side} {text}"))]
        }
        _ => ["left", "right"]
            .map(|side| Rewording::instead(line.span(1, number), format!("{side} {text}")).guess())
            .into(),
    };
    Some(Phrase::new(says, ways))
}

/// What the kinds are cut short to.
const SHORT: [(&str, &str); 12] = [
    ("f", "forward"),
    ("fw", "forward"),
    ("fwd", "forward"),
    ("forwards", "forward"),
    ("b", "backward"),
    ("bw", "backward"),
    ("bwd", "backward"),
    ("back", "backward"),
    ("backwards", "backward"),
    ("fb", "forward-backward"),
    ("bf", "backward-forward"),
    ("knot", "forward"),
];

/// `fb 3`, `forward backward 3`, `forward/backward 3`: `forward-backward 3`.
pub(super) fn short_kind(line: &UnreadLine) -> Option<Phrase> {
    let says = "A kind of knot is one word: `forward`, `backward`, `forward-backward` or `backward-forward`.";
    let is_passing = |at| matches!(line.text(at), "forward" | "backward");
    for at in 0..line.tokens.len() {
        let next = at + 1 + usize::from(matches!(line.text(at + 1), "/" | "\u{2013}" | "+" | "-" | "and"));
        if is_passing(at) && is_passing(next) && line.text(at) != line.text(next) {
            let kind = format!("{}-{}", line.text(at), line.text(next));
            let way = Rewording::instead(line.span(at, next), kind);
            // Two runs of one knot each may be meant.
            let is_one = matches!(line.text(at + 1), "\u{2013}" | "-");
            return Some(Phrase::new(says, vec![if is_one { way } else { way.guess() }]));
        }
    }
    let at = line.failing();
    let ProblemKind::Unexpected { expected } = &line.problem.kind else { return None };
    let mut known =
        SHORT.iter().filter(|(short, _)| expected.contains(&Expected::Kind) && *short == line.text(at));
    let (short, kind) = known.next()?;
    let way = Rewording::instead(line.tokens[at].span, *kind);
    Some(Phrase::new(says, vec![if *short == "knot" { way.guess() } else { way }]))
}

/// Numbers in words.
const SPELLED: [&str; 13] = [
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
];

/// The number that a word says: `three`, `twice`, `x3`.
pub(crate) fn number_said(word: &str) -> Option<String> {
    let often = ["once", "twice", "thrice"].iter().position(|it| *it == word).map(|at| at + 1);
    let spelled = SPELLED.iter().position(|it| *it == word);
    let times =
        word.strip_prefix('x').filter(|rest| !rest.is_empty() && rest.bytes().all(|it| it.is_ascii_digit()));
    often.or(spelled).map(|number| number.to_string()).or_else(|| times.map(str::to_owned))
}

/// `two forward`: `2 forward`, of which more is wrong.
pub(super) fn spelled_number(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let way = Rewording::instead(line.tokens.get(at)?.span, number_said(line.text(at))?);
    Some(Phrase::new("A number is written in figures.", vec![way]))
}

/// `take left 1 ink:`, `take left 1 = ink:`, `take left 1 [ink]:`: `take left 1 (ink):`.
pub(super) fn promise(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let thread = at + usize::from(matches!(line.text(at), "=" | "[" | ","));
    let last = thread + usize::from(line.text(thread + 1) == "]");
    let is_promise = line.text(0) == "take"
        && at > 1
        && line.kind(thread) == Some(TokenKind::Word)
        && (matches!(line.text(last + 1), ":" | ",") || KINDS.contains(&line.text(last + 1)));
    let text = is_promise.then(|| format!(" ({})", line.text(thread)))?;
    let span = Span { start: line.tokens[at - 1].span.end, end: line.tokens[last].span.end };
    Some(Phrase::new(
        "A promised thread stands in parentheses.",
        vec![Rewording::new(text.trim().to_owned(), vec![(span, text)])],
    ))
}

/// `forward 3 backward 2`, `forward 3 and backward 2`: `forward 3, backward 2`.
pub(super) fn runs(line: &UnreadLine) -> Option<Phrase> {
    let is_sign = |at| matches!(line.text(at), "and" | "+" | ";" | "." | "&" | "/");
    let failing = line.failing();
    let kind = failing + usize::from(is_sign(failing));
    if !KINDS.contains(&line.text(kind)) {
        return None;
    }
    let last = (0..kind).rev().find(|&at| !is_sign(at)).filter(|&last| last > 0)?;
    let edits = vec![(between(line, last, kind), ", ".to_owned())];
    let write = line.after(&edits)?;
    Some(Phrase::new("A comma stands between runs of knots.", vec![Rewording::new(write, edits)]))
}

/// `bead pearl on left 1 left 2`, `bead pearl on left 1 and left 2`: `bead pearl on left 1, left 2`.
pub(super) fn strands_of_bead(line: &UnreadLine) -> Option<Phrase> {
    let is_sign = |at| matches!(line.text(at), "and" | "+" | ";" | "&" | "/" | "on");
    let failing = line.failing();
    let next = failing + usize::from(is_sign(failing));
    let is_bead = line.text(0) == "bead" && line.text(2) == "on" && failing > 3 && next < line.tokens.len();
    let edits = is_bead.then(|| vec![(between(line, failing - 1, next), ", ".to_owned())])?;
    let write = line.after(&edits)?;
    Some(Phrase::new(
        "A comma stands between strands that go through one bead.",
        vec![Rewording::new(write, edits)],
    ))
}

/// `for n in 1..3 {`, `for n = 1 to 3 {`: `for n 1 up to 3 {`.
pub(super) fn counter(line: &UnreadLine) -> Option<Phrase> {
    let numbers: Vec<&str> = (2..line.tokens.len())
        .filter(|&at| line.kind(at) == Some(TokenKind::Number))
        .map(|at| line.text(at))
        .collect();
    let &[first, last] = &numbers[..] else { return None };
    if line.text(0) != "for" || line.kind(1) != Some(TokenKind::Word) {
        return None;
    }
    let way = if first.parse::<u64>().ok()? <= last.parse().ok()? { "up" } else { "down" };
    let rest = if line.text(line.tokens.len() - 1) == "{" { " {" } else { "" };
    let write = format!("for {} {first} {way} to {last}{rest}", line.text(1));
    let says = "`for` counts `up to` or `down to` a number.";
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), write)]))
}

/// `forward`, and nothing behind it: `forward 1`.
pub(super) fn count(line: &UnreadLine) -> Option<Phrase> {
    let ProblemKind::Unexpected { expected } = &line.problem.kind else { return None };
    let kind = line.failing().checked_sub(1).filter(|&at| KINDS.contains(&line.text(at)))?;
    let is_number =
        |it: &Expected| matches!(it, Expected::Number | Expected::NumberNoSeries | Expected::NumberOfTurns);
    if !expected.iter().any(is_number) {
        return None;
    }
    let end = line.tokens[kind].span.end;
    let way = |extent: &str| {
        let write = format!("{} {extent}", line.text(kind));
        Rewording::new(write, vec![(Span { start: end, end }, format!(" {extent}"))]).guess()
    };
    let says = "Behind the kind of knot comes how many of them, or how far.";
    Some(Phrase::new(says, vec![way("1"), way("to edge")]))
}
