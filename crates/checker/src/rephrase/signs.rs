//! Signs, spaces and units that are missing.

use super::{BlockSort, Phrase, Rewording, UnreadLine};
use knotwright_grammar::words::{Role, WORDS};
use knotwright_grammar::{Expected, ProblemKind, Span, TokenKind};

fn at(offset: u32) -> Span {
    Span { start: offset, end: offset }
}

/// Whether it is a unit of length.
pub(super) fn is_unit(word: &str) -> bool {
    WORDS.iter().any(|known| known.role == Role::Unit && known.text == word)
}

/// `length 12`: `length 12 cm`.
pub(super) fn add_unit(line: &UnreadLine) -> Option<Phrase> {
    let ProblemKind::Unexpected { expected } = &line.problem.kind else { return None };
    let last = line.failing().checked_sub(1).filter(|_| expected.contains(&Expected::Unit))?;
    let number = line.tokens[last].span;
    let units: Vec<&str> = match line.text(0) {
        "thickness" => vec!["mm"],
        _ => usual_units(line),
    };
    let way = |unit: &&str| {
        let write = format!("{} {unit}", line.text(last));
        Rewording::new(write, vec![(at(number.end), format!(" {unit}"))]).guess()
    };
    Some(Phrase::new("A length has a unit: `mm`, `cm`, `m` or `in`.", units.iter().map(way).collect()))
}

/// The units that a length may be in, the likeliest first: that of another length on the line, or in its block.
fn usual_units<'a>(line: &UnreadLine<'a>) -> Vec<&'a str> {
    let own = (1..line.tokens.len())
        .find(|&at| is_unit(line.text(at)) && line.kind(at - 1) == Some(TokenKind::Number));
    let likely: &[&str] = match line.text(0) {
        "bead" => &["mm", "cm", "in"],
        _ if line.around == BlockSort::Gauge => &["mm", "cm", "in"],
        _ => &["cm", "in"],
    };
    let own = own.map(|at| line.text(at));
    own.into_iter().chain(likely.iter().copied().filter(|unit| own != Some(unit))).collect()
}

