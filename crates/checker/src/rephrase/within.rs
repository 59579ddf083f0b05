//! Words, signs and texts within a statement that stand in the place of others: `plait 3 over 6 cm`, `work fan() flipped`,
//! `motif fan shade {`, `letters AHOY`.

use super::openings::{MOST_PARAMETERS, orders, strange_names};
use super::{Phrase, Rewording, UnreadLine, number_said};
use knotwright_grammar::tree::{Block, Work};
use knotwright_grammar::{Expected, ProblemKind, Span, TokenKind};
use knotwright_numbers::ToNumber;

/// Words of the notation, with what people say for them.
const INSTEAD: [(&str, &[&str]); 14] = [
    ("in", &["on", "at", "for", "from", "of"]),
    ("across", &["upright", "crosswise", "sideways"]),
    ("on", &["at", "to", "onto", "for", "of", "across"]),
    ("as", &["called", "named", "labeled", "label", "is"]),
    ("for", &["over", "of", "to", "about", "until"]),
    ("turns", &["times", "turn", "wraps", "rounds", "round", "windings"]),
    ("mirrored", &["mirror", "flipped", "reversed", "reflected", "backwards", "flip"]),
    ("side-by-side", &["beside", "adjacent", "together"]),
    ("folded", &["fold", "doubled", "halved"]),
    ("height", &["high", "tall", "size", "of"]),
    ("hole", &["bore", "opening"]),
    ("with", &["as", "to", "in", "by"]),
    ("start", &["beginning", "begin", "same"]),
    ("center", &["centre", "middle", "mid"]),
];

fn expected<'a>(line: &'a UnreadLine) -> Option<&'a [Expected]> {
    match &line.problem.kind {
        ProblemKind::Unexpected { expected } => Some(expected),
        _ => None,
    }
}

/// `plait 3 over 6 cm`: `plait 3 for 6 cm`.
pub(super) fn word(line: &UnreadLine) -> Option<Phrase> {
    let (at, expected) = (line.failing(), expected(line)?);
    let is_meant = |(word, said): &&(&'static str, &[&str])| {
        expected.contains(&Expected::Word(word)) && said.contains(&line.text(at))
    };
    let (word, _) = INSTEAD.iter().find(is_meant)?;
    let way = Rewording::instead(line.tokens.get(at)?.span, *word);
    Some(Phrase::new(format!("The word here is `{word}`, not `{}`.", line.text(at)), vec![way]))
}

/// `start folded pairs side by side`: `side-by-side`.
pub(super) fn side_by_side(line: &UnreadLine) -> Option<Phrase> {
    let at = (0..line.tokens.len()).find(|&at| line.text(at) == "side" && line.text(at + 1) == "by")?;
    let way =
        (line.text(at + 2) == "side").then(|| Rewording::instead(line.span(at, at + 2), "side-by-side"))?;
    Some(Phrase::new("`side-by-side` is one word.", vec![way]))
}

/// `letters AHOY`, `colorway winter {`, `thread kelp green deep kelp`: in quotation marks.
pub(super) fn quotes(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let is_due = expected(line)?.iter().any(|due| matches!(due, Expected::Text(_)));
    let open = usize::from(line.text(line.tokens.len() - 1) == "{");
    let last = line.tokens.len().checked_sub(1 + open).filter(|&last| is_due && at <= last)?;
    // How letters lie stands behind them.
    let is_way = |at: &usize| line.text(0) == "letters" && matches!(line.text(*at), "height" | "across");
    let last = (at + 1..=last).find(is_way).map_or(last, |way| way - 1);
    let is_plain = |at| matches!(line.kind(at), Some(TokenKind::Word | TokenKind::Number | TokenKind::Minus));
    let text = (at..=last).all(is_plain).then(|| line.span(at, last))?;
    let way = Rewording::instead(text, format!("\"{}\"", text.of(&line.source.text)));
    Some(Phrase::new("A text stands in straight quotation marks.", vec![way]))
}

/// `as "crest"`, `motif "fan"()`, `thread kelp "#1f5d50"`: without quotation marks.
pub(super) fn no_quotes(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let span = line.tokens.get(at).filter(|token| token.kind == TokenKind::String)?.span;
    let text = line.text(at).trim_matches('"').trim().replace(' ', "-");
    let is_color = text.starts_with('#');
    let says = match is_color {
        true => "A color has no quotation marks.",
        false => "A name has no quotation marks.",
    };
    (!text.is_empty()).then(|| Phrase::new(says, vec![Rewording::instead(span, text)]))
}

