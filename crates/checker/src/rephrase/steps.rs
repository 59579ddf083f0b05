//! Steps as they are said aloud: without `take`, with numbers in words, with the kinds of knot cut short.

use super::words::KINDS;
use super::{Phrase, Rewording, UnreadLine, between};
use knotwright_grammar::words::WORDS;
use knotwright_grammar::{Expected, ProblemKind, Span, TokenKind};

/// `1. take left 1`, `- take left 1`: without the sign. A row of a chart is no such line.
pub(super) fn list_mark(line: &UnreadLine) -> Option<Phrase> {
    if line.kind(1).is_some_and(|kind| kind == TokenKind::Mark) && line.text(1) != "." {
        return None;
    }
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
const TAKING: [&str; 17] = [
    "with", "using", "use", "pick", "up", "grab", "hold", "move", "work", "then", "now", "next", "the",
    "strand", "tie", "knot", "bring",
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
    if !matches!(line.text(0), "take" | "leader") {
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
const SHORT: [(&str, &str); 17] = [
    ("f", "forward"),
    ("fk", "forward"),
    ("forth", "forward"),
    ("fw", "forward"),
    ("fwd", "forward"),
    ("forwards", "forward"),
    ("b", "backward"),
    ("bw", "backward"),
    ("bwd", "backward"),
    ("back", "backward"),
    ("backwards", "backward"),
    ("bk", "backward"),
    ("fb", "forward-backward"),
    ("fbk", "forward-backward"),
    ("bf", "backward-forward"),
    ("bfk", "backward-forward"),
    ("knot", "forward"),
];

/// The kind that a word is short for: `fwd`, `fwd-bwd`.
pub(super) fn kind_said(word: &str) -> Option<&'static str> {
    let short = |word: &str| SHORT.iter().find(|(short, _)| *short == word).map(|(_, kind)| *kind);
    let one = |half: &str| short(half).or_else(|| KINDS.into_iter().find(|kind| *kind == half));
    match word.split_once('-') {
        Some((first, second)) => match (one(first)?, one(second)?) {
            ("forward", "backward") => Some("forward-backward"),
            ("backward", "forward") => Some("backward-forward"),
            _ => None,
        },
        None => short(word),
    }
}

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
    if matches!(line.text(at), "turn" | "turning" | "turned") && expected.contains(&Expected::Kind) {
        let way = |kind: &str| Rewording::instead(line.tokens[at].span, kind).guess();
        return Some(Phrase::new(says, KINDS[2..].iter().map(|kind| way(kind)).collect()));
    }
    let kind = kind_said(line.text(at)).filter(|_| expected.contains(&Expected::Kind))?;
    let way = Rewording::instead(line.tokens[at].span, kind);
    Some(Phrase::new(says, vec![if line.text(at) == "knot" { way.guess() } else { way }]))
}

/// `take left 1: 3`, `take left 1: 3 knots`, `take left 1: right 3`: `take left 1: forward 3`.
pub(super) fn no_kind(line: &UnreadLine) -> Option<Phrase> {
    let ProblemKind::Unexpected { expected } = &line.problem.kind else { return None };
    let at = line.failing();
    let is_number = |at| line.kind(at) == Some(TokenKind::Number);
    // From the left edge a strand goes to the right.
    let from = if line.text(1) == "right" { ["backward", "forward"] } else { ["forward", "backward"] };
    let is_goal = |at| matches!(line.text(at), "to" | "over" | "until");
    let is_going = matches!(line.text(at), "go" | "tie" | "move" | "bring" | "all") && is_goal(at + 1);
    if expected.contains(&Expected::Kind) && (is_goal(at) || is_going) {
        let start = line.tokens[at].span.start;
        let span = Span { start, end: if is_going { line.tokens[at].span.end } else { start } };
        let way = |kind: &str| {
            let edits = vec![(span, if is_going { kind.to_owned() } else { format!("{kind} ") })];
            Some(Rewording::new(line.after(&edits)?, edits).guess())
        };
        let says =
            "The kind of knot comes before how far: `forward` ties to the right, `backward` to the left.";
        return Some(Phrase::new(says, from.into_iter().filter_map(way).collect()));
    }
    let side = matches!(line.text(at), "left" | "right").then(|| line.text(at)).filter(|_| is_number(at + 1));
    let number = if side.is_some() { at + 1 } else { at };
    if !expected.contains(&Expected::Kind) || !is_number(number) {
        return None;
    }
    let last = number + usize::from(matches!(line.text(number + 1), "knot" | "knots" | "times"));
    let kinds: &[&str] = match side {
        Some("right") => &["forward"],
        Some(_) => &["backward"],
        None => &from,
    };
    let way = |kind: &&str| {
        let way = Rewording::instead(line.span(at, last), format!("{kind} {}", line.text(number)));
        if side.is_some() { way } else { way.guess() }
    };
    let says = "The kind of knot comes before how many: `forward` ties to the right, `backward` to the left.";
    Some(Phrase::new(says, kinds.iter().map(way).collect()))
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
    let is_end = |text: &str| matches!(text, ":" | "," | "as") || KINDS.contains(&text);
    let is_promise = at > 1
        && line.kind(thread) == Some(TokenKind::Word)
        && match line.text(0) {
            "take" => is_end(line.text(last + 1)),
            "leader" => line.text(last + 1) == "{",
            _ => false,
        };
    let text = is_promise.then(|| format!(" ({})", line.text(thread)))?;
    let span = Span { start: line.tokens[at - 1].span.end, end: line.tokens[last].span.end };
    Some(Phrase::new(
        "A promised thread stands in parentheses.",
        vec![Rewording::new(text.trim().to_owned(), vec![(span, text)])],
    ))
}

/// `forward 3 backward 2`, `forward 3 and back 2`: `forward 3, backward 2`.
pub(super) fn runs(line: &UnreadLine) -> Option<Phrase> {
    let is_sign = |at| matches!(line.text(at), "and" | "+" | ";" | "." | "&" | "/");
    let failing = line.failing();
    let at = failing + usize::from(is_sign(failing));
    let said = line.text(at);
    let short = kind_said(said).filter(|_| line.kind(at + 1) == Some(TokenKind::Number));
    let kind = KINDS.into_iter().find(|kind| *kind == said).or(short)?;
    let last = (0..at).rev().find(|&before| !is_sign(before)).filter(|&last| last > 0)?;
    let span = Span { start: line.tokens[last].span.end, end: line.tokens[at].span.end };
    let edits = vec![(span, format!(", {kind}"))];
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
    let (first, last) = match numbers[..] {
        [first, last] => (first, last),
        [first, .., last] if is_in_turn(&numbers) => (first, last),
        _ => return None,
    };
    let is_counter = line.text(0) == "for" || (line.text(0) == "repeat" && numbers.len() > 1);
    if !is_counter || line.kind(1) != Some(TokenKind::Word) {
        return None;
    }
    let way = if first.parse::<u64>().ok()? <= last.parse().ok()? { "up" } else { "down" };
    let rest = if line.text(line.tokens.len() - 1) == "{" { " {" } else { "" };
    let is_idle = |word: &str| matches!(word, "each" | "every" | "all" | "the" | "any");
    let name = 1 + usize::from(is_idle(line.text(1)) && line.kind(2) == Some(TokenKind::Word));
    let write = format!("for {} {first} {way} to {last}{rest}", line.text(name));
    let says = "`for` counts `up to` or `down to` a number.";
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), write)]))
}

/// Whether each number is the one before and 1.
fn is_in_turn(numbers: &[&str]) -> bool {
    let number = |text: &str| text.parse::<u64>().ok();
    numbers
        .windows(2)
        .all(|two| number(two[0]).zip(number(two[1])).is_some_and(|(one, next)| one + 1 == next))
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