/// A sign that was forgotten: `:` before the knots, `()` behind a motif, `{` before a block.
pub(super) fn add_sign(line: &UnreadLine) -> Option<Phrase> {
    let ProblemKind::Unexpected { expected } = &line.problem.kind else { return None };
    let failing = line.failing();
    let before = line.tokens.get(failing.checked_sub(1)?)?.span;
    let is_last = failing >= line.tokens.len();
    let (sign, says) = if expected.contains(&Expected::Colon) {
        (":", "A `:` stands between the strand in hand and its knots.")
    } else if expected.contains(&Expected::OpenBrace) && (is_last || line.text(0) != "face") {
        ("{", "A `{` stands before what is in a block.")
    } else if expected.contains(&Expected::OpenParen) {
        ("()", "A motif has parentheses behind its name, also where there is nothing in them.")
    } else if expected.contains(&Expected::CloseParen) {
        (")", "A `(` has its `)`.")
    } else {
        return None;
    };
    // `set:`, `both ( ... )`
    if sign == "{" && !is_last && matches!(line.text(failing), ":" | "(" | "[") {
        return other_brace(line, failing, says);
    }
    let text = if sign == "{" { " {" } else { sign };
    // `take left 1 tie forward 2`, `take left 1, forward 2`
    let is_said_otherwise = sign == ":" && matches!(line.text(failing), "tie" | "make" | "," | "=" | "-");
    let end = if is_said_otherwise { line.tokens[failing].span.end } else { before.end };
    let mut edits = vec![(Span { start: before.end, end }, text.to_owned())];
    let is_apart = sign == "{" && !is_last && line.tokens[failing].span.start == before.end;
    if is_apart {
        edits[0].1.push(' ');
    }
    if sign == "{" && !is_last && line.text(line.tokens.len() - 1) != "{" && !line.is_closed() {
        // What stands on the same line is all that is in the block.
        edits.push((at(line.whole().end), " }".to_owned()));
    }
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// `set:`, `both: take ...`, `both ( take ... )`: a `{` in place of the sign at that number, and a `}` where the line ends.
fn other_brace(line: &UnreadLine, sign: usize, says: &str) -> Option<Phrase> {
    let last = line.tokens.len() - 1;
    let mut edits = vec![(
        Span { start: line.tokens[sign - 1].span.end, end: line.tokens[sign].span.end },
        " {".to_owned(),
    )];
    let is_closed = matches!((line.text(sign), line.text(last)), ("(", ")") | ("[", "]"));
    match (sign < last, is_closed) {
        (true, true) => edits.push((line.tokens[last].span, "}".to_owned())),
        (true, false) if !line.is_closed() && line.text(last) != "{" => {
            edits.push((at(line.whole().end), " }".to_owned()))
        }
        _ => {}
    }
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// A word that was forgotten, if only one word will do: `plait 3 6 cm`, `for row 7 down 2 {`, `wrap ink 5`.
pub(super) fn add_word(line: &UnreadLine) -> Option<Phrase> {
    let ProblemKind::Unexpected { expected } = &line.problem.kind else { return None };
    let before = line.failing().checked_sub(1)?;
    let end = line.tokens[before].span.end;
    let way = |expected: &Expected| match expected {
        Expected::Word(word) => Some((*word, vec![(at(end), format!(" {word}"))])),
        _ => None,
    };
    let mut fitting = expected.iter().filter_map(way).filter(|(_, edits)| line.reads(edits));
    let (word, edits) = fitting.next().filter(|_| fitting.next().is_none())?;
    let says = match line.text(line.failing()) {
        "" => format!("`{word}` is missing at the end of the line."),
        next => format!("`{word}` is missing before `{next}`."),
    };
    Some(Phrase::new(says, vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// `15cm`: `15 cm`.
pub(super) fn add_space(line: &UnreadLine) -> Option<Phrase> {
    if line.problem.kind != ProblemKind::NumberTouchesWord {
        return None;
    }
    let number = (0..line.tokens.len()).find(|&at| line.tokens[at].span.start == line.problem.span.start)?;
    let (digits, word) = (line.text(number), line.text(number + 1));
    let is_unit = is_unit(word);
    let says = match is_unit {
        true => format!("A space stands between a number and its unit, and is missing in `{digits}{word}`."),
        false => format!("A space stands between a number and a word, and is missing in `{digits}{word}`."),
    };
    let is_number = line.kind(number) == Some(TokenKind::Number);
    let edits = vec![(at(line.tokens[number].span.end), " ".to_owned())];
    is_number.then(|| Phrase::new(says, vec![Rewording::new(format!("{digits} {word}"), edits)]))
}

/// `forward 2.`, `repeat 3: {`, `thread ink = #223344`: without the sign.
pub(super) fn idle_sign(line: &UnreadLine) -> Option<Phrase> {
    let failing = line.failing();
    let sign = line.text(failing);
    if !matches!(sign, "." | ";" | ":" | "," | "=" | "(" | ")" | "[" | "]" | "*" | "\u{d7}" | "+" | "&" | "-")
    {
        return None;
    }
    let span = line.tokens[failing].span;
    let before = failing.checked_sub(1).filter(|&before| !line.touch(before));
    let edit = match (before, line.touch(failing)) {
        // A space on both sides is one too many.
        (Some(before), false) => (Span { start: line.tokens[before].span.end, end: span.end }, ""),
        (None, true) if failing > 0 => (span, " "),
        _ => (span, ""),
    };
    let edits = vec![(edit.0, edit.1.to_owned())];
    let write = line.after(&edits)?;
    Some(Phrase::new(format!("The notation has no `{sign}` here."), vec![Rewording::new(write, edits)]))
}
