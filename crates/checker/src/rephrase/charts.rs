//! The lines that open a chart or a face, and what is promised of a face, in other words.

use super::{BlockSort, Phrase, Rewording, UnreadLine};
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::Due;

/// What a face may be promised to be, with what people say for it.
const FACES: [(&str, &[&str]); 3] = [
    ("mirror", &["mirror", "mirrored", "symmetric", "symmetrical", "reflected", "same"]),
    ("turn", &["turn", "turned", "rotated", "around"]),
    ("flip", &["flip", "flipped"]),
];

/// How a face is promised to look, in the word of the notation.
pub(super) fn face_said(word: &str) -> Option<&'static str> {
    FACES.iter().find(|(_, said)| said.contains(&word)).map(|(meant, _)| *meant)
}

/// `face mirror`, `expect mirror`: `expect face mirror`.
pub(super) fn face_promise(line: &UnreadLine) -> Option<Phrase> {
    let is_alone = line.tokens.len() == 2 && matches!(line.text(0), "face" | "expect" | "picture");
    let meant = face_said(line.text(1)).filter(|_| is_alone)?;
    let way = Rewording::instead(line.whole(), format!("expect face {meant}"));
    Some(Phrase::new("What a face looks like is promised by `expect face`.", vec![way]))
}

/// `face s soil v vine {`, `face soil s, vine v {`, `picture s = soil {`: `face s soil, v vine {`.
pub(super) fn face_keys(line: &UnreadLine) -> Option<Phrase> {
    let open = line.tokens.len() - 1;
    if !matches!(line.text(0), "face" | "picture" | "image" | "view") || line.text(open) != "{" {
        return None;
    }
    let is_idle = |at: &usize| {
        matches!(line.text(*at), "," | "=" | ":" | "with" | "is" | "for" | "and" | "as" | ";" | "of")
    };
    let words: Vec<usize> = (1..open).filter(|at| !is_idle(at)).collect();
    let is_letter = |at: usize| line.kind(at) == Some(TokenKind::Word) && line.text(at).chars().count() == 1;
    let is_thread = |at: usize| line.given.has(Due::Thread, line.text(at));
    let pair = |two: &[usize]| match *two {
        [letter, thread] if is_letter(letter) && is_thread(thread) => Some((letter, thread)),
        [thread, letter] if is_letter(letter) && is_thread(thread) => Some((letter, thread)),
        _ => None,
    };
    let pairs: Vec<(usize, usize)> = words.chunks(2).map(pair).collect::<Option<_>>()?;
    let keys: Vec<String> = pairs
        .iter()
        .map(|&(letter, thread)| format!("{} {}", line.text(letter), line.text(thread)))
        .collect();
    let write = format!("face {} {{", keys.join(", "));
    let way = (!keys.is_empty()).then(|| Rewording::instead(line.whole(), write))?;
    Some(Phrase::new("Behind `face` comes each letter with its thread, and commas between.", vec![way]))
}

/// `chart {`, `knots {` with rows of marks below: `rows {`, or `leader left 1 {` if the rows have its marks.
pub(super) fn chart(line: &UnreadLine) -> Option<Phrase> {
    let is_block = line.tokens.len() == 2 && line.text(1) == "{" && line.around == BlockSort::Body;
    let tokens = &line.source.parsed.tokens;
    let behind = tokens.partition_point(|token| token.span.start < line.whole().end);
    let rest = tokens[behind..].iter().skip_while(|token| token.kind == TokenKind::Newline);
    let row: Vec<&str> = rest
        .take_while(|token| token.kind != TokenKind::Newline)
        .map(|token| token.span.of(&line.source.text))
        .collect();
    let is_row = !row.is_empty()
        && row.iter().all(|mark| {
            matches!(*mark, "\\" | "/" | "<" | ">" | "." | "#") || mark.bytes().all(|it| it == b'x')
        });
    if !is_block || !is_row || line.failing() > 0 {
        return None;
    }
    let way = |word: &str| Rewording::instead(line.tokens[0].span, word);
    let (says, ways) = match row.contains(&"#") {
        true => (
            "A chart with `#` is that of a strand that goes across all the others, its `leader`.",
            vec![way("leader left 1").guess(), way("leader right 1").guess()],
        ),
        false => ("Knots as they lie in bricks stand in `rows`.", vec![way("rows")]),
    };
    Some(Phrase::new(says, ways))
}