/// `note "Pull "it" tight."`: `note "Pull \"it\" tight."`.
pub(super) fn inner_quotes(line: &UnreadLine) -> Option<Phrase> {
    let failing = line.failing();
    let first = failing.checked_sub(1).filter(|&first| line.kind(first) == Some(TokenKind::String))?;
    let last = (failing..line.tokens.len()).rev().find(|&at| line.kind(at) == Some(TokenKind::String))?;
    let is_inner = line.touch(first) && line.touch(last - 1);
    let text = line.span(first, last).of(&line.source.text);
    let inner = text.get(1..text.len() - 1).filter(|inner| is_inner && !inner.contains(['\\', '{', '}']))?;
    let write = format!("\"{}\"", inner.replace('"', "\\\""));
    let way = Rewording::instead(line.span(first, last), write);
    Some(Phrase::new("A quotation mark within a text is written `\\\"`.", vec![way]))
}

/// `pattern "Low tide`: with the second mark at the end of the line.
pub(super) fn close_quote(line: &UnreadLine) -> Option<Phrase> {
    if line.problem.kind != ProblemKind::UnclosedString {
        return None;
    }
    let start = line.problem.span.start;
    let rest =
        Span { start, end: line.problem.span.whole_lines(&line.source.text).end }.of(&line.source.text);
    // In letters, a space at the end is a gap.
    let text = rest.trim_end_matches(['\r', '\t']);
    let text = text.trim_end().strip_suffix('{').map_or(text, str::trim_end);
    let marks = ['"', '\u{201d}', '\u{201c}', '\u{2019}', '\''];
    let inner = text.strip_prefix('"')?.trim_end_matches(marks);
    let span = Span::new(start.to_usize(), start.to_usize() + text.len());
    let way = Rewording::instead(span, format!("\"{inner}\""));
    let is_plain = !inner.is_empty() && !inner.contains(['"', '{', '}', '\\']);
    is_plain.then(|| Phrase::new("The second quotation mark of this text is missing.", vec![way]))
}

/// `letters 'AHOY'`, `note “Pull it tight.”`: straight marks.
pub(super) fn straight_quotes(line: &UnreadLine) -> Option<Phrase> {
    let start = line.problem.span.start;
    let rest = Span { start, end: line.whole().end }.of(&line.source.text);
    let close = match rest.chars().next()? {
        '\'' | '\u{2018}' | '\u{2019}' | '\u{201a}' => ['\'', '\u{2019}', '\u{2018}'],
        '\u{201c}' | '\u{201d}' | '\u{201e}' => ['\u{201d}', '\u{201c}', '"'],
        '\u{ab}' | '\u{bb}' => ['\u{bb}', '\u{ab}', '\u{bb}'],
        _ => return None,
    };
    let first = rest.chars().next().map_or(0, char::len_utf8);
    let length = rest[first..].rfind(close)?;
    let inner = &rest[first..first + length];
    let mark = rest[first + length..].chars().next().map_or(0, char::len_utf8);
    let span = Span::new(start.to_usize(), start.to_usize() + first + length + mark);
    let is_plain = !inner.is_empty() && !inner.contains(['"', '{', '}', '\\']);
    let way = is_plain.then(|| Rewording::instead(span, format!("\"{inner}\"")))?;
    Some(Phrase::new("A text stands in straight quotation marks.", vec![way]))
}

/// `motif fan shade, reach {`: `motif fan(shade, reach) {`. So does `motif fan {`, if its steps call these.
pub(super) fn parameters(line: &UnreadLine) -> Option<Phrase> {
    let open = line.tokens.len().checked_sub(1).filter(|&open| line.text(open) == "{")?;
    let (first, last) = (2, open.checked_sub(1)?);
    let is_name = |at: usize| matches!(line.kind(at), Some(TokenKind::Word | TokenKind::Comma));
    if line.text(0) != "motif" || line.failing() != first || !(first..=last).all(is_name) {
        return None;
    }
    let names: Vec<&str> = (first..=last).map(|at| line.text(at)).filter(|name| *name != ",").collect();
    let lists = if names.is_empty() { forgotten_parameters(line) } else { vec![names] };
    let span = Span { start: line.tokens[1].span.end, end: line.tokens[last].span.end };
    let way = |names: Vec<&str>| {
        let edits = vec![(span, format!("({})", names.join(", ")))];
        Some(Rewording::new(line.after(&edits)?, edits))
    };
    Some(Phrase::new(
        "What a motif is worked with stands in parentheses behind its name.",
        lists.into_iter().map(way).collect::<Option<_>>()?,
    ))
}

