//! The lines at the top of a file, as people write them from memory.

use super::{Phrase, Rewording, UnreadLine};
use knotwright_grammar::{ProblemKind, Span, TokenKind};

/// `color ink #223344`: `thread ink #223344`; `title "Tide"`: `pattern "Tide"`.
pub(super) fn other_head(line: &UnreadLine) -> Option<Phrase> {
    if !matches!(line.problem.kind, ProblemKind::UnknownStatement { .. }) || line.failing() > 0 {
        return None;
    }
    let (word, says) = match line.text(0) {
        "color" | "colour" | "yarn" | "string" | "cord" => {
            ("thread", "A color is declared with its `thread`.")
        }
        "title" | "name" | "band" | "bracelet" => ("pattern", "The title of a band stands behind `pattern`."),
        _ => return None,
    };
    Some(Phrase::new(says, vec![Rewording::instead(line.tokens[0].span, word)]))
}

/// Marks that are taken for the straight ones.
const QUOTES: [char; 10] =
    ['"', '\'', '\u{2018}', '\u{2019}', '\u{201a}', '\u{201c}', '\u{201d}', '\u{201e}', '\u{ab}', '\u{bb}'];

/// `pattern Tide`, `pattern “Tide”`: `pattern "Tide"`.
pub(super) fn quoted_title(line: &UnreadLine) -> Option<Phrase> {
    let is_text = matches!(line.text(0), "pattern" | "about" | "author" | "license" | "note" | "section");
    let open = usize::from(line.text(line.tokens.len() - 1) == "{");
    let last = line.tokens.len().checked_sub(1 + open).filter(|&last| is_text && last > 0)?;
    if (1..=last).any(|at| line.kind(at) == Some(TokenKind::String)) {
        return None;
    }
    let span = line.span(1, last);
    let text = span.of(&line.source.text).trim_start_matches([':', '=', ' ']).trim_matches(QUOTES).trim();
    let is_plain = !text.is_empty() && !text.contains(['"', '\\', '{', '}']);
    let text = is_plain.then(|| format!("\"{text}\""))?;
    Some(Phrase::new("A text stands in straight quotation marks.", vec![Rewording::instead(span, text)]))
}

/// `sets {`: `set {`; `set 6`: `sets 6`.
pub(super) fn set_or_sets(line: &UnreadLine) -> Option<Phrase> {
    let (word, says) = match (line.text(0), line.kind(1)?) {
        ("sets", TokenKind::OpenBrace) => ("set", "What is tied over and over stands in `set`."),
        ("set", TokenKind::Number) => ("sets", "How often the set is tied stands behind `sets`."),
        _ => return None,
    };
    Some(Phrase::new(says, vec![Rewording::instead(line.tokens[0].span, word)]))
}

/// `"fish fin" de "Flosse"`: `"fish fin", de "Flosse"`.
pub(super) fn other_language(line: &UnreadLine) -> Option<Phrase> {
    let tag = line.failing();
    let before = tag.checked_sub(1).filter(|&before| line.kind(before) == Some(TokenKind::String))?;
    let is_tag = line.kind(tag) == Some(TokenKind::Word) && line.kind(tag + 1) == Some(TokenKind::String);
    let end = line.tokens[before].span.end;
    let write = format!("{}, {} {}", line.text(before), line.text(tag), line.text(tag + 1));
    let way = Rewording::new(write, vec![(Span { start: end, end }, ",".to_owned())]);
    is_tag.then(|| Phrase::new("A comma stands before the text in another language.", vec![way]))
}

/// `thread #223344 ink`, `thread ink 223344`, `thread "ink" #223344`, `thread deep ink #223344`: name, then color.
pub(super) fn thread_turned(line: &UnreadLine) -> Option<Phrase> {
    if line.text(0) == "bead" {
        return hex_color(line);
    }
    if line.text(0) != "thread" {
        return None;
    }
    if line.kind(1) == Some(TokenKind::Color) && line.kind(2) == Some(TokenKind::Word) {
        let way = Rewording::instead(line.span(1, 2), format!("{} {}", line.text(2), line.text(1)));
        return Some(Phrase::new("The name of a thread comes first, and then its color.", vec![way]));
    }
    if line.kind(1) == Some(TokenKind::String) {
        let name = line.text(1).trim_matches('"').replace(' ', "-");
        let way = Rewording::instead(line.tokens[1].span, name);
        return Some(Phrase::new("The name of a thread has no quotation marks.", vec![way]));
    }
    let words = (1..line.tokens.len()).take_while(|&at| line.kind(at) == Some(TokenKind::Word)).count();
    if words > 1 && line.kind(words + 1) == Some(TokenKind::Color) {
        let name: Vec<&str> = (1..=words).map(|at| line.text(at)).collect();
        let way = Rewording::instead(line.span(1, words), name.join("-"));
        return Some(Phrase::new("The name of a thread is one word.", vec![way]));
    }
    hex_color(line)
}

/// `thread ink 223344`: `thread ink #223344`.
fn hex_color(line: &UnreadLine) -> Option<Phrase> {
    let last =
        (2..line.tokens.len().checked_sub(1)?).take_while(|&at| line.touch(at)).last().map_or(2, |at| at + 1);
    let span = line.tokens.get(2).map(|first| first.span.to(line.tokens[last].span))?;
    let digits = span.of(&line.source.text);
    let is_hex = matches!(digits.len(), 3 | 6) && digits.bytes().all(|byte| byte.is_ascii_hexdigit());
    let way = is_hex.then(|| Rewording::instead(span, format!("#{digits}")))?;
    Some(Phrase::new("A color in hexadecimal digits begins with `#`.", vec![way]))
}

/// `strands a b mirror`: `strands a b | mirror`; `strands a*3`: `strands 3 a`.
pub(super) fn list(line: &UnreadLine) -> Option<Phrase> {
    if !matches!(line.text(0), "strands" | "expect") {
        return None;
    }
    let last = line.tokens.len() - 1;
    if line.text(last) == "mirror" && last > 1 && line.text(last - 1) != "|" {
        let start = line.tokens[last].span.start;
        let edits = vec![(Span { start, end: start }, "| ".to_owned())];
        return Some(Phrase::new("A `|` stands before `mirror`.", vec![Rewording::new("| mirror", edits)]));
    }
    let is_times = |at: &usize| {
        line.kind(at - 1) == Some(TokenKind::Word)
            && matches!(line.text(*at), "*" | "x" | "\u{d7}")
            && line.kind(at + 1) == Some(TokenKind::Number)
    };
    let times: Vec<usize> = (2..line.tokens.len()).filter(is_times).collect();
    let turned =
        |&at: &usize| (line.span(at - 1, at + 1), format!("{} {}", line.text(at + 1), line.text(at - 1)));
    let edits: Vec<(Span, String)> = times.iter().map(turned).collect();
    let write = line.after(&edits).filter(|_| !edits.is_empty())?;
    let says = "How many strands there are of a thread comes before its name.";
    Some(Phrase::new(says, vec![Rewording::new(write, edits)]))
}
