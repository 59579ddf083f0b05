//! The lines at the top of a file, as people write them from memory.

use super::{Phrase, Rewording, UnreadLine, is_among_first};
use knotwright_color::Rgb;
use knotwright_grammar::{ProblemKind, Span, Token, TokenKind};

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
    let span = Span { start: line.tokens[0].span.end, end: line.tokens[last].span.end };
    let text = span.of(&line.source.text).trim_start_matches([':', '=', ' ']).trim_matches(QUOTES).trim();
    let is_plain = !text.is_empty() && !text.contains(['"', '\\', '{', '}']);
    let text = is_plain.then(|| format!(" \"{text}\""))?;
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

/// `start folded`: how the ends of each thread hang then.
pub(super) fn pairs(line: &UnreadLine) -> Option<Phrase> {
    let is_half = line.text(0) == "start" && line.text(1) == "folded" && line.failing() == line.tokens.len();
    let rest = match line.tokens.len() {
        2 if is_half => " pairs",
        3 if is_half && line.text(2) == "pairs" => "",
        _ => return None,
    };
    let end = line.whole().end;
    let way = |pairs: &str| {
        Rewording::new(
            format!("start folded pairs {pairs}"),
            vec![(Span { start: end, end }, format!("{rest} {pairs}"))],
        )
    };
    let ways = ["mirrored", "side-by-side"].map(|pairs| way(pairs).guess());
    let says = "How the two ends of each thread hang is said by `pairs mirrored` or `pairs side-by-side`.";
    Some(Phrase::new(says, ways.into()))
}

/// `"fish fin" de "Flosse"`: `"fish fin", de "Flosse"`.
pub(super) fn other_language(line: &UnreadLine) -> Option<Phrase> {
    let tag = line.failing();
    let before = tag.checked_sub(1).filter(|&before| line.kind(before) == Some(TokenKind::String))?;
    // `"Pull "it" tight."` has marks within a text.
    let is_tag = line.kind(tag) == Some(TokenKind::Word)
        && line.kind(tag + 1) == Some(TokenKind::String)
        && !(line.touch(before) && line.touch(tag));
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
    let all = (1..line.tokens.len()).take_while(|&at| line.kind(at) == Some(TokenKind::Word)).count();
    let is_color = |name: &str| name.parse::<Rgb>().is_ok();
    // `thread kelp dark green` has a color of two words.
    let is_in_two = || is_color(&format!("{}{}", line.text(all - 1), line.text(all)));
    let is_named = all > 2 && is_color(line.text(all)) && !is_in_two();
    let words = all - usize::from(is_named);
    if words > 1 && (is_named || line.kind(all + 1) == Some(TokenKind::Color)) {
        let name: Vec<&str> = (1..=words).map(|at| line.text(at)).collect();
        let one_word = name.join("-");
        let elsewhere =
            called_elsewhere(line, &name).into_iter().map(|span| (span, one_word.clone())).collect();
        let way = Rewording { elsewhere, ..Rewording::instead(line.span(1, words), one_word.clone()) };
        return Some(Phrase::new("The name of a thread is one word.", vec![way]));
    }
    hex_color(line)
}

/// In more places no name is written by one mend, and in longer files they are not looked for.
const MOST_PLACES: usize = 200;
const MOST_WORDS: usize = 20_000;

/// Where else these words stand one after another; nowhere, if that is not looked for.
fn called_elsewhere(line: &UnreadLine, name: &[&str]) -> Vec<Span> {
    let (source, own) = (line.source, line.whole());
    let tokens = &source.parsed.tokens;
    if tokens.len() > MOST_WORDS || !is_among_first(line.problem, source) {
        return Vec::new();
    }
    let is_name =
        |words: &&[Token]| words.iter().zip(name).all(|(word, name)| word.span.of(&source.text) == *name);
    let places = tokens.windows(name.len()).filter(is_name);
    let spans = places.map(|words| words[0].span.to(words[words.len() - 1].span));
    let others = spans.filter(|span| span.end <= own.start || own.end <= span.start).take(MOST_PLACES);
    let others: Vec<Span> = others.collect();
    if others.len() < MOST_PLACES { others } else { Vec::new() }
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
    if line.text(last) == "," && line.failing() > last {
        let edits = vec![(line.tokens[last].span, String::new())];
        let write = line.after(&edits)?;
        return Some(Phrase::new(
            "No comma stands at the end of a list.",
            vec![Rewording::new(write, edits)],
        ));
    }
    if line.text(last) == "mirror" && last > 1 && line.text(last - 1) != "|" {
        let item = last - 1 - usize::from(line.text(last - 1) == ",");
        let (start, end) = (line.tokens[item].span.end, line.tokens[last].span.start);
        let edits = vec![(Span { start, end }, " | ".to_owned())];
        return Some(Phrase::new("A `|` stands before `mirror`.", vec![Rewording::new("| mirror", edits)]));
    }
    // `night lamp 7`: the last number has no thread behind it.
    let is_item =
        |at: &usize| line.kind(*at) == Some(TokenKind::Word) && line.kind(at + 1) == Some(TokenKind::Number);
    if line.kind(last) == Some(TokenKind::Number)
        && line.failing() == line.tokens.len()
        && line.kind(1) == Some(TokenKind::Word)
    {
        let turned = |at: usize| (line.span(at, at + 1), format!("{} {}", line.text(at + 1), line.text(at)));
        let edits: Vec<(Span, String)> = (1..last).filter(is_item).map(turned).collect();
        let write = line.after(&edits)?;
        let says = "How many strands there are of a thread comes before its name.";
        return Some(Phrase::new(says, vec![Rewording::new(write, edits)]));
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

#[cfg(test)]
mod tests {
    use crate::rephrase::{GivenNames, rephrase_problem};
    use crate::{FileId, Source};

    /// Each of thousands of lines would list all others.
    #[test]
    fn a_name_of_two_words_is_not_sought_everywhere_for_each_of_many_lines() {
        let edits = |lines: usize| {
            let threads = "thread dark kelp #5a2a4a\n".repeat(lines);
            let source = Source::new("a.knot", format!("pattern \"Ebb\"\n{threads}strands 4 dark kelp\n"));
            let (problems, given) = (&source.parsed.problems, GivenNames::of(&source));
            let said =
                problems.iter().filter_map(|problem| rephrase_problem(problem, &given, FileId::CHECKED));
            said.flat_map(|said| said.mends).map(|mend| mend.edits.len()).sum::<usize>()
        };
        assert_eq!(edits(1), 2, "in `strands`, too");
        assert!(edits(60) < 1_000, "{}", edits(60));
    }
}