/// What the steps of a motif call that is not known to them, in any order, if it is worked with as many; else nothing.
fn forgotten_parameters<'a>(line: &UnreadLine<'a>) -> Vec<Vec<&'a str>> {
    let names = strange_in_block(line);
    let name = line.text(1);
    let mut works = line.source.parsed.tree.walk().filter_map(|statement| statement.get::<Work>());
    let is_as_many = works.any(|work| work.motif.text == name && work.args.len() == names.len());
    if is_as_many && names.len() <= MOST_PARAMETERS { orders(&names) } else { vec![Vec::new()] }
}

/// What the block calls that the line opens, and that is known nowhere.
fn strange_in_block<'a>(line: &UnreadLine<'a>) -> Vec<&'a str> {
    let source = line.source;
    let own = source.parsed.tree.statement_at(line.whole().start);
    let block = own.and_then(|own| own.node.block());
    let end = |block: &Block| block.close.map_or(block.open.end, |close| close.start);
    block
        .map(|block| strange_names(source, Span { start: block.open.end, end: end(block) }))
        .unwrap_or_default()
}

/// `for 1 up to 4 {`: `for reach 1 up to 4 {`, if only `reach` is not known in its steps; `repeat 4 {`, if all is.
pub(super) fn counting_name(line: &UnreadLine) -> Option<Phrase> {
    if line.text(0) != "for" || line.failing() != 1 || line.kind(1) != Some(TokenKind::Number) {
        return None;
    }
    let way = match strange_in_block(line)[..] {
        [name] => {
            let before = line.tokens[1].span.start;
            let edits = vec![(Span { start: before, end: before }, format!("{name} "))];
            Rewording::new(line.after(&edits)?, edits)
        }
        [] => {
            let open =
                line.tokens.len().checked_sub(1).filter(|&open| open == 5 && line.text(open) == "{")?;
            let number = |at: usize| line.text(at).parse::<u32>().ok();
            let times = number(1)?.abs_diff(number(4)?).checked_add(1)?;
            Rewording::instead(line.span(0, open - 1), format!("repeat {times}")).guess()
        }
        _ => return None,
    };
    Some(Phrase::new("Behind `for` stands the name of the number that it counts.", vec![way]))
}

/// `fan(shade reach)`, `thread dusk navy 12 cm white 12 cm`: with commas between.
pub(super) fn commas(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let before = at.checked_sub(1).filter(|_| at < line.tokens.len())?;
    let open = (0..at).rev().find(|&open| line.text(open) == "(");
    let close = (at..line.tokens.len()).find(|&close| line.text(close) == ")");
    let is_item = |at: usize| matches!(line.kind(at), Some(TokenKind::Word | TokenKind::Number));
    let put =
        |at: usize| (Span { start: line.tokens[at].span.end, end: line.tokens[at].span.end }, ",".to_owned());
    let edits: Vec<(Span, String)> = match open.zip(close) {
        Some((open, close)) => {
            (open + 1..close - 1).filter(|&at| is_item(at) && is_item(at + 1)).map(put).collect()
        }
        None => vec![put(before)],
    };
    let write = line.after(&edits).filter(|_| !edits.is_empty())?;
    let is_list = open.is_some() || line.kind(at) == Some(TokenKind::Color);
    is_list
        .then(|| Phrase::new("A comma is missing between two of them.", vec![Rewording::new(write, edits)]))
}

/// `thread dusk navy 12 cm, "evening sky"`: without the comma.
pub(super) fn comma_before_text(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let comma = at.checked_sub(1).filter(|&comma| line.text(comma) == ",")?;
    let is_text = line.kind(at) == Some(TokenKind::String) && comma > 0;
    let edits = is_text.then(|| vec![(line.tokens[comma].span, String::new())])?;
    Some(Phrase::new("No comma stands before the label.", vec![Rewording::new(line.after(&edits)?, edits)]))
}

/// `work fan() twice`, `take left 1: forward 2 times 3`: `repeat 2 { work fan() }`.
pub(super) fn often(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let rest = line.tokens.len().checked_sub(at)?;
    let number = match (line.kind(at)?, rest) {
        (TokenKind::Number, 2) if matches!(line.text(at + 1), "times" | "x" | "\u{d7}") => {
            line.text(at).to_owned()
        }
        (TokenKind::Word, 1) => number_said(line.text(at))?,
        (TokenKind::Word, 2) if line.text(at + 1) == "times" => number_said(line.text(at))?,
        (TokenKind::Word, 2)
            if matches!(line.text(at), "times" | "x") && line.kind(at + 1) == Some(TokenKind::Number) =>
        {
            line.text(at + 1).to_owned()
        }
        _ => return None,
    };
    let is_step = matches!(line.text(0), "work" | "take" | "meet");
    let statement = line.span(0, at.checked_sub(1).filter(|_| is_step)?).of(&line.source.text);
    let way = Rewording::instead(line.whole(), format!("repeat {number} {{ {statement} }}"));
    Some(Phrase::new("What is tied again stands in `repeat`.", vec![way]))
}

/// `work mirrored fan()`: `work fan() mirrored`.
pub(super) fn mirrored_first(line: &UnreadLine) -> Option<Phrase> {
    let is_mirror = |at| matches!(line.text(at), "mirrored" | "mirror" | "flipped");
    // `mirrored work fan()` has lost its `{`.
    let is_turned = is_mirror(0) && line.text(0) != "mirrored" && line.text(1) == "work";
    let is_first = (is_mirror(1) && line.text(0) == "work") || is_turned;
    let last = line.tokens.len() - 1;
    if !is_first || last < 2 || matches!(line.text(last), "mirrored" | "{") {
        return None;
    }
    let rest = line.span(2, last).of(&line.source.text);
    let way = Rewording::instead(line.whole(), format!("work {rest} mirrored"));
    Some(Phrase::new("`mirrored` stands behind the motif.", vec![way]))
}

/// `set 4 {`, `split 2 parts {`, `both left 1 {`: what stands before the `{` and does not belong there, left out.
pub(super) fn before_brace(line: &UnreadLine) -> Option<Phrase> {
    let (at, open) = (line.failing(), line.tokens.len() - 1);
    let is_due = expected(line)?.contains(&Expected::OpenBrace);
    // What stands behind `face` says what its letters are.
    if !is_due || at >= open || at == 0 || line.text(open) != "{" || line.text(0) == "face" {
        return None;
    }
    let cut = Span { start: line.tokens[at - 1].span.end, end: line.tokens[open - 1].span.end };
    let write = line.span(0, at - 1).of(&line.source.text);
    let idle = line.span(at, open - 1).of(&line.source.text);
    let way =
        Rewording { is_guess: true, ..Rewording::new(format!("{write} {{"), vec![(cut, String::new())]) };
    Some(Phrase::new(format!("`{idle}` does not belong before the `{{`."), vec![way]))
}

/// `meet center 1`: without the number.
pub(super) fn idle_number(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let is_last = at > 0 && at + 1 == line.tokens.len() && line.kind(at) == Some(TokenKind::Number);
    let is_end = expected(line)?.contains(&Expected::LineEnd);
    let cut = (is_last && is_end && line.text(0) == "meet")
        .then(|| Span { start: line.tokens[at - 1].span.end, end: line.tokens[at].span.end })?;
    let way = Rewording::new(line.span(0, at - 1).of(&line.source.text), vec![(cut, String::new())]);
    Some(Phrase::new(format!("No number stands here: leave out `{}`.", line.text(at)), vec![way]))
}

/// `take left 1 as crest (kelp):`: `take left 1 (kelp) as crest:`.
pub(super) fn promise_first(line: &UnreadLine) -> Option<Phrase> {
    let open = line.failing();
    let label = open.checked_sub(2).filter(|&label| line.text(label) == "as" && line.text(open) == "(")?;
    if line.text(0) != "take" || line.text(open + 2) != ")" {
        return None;
    }
    let write = format!("({}) as {}", line.text(open + 1), line.text(label + 1));
    let way = Rewording::instead(line.span(label, open + 2), write);
    Some(Phrase::new("The promised thread comes first, and then the label.", vec![way]))
}

/// `letters "AHOY" 5 high`: `letters "AHOY" height 5`.
pub(super) fn letter_height(line: &UnreadLine) -> Option<Phrase> {
    let at = line.failing();
    let is_number = line.text(0) == "letters" && line.kind(at) == Some(TokenKind::Number);
    let last = line.tokens.len().checked_sub(1).filter(|&last| is_number && last - at <= 2)?;
    let way = Rewording::instead(line.span(at, last), format!("height {}", line.text(at)));
    Some(Phrase::new("How high capitals are stands behind `height`.", vec![way]))
}
